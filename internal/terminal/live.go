package terminal

import (
	"context"
	"io"

	"crosslay/bot/chat"
)

// Live is the backend of a serving bot whose rooms are on the terminal: a station
// on the real clock.
type Live struct {
	Station
	In  io.Reader
	Out io.Writer
}

// Name is what department files call the backend.
func (l *Live) Name() string { return Name }

// Run has the station at work until the person leaves or the context ends. Where
// nobody sits at a terminal, the end of the input is not the end of the bot.
func (l *Live) Run(ctx context.Context, receive func(context.Context, chat.Batch) error) error {
	l.Send = func(ev chat.Event) error { return receive(ctx, chat.Batch{Events: []chat.Event{ev}}) }
	done := make(chan error, 1)
	go func() { done <- l.Station.Run(l.In, l.Out) }()
	select {
	case <-ctx.Done():
	case err := <-done:
		if err != nil || l.attended() {
			return err
		}
		<-ctx.Done()
	}
	l.Station.restore()
	return nil
}

// Post implements the outbox's poster.
func (l *Live) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	return l.Hall.Post(ctx, m, place, target)
}

// Keyed says that posting again with the same key is harmless.
func (l *Live) Keyed() bool { return true }
