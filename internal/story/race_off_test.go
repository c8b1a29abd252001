//go:build !race

package story

// oneIn is how many stories there are for each that is played: all are.
const oneIn = 1
