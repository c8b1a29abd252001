//go:build race

package story

// oneIn is how many stories there are for each that is played: under the race
// detector, which makes SQLite twenty times slower, one in six.
const oneIn = 6
