package slack

import (
	"encoding/json"

	"crosslay/bot/chat"
)

// mark is what was taken of one message. Slack delivers again what was not
// acknowledged, up to minutes later and behind what came after it; the history
// tells everything once more, reactions without their times. By its mark each is
// known: an older edit never comes on top of a newer one, and a reaction counts
// once until it is taken off.
type mark struct {
	Edited string          `json:"edited,omitempty"` // stamp of the latest edit taken
	Gone   bool            `json:"gone,omitempty"`
	Hands  map[string]hand `json:"hands,omitempty"` // by user and emoji
}

// hand is a reaction of one person as it was last heard of.
type hand struct {
	On bool   `json:"on"`
	At string `json:"at"`
}

// markOf reads a mark as it was stored; what cannot be read is none.
func markOf(stored string) mark {
	var m mark
	_ = json.Unmarshal([]byte(stored), &m)
	return m
}

func (m mark) String() string {
	data, _ := json.Marshal(m) // strings and booleans always go
	return string(data)
}

// heard is an event with what its mark goes by.
type heard struct {
	chat.Event
	channel, ts string // the message that it is, or is about
	stamp       string // when the edit or the reaction was made
	hand        string // of a reaction: who, and which emoji
}

// take notes an event; false if it is no news.
func (m *mark) take(h heard) bool {
	switch h.Kind {
	case chat.Said:
		return !m.Gone && m.Edited == ""
	case chat.Edited:
		if m.Gone || m.Edited != "" && !later(h.stamp, m.Edited) {
			return false
		}
		m.Edited = h.stamp
	case chat.Deleted:
		if m.Gone {
			return false
		}
		m.Gone, m.Hands = true, nil
	case chat.Reacted, chat.Unreacted:
		return m.react(h)
	case chat.Chosen, chat.Lost, chat.Tick, chat.Accepted, chat.Followup, chat.Started, chat.Reloaded:
	}
	return true
}

func (m *mark) react(h heard) bool {
	on := h.Kind == chat.Reacted
	was, known := m.Hands[h.hand]
	if m.Gone || known && later(was.At, h.stamp) {
		return false
	}
	if m.Hands == nil {
		m.Hands = map[string]hand{}
	}
	m.Hands[h.hand] = hand{On: on, At: h.stamp}
	return on != was.On
}

// shown lists what changed on a message by the reactions that stand on it now:
// those put on and those taken off since the mark was made.
func (m mark) shown(now []reaction) (put, taken []string) {
	stand := map[string]bool{}
	for _, r := range now {
		for _, user := range r.Users {
			key := handOf(user, r.Name)
			stand[key] = true
			if !m.Hands[key].On {
				put = append(put, key)
			}
		}
	}
	for key, h := range m.Hands {
		if h.On && !stand[key] {
			taken = append(taken, key)
		}
	}
	return put, taken
}

// handOf names a reaction of one person. Two skin tones are two reactions.
func handOf(user, emoji string) string { return user + " " + emoji }
