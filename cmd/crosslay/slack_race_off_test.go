//go:build !race

package main

// thorough is whether the long plays on Slack are played whole.
const thorough = true
