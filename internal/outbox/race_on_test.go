//go:build race

package outbox_test

// runs is fewer under the race detector, which makes SQLite twenty times slower.
const runs = 12
