package matrix

import (
	"context"
	"slices"
	"sync"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// mark is what the bot puts into the content of its own messages, inside the
// encryption.
type mark struct {
	Key  chat.Key         `json:"key"`
	Kind chat.MessageKind `json:"kind,omitempty"`
	Says []string         `json:"says,omitempty"` // what a sign may say for its reader
}

// markField is the name of a mark in a message's content.
const markField = "crosslay.message"

// note is what is known of an earlier message: the thread it stands in, and its
// mark if it is the bot's own.
type note struct {
	thread chat.Ref
	mark   mark
}

// beneath is the thread that an answer to the message ref belongs to: the one in
// which it stands, or its own if it is one that people answer in a thread.
func (n note) beneath(ref id.EventID) chat.Ref {
	if n.thread == "" && (n.mark.Kind == chat.Prompt || n.mark.Kind == chat.Defect) {
		return chat.Ref(ref)
	}
	return n.thread
}

// roots remembers the latest messages, so that an answer, an edit or a reaction
// is put where the message it is about stands.
type roots struct {
	mu    sync.Mutex
	notes map[id.EventID]note
	order []id.EventID
}

// remembered is how many messages are kept in memory; older ones are asked for.
const remembered = 2000

func newRoots() *roots { return &roots{notes: map[id.EventID]note{}} }

func (r *roots) put(ref id.EventID, n note) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if _, have := r.notes[ref]; !have {
		r.order = append(r.order, ref)
	}
	r.notes[ref] = n
	if len(r.order) > remembered {
		delete(r.notes, r.order[0])
		r.order = slices.Delete(r.order, 0, 1)
	}
}

func (r *roots) get(ref id.EventID) (note, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	n, ok := r.notes[ref]
	return n, ok
}

// note is what is known of a message: from memory, from what was handed in
// before, or from the server. One that is gone stands nowhere.
func (b *Backend) note(ctx context.Context, room id.RoomID, ref id.EventID) (note, error) {
	if n, ok := b.roots.get(ref); ok {
		return n, nil
	}
	past, ok, err := b.cfg.Past(ctx, string(ref))
	if err != nil {
		return note{}, err
	}
	n := note{thread: past.Place.Thread}
	if !ok {
		ev, err := b.client.GetEvent(ctx, room, ref)
		switch {
		case err != nil && isGone(err):
		case err != nil:
			return note{}, err
		default:
			ev.RoomID = room
			n = b.noteOf(ctx, ev)
		}
	}
	b.roots.put(ref, n)
	return n, nil
}

// noteOf reads a message from the server. One that cannot be decrypted still
// says in which thread it stands.
func (b *Backend) noteOf(ctx context.Context, ev *event.Event) note {
	ev = b.opened(ctx, ev)
	n := note{thread: threadOf(relation(ev))}
	if ev.Sender == b.client.UserID {
		n.mark = markOf(ev)
	}
	return n
}

// opened is an event from outside a sync, decrypted if that can be done.
func (b *Backend) opened(ctx context.Context, ev *event.Event) *event.Event {
	parse(ev)
	if ev.Type != event.EventEncrypted {
		return ev
	}
	if clear, err := b.vault.decrypt(ctx, ev); err == nil {
		return clear
	}
	return ev
}

// parse makes an event from outside a sync like one from inside.
func parse(ev *event.Event) {
	ev.Type.Class = event.MessageEventType
	if ev.StateKey != nil {
		ev.Type.Class = event.StateEventType
	}
	_ = ev.Content.ParseRaw(ev.Type) // what cannot be parsed has no content, and is skipped as such
}

// relation is what an event says of others, also in the clear part of an
// encrypted one; nil for nothing.
func relation(ev *event.Event) *event.RelatesTo {
	switch c := ev.Content.Parsed.(type) {
	case *event.MessageEventContent:
		return c.RelatesTo
	case *event.EncryptedEventContent:
		return c.RelatesTo
	case *event.ReactionEventContent:
		return &c.RelatesTo
	}
	return nil
}

// olderThread is what clients call a thread whose server does not say that it
// knows threads.
const olderThread event.RelationType = "io.element.thread"

// threadOf is the root of the thread that a message stands in, "" for none.
func threadOf(rel *event.RelatesTo) chat.Ref {
	if rel != nil && (rel.Type == event.RelThread || rel.Type == olderThread) {
		return chat.Ref(rel.EventID)
	}
	return ""
}

// markOf reads the bot's own mark back.
func markOf(ev *event.Event) mark {
	raw, ok := ev.Content.Raw[markField].(map[string]any)
	if !ok {
		return mark{}
	}
	var m mark
	key, _ := raw["key"].(string)
	kind, _ := raw["kind"].(string)
	m.Key, m.Kind = chat.Key(key), chat.MessageKind(kind)
	says, _ := raw["says"].([]any)
	for _, s := range says {
		if text, ok := s.(string); ok {
			m.Says = append(m.Says, text)
		}
	}
	return m
}
