// Package chattest has a pretended service that outlives the bot, and the suite
// that every backend passes.
package chattest

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"crosslay/bot/chat"
)

// Shown is a message as people see it.
type Shown struct {
	Ref     chat.Ref
	Place   chat.Place
	Message chat.Message // as it stands now
	Edits   int
	At      int // the how-manyeth deed of the service put it there
}

// Fate is what happens to one attempt to show a message.
type Fate int

// The fates. Lost and Silent look the same from outside: chat.ErrUnsure.
const (
	Shows  Fate = iota
	Fails       // an error before anything was shown
	Lost        // the connection broke before anything was shown
	Silent      // it was shown, and the connection broke
	Asks        // the service asks to wait
	Denies      // the service refuses
)

// Service is the pretended service: what is shown in it stays, however often the
// bot is killed. Attempt, if set, decides the fate of each attempt.
type Service struct {
	Attempt func(m chat.Message) Fate
	Wait    time.Duration   // what Asks asks for
	Rooms   map[string]bool // rooms that exist; nil for all

	mu    sync.Mutex
	shown []*Shown
	keys  map[chat.Key]chat.Ref
	deeds int
}

var errFails = errors.New("connection refused")

// post shows a message once per key if the service goes by keys.
func (s *Service) post(m chat.Message, place chat.Place, target chat.Ref, byKey bool) (chat.Ref, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	fate := Shows
	if s.Attempt != nil {
		fate = s.Attempt(m)
	}
	switch fate {
	case Fails:
		return "", errFails
	case Lost:
		return "", fmt.Errorf("post: %w", chat.ErrUnsure)
	case Asks:
		return "", chat.Wait{For: s.Wait}
	case Denies:
		return "", fmt.Errorf("post: %w", chat.ErrRefused)
	case Shows, Silent:
	}
	ref, err := s.show(m, place, target, byKey)
	if err == nil && fate == Silent {
		return "", fmt.Errorf("post: %w", chat.ErrUnsure)
	}
	return ref, err
}

func (s *Service) show(m chat.Message, place chat.Place, target chat.Ref, byKey bool) (chat.Ref, error) {
	if s.Rooms != nil && !s.Rooms[place.Room] {
		return "", fmt.Errorf("no room %q: %w", place.Room, chat.ErrRefused)
	}
	if target != "" {
		return target, s.edit(m, place, target)
	}
	if place.Thread != "" && s.find(place.Room, place.Thread) == nil {
		return "", fmt.Errorf("no thread %q: %w", place.Thread, chat.ErrRefused)
	}
	if ref, ok := s.keys[m.Key]; ok && byKey {
		return ref, nil
	}
	s.deeds++
	ref := chat.Ref(fmt.Sprintf("r%d", s.deeds))
	s.shown = append(s.shown, &Shown{Ref: ref, Place: place, Message: m, At: s.deeds})
	if s.keys == nil {
		s.keys = map[chat.Key]chat.Ref{}
	}
	s.keys[m.Key] = ref
	return ref, nil
}

func (s *Service) edit(m chat.Message, place chat.Place, target chat.Ref) error {
	old := s.find(place.Room, target)
	if old == nil {
		return fmt.Errorf("no message %q: %w", target, chat.ErrRefused)
	}
	s.deeds++
	key := old.Message.Key // the message is still that one
	old.Message = m
	old.Message.Key = key
	old.Edits++
	return nil
}

func (s *Service) find(room string, ref chat.Ref) *Shown {
	for _, m := range s.shown {
		if m.Ref == ref && m.Place.Room == room {
			return m
		}
	}
	return nil
}

// search finds a message by key.
func (s *Service) search(key chat.Key, place chat.Place) (chat.Ref, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, m := range s.shown {
		if m.Message.Key == key && m.Place.Room == place.Room && m.Place.Thread == place.Thread {
			return m.Ref, true
		}
	}
	return "", false
}

// Shown lists what people see, in the order in which it appeared.
func (s *Service) Shown() []Shown {
	s.mu.Lock()
	defer s.mu.Unlock()
	list := make([]Shown, 0, len(s.shown))
	for _, m := range s.shown {
		list = append(list, *m)
	}
	return list
}

// Count is how often a message of the key is shown.
func (s *Service) Count(key chat.Key) int {
	n := 0
	for _, m := range s.Shown() {
		if m.Message.Key == key {
			n++
		}
	}
	return n
}

// Blind is a backend to a service that can neither be searched nor told the same
// thing twice.
type Blind struct{ Service *Service }

// Post implements outbox.Poster.
func (b Blind) Post(_ context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	return b.Service.post(m, place, target, false)
}

// ByKey is a backend to a service that shows a message once per key.
type ByKey struct{ Service *Service }

// Post implements outbox.Poster.
func (b ByKey) Post(_ context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	return b.Service.post(m, place, target, true)
}

// Keyed implements outbox.Keyed.
func (ByKey) Keyed() bool { return true }

// Searchable is a backend to a service that can be searched by key.
type Searchable struct{ Service *Service }

// Post implements outbox.Poster.
func (b Searchable) Post(_ context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	return b.Service.post(m, place, target, false)
}

// Find implements outbox.Finder.
func (b Searchable) Find(_ context.Context, m chat.Message, place chat.Place, _ time.Time) (chat.Ref, bool, error) {
	ref, ok := b.Service.search(m.Key, place)
	return ref, ok, nil
}
