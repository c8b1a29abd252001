package slack

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"crosslay/bot/chat"
)

// The names of what is kept with the events.
const (
	aboutMark   = "mark/"    // channel/stamp: the mark of a message
	channelMark = "channel/" // channel: its track
	directs     = "directs"  // the direct conversations, with blanks between them
)

// ledger is what is kept of messages and channels, as one batch finds and leaves
// it.
type ledger struct {
	load  func(name string) (string, error)
	fresh map[string]string // what is to be stored
}

func (l *ledger) get(name string) (string, error) {
	if v, ok := l.fresh[name]; ok {
		return v, nil
	}
	v, err := l.load(name)
	if err != nil {
		return "", fmt.Errorf("look up what is kept as %s: %w", name, err)
	}
	return v, nil
}

// put keeps a value, if it is another one.
func (l *ledger) put(name, was, is string) {
	if was != is {
		l.fresh[name] = is
	}
}

// enter notes an event; false if it is no news.
func (l *ledger) enter(h heard) (bool, error) {
	if h.channel == "" || h.ts == "" || h.Kind == chat.Chosen {
		return true, nil
	}
	name := aboutMark + h.channel + "/" + h.ts
	stored, err := l.get(name)
	if err != nil {
		return false, err
	}
	m := markOf(stored)
	was := m.String()
	news := m.take(h)
	if is := m.String(); is != was {
		l.put(name, stored, is)
	}
	if news && h.Kind == chat.Said {
		err = l.follow(h)
	}
	return news, err
}

// follow moves the track of a channel on.
func (l *ledger) follow(h heard) error {
	name := channelMark + h.channel
	stored, err := l.get(name)
	if err != nil {
		return err
	}
	t := trackOf(stored)
	if t.Since == "" && h.Place.Direct {
		t.Since = h.ts
		if err := l.meet(h.channel); err != nil {
			return err
		}
	}
	t.heard(utterance{h.ts, string(h.Place.Thread)})
	l.put(name, stored, t.String())
	return nil
}

// meet remembers a direct conversation, to catch up on it after a gap.
func (l *ledger) meet(channel string) error {
	known, err := l.get(directs)
	if err != nil {
		return err
	}
	if !slices.Contains(strings.Fields(known), channel) {
		l.put(directs, known, strings.TrimSpace(known+" "+channel))
	}
	return nil
}

// track is how far a channel was listened to.
type track struct {
	Since  string      `json:"since,omitempty"`  // from when on; "" before it was listened to
	Latest string      `json:"latest,omitempty"` // the latest word
	Recent []utterance `json:"recent,omitempty"` // of the last days, in order
}

// utterance is a message of somebody, by its stamp and its thread's.
type utterance struct {
	TS     string `json:"ts"`
	Thread string `json:"in,omitempty"`
}

func trackOf(stored string) track {
	var t track
	_ = json.Unmarshal([]byte(stored), &t) // what cannot be read is a channel that is new
	return t
}

func (t track) String() string {
	data, _ := json.Marshal(t) // strings always go
	return string(data)
}

// mostRecent is how many messages of a channel are remembered.
const mostRecent = 400

// heard notes a message, and forgets those of days ago.
func (t *track) heard(u utterance) {
	if later(u.TS, t.Latest) {
		t.Latest = u.TS
	}
	known := slices.Contains(t.Recent, u)
	oldest := instant(t.Latest).Add(-young)
	t.Recent = slices.DeleteFunc(t.Recent, func(r utterance) bool { return instant(r.TS).Before(oldest) })
	if known || instant(u.TS).Before(oldest) {
		return
	}
	t.Recent = append(t.Recent, u)
	slices.SortFunc(t.Recent, func(a, b utterance) int { return instant(a.TS).Compare(instant(b.TS)) })
	t.Recent = t.Recent[max(0, len(t.Recent)-mostRecent):]
}
