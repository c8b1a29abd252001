package story

import (
	"context"
	"time"

	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
	"crosslay/internal/terminal"
)

// Restore fills a terminal service with what the bot sent in earlier runs on the
// same file, so that its threads can be found again. It returns when the last of
// it was sent; zero for an empty file.
func Restore(svc *terminal.Service, store *sqlite.Store) (time.Time, error) {
	sent, err := store.Outgoing(context.Background(), outbox.Sent)
	if err != nil {
		return time.Time{}, err
	}
	var last time.Time
	for _, o := range sent {
		svc.Restore(o.Message, o.Thread, o.Ref, o.Settled)
		if o.Settled.After(last) {
			last = o.Settled
		}
	}
	return last, nil
}
