package main

import (
	"context"
	"errors"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/outbox"
	"crosslay/internal/serve"
)

// fetcher is a backend that can fetch the pictures that people sent on its
// service. One that is not there is chat.ErrRefused.
type fetcher interface {
	Fetch(ctx context.Context, pic chat.Picture) ([]byte, error)
}

// relayed lets each backend show pictures that were sent on another: crews may
// write on one service, the shop on the other.
func relayed(backends []serve.Backend) []serve.Backend {
	var out []serve.Backend
	for i, b := range backends {
		r := relay{Backend: b}
		for j, other := range backends {
			if f, ok := other.(fetcher); ok && i != j {
				r.others = append(r.others, f)
			}
		}
		out = append(out, r.withPowers())
	}
	return out
}

// relay is a backend that asks the others for the pictures it does not have.
type relay struct {
	serve.Backend
	others []fetcher
}

// withPowers is the relay with what the outbox may ask its backend beyond posting.
func (r relay) withPowers() serve.Backend {
	finder, finds := r.Backend.(outbox.Finder)
	_, keys := r.Backend.(outbox.Keyed)
	switch {
	case len(r.others) == 0:
		return r.Backend
	case finds && keys:
		return struct {
			keyedRelay
			outbox.Finder
		}{keyedRelay{r}, finder}
	case finds:
		return struct {
			relay
			outbox.Finder
		}{r, finder}
	case keys:
		return keyedRelay{r}
	}
	return r
}

// keyedRelay is a relay whose backend may be keyed.
type keyedRelay struct{ relay }

// Keyed implements outbox.Keyed.
func (r keyedRelay) Keyed() bool { return r.Backend.(outbox.Keyed).Keyed() }

// Post implements outbox.Poster.
func (r relay) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	pics := make([]chat.Picture, len(m.Pics))
	for i, pic := range m.Pics {
		pics[i] = r.fetched(ctx, pic)
	}
	m.Pics = pics
	return r.Backend.Post(ctx, m, place, target)
}

// fetched is the picture with its data, if another backend has it. One that cannot
// be fetched is left as it is: the message does not wait for it for ever.
func (r relay) fetched(ctx context.Context, pic chat.Picture) chat.Picture {
	if len(pic.Data) > 0 || pic.Source == "" {
		return pic
	}
	const tries, pause = 3, 2 * time.Second
	for _, other := range r.others {
		for range tries {
			data, err := other.Fetch(ctx, pic)
			if err == nil {
				pic.Data = data
				return pic
			}
			if errors.Is(err, chat.ErrRefused) || !wait(ctx, pause) {
				break
			}
		}
	}
	return pic
}

// wait waits, unless the context ends first.
func wait(ctx context.Context, d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
		return true
	}
}
