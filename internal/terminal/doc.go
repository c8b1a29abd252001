// Package terminal is the backend that needs no account anywhere: rooms, threads
// and people in one process, and a station at which one person speaks as
// anybody. Service is the chat service; Station is the screen in front of it.
package terminal
