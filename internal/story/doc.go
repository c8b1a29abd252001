// Package story plays a department: people speak, edit and react while time
// passes, and the bot is killed and started, through the real engine, a real
// database file and the terminal service. World is the department at play; Parse
// and Play read and play a story file; Simulate plays crews of its own.
package story
