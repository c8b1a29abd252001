// Package serve is the life of a running bot: it starts the backends, the
// decisions and the sender, wakes them in time, takes up a changed department
// file, answers for its health, and stops all of them in order.
package serve
