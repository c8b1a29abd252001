//go:build race

package main

// thorough is whether the long plays on Slack are played whole. Under the race
// detector, which makes SQLite twenty times slower, one of each sort is.
const thorough = false
