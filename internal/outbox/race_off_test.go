//go:build !race

package outbox_test

// runs is how many kill runs there are for each kind of service.
const runs = 100
