package slackdouble

import (
	"encoding/json"
	"slices"
)

// Message is a message as people see it.
type Message struct {
	Channel   string
	TS        string
	Thread    string // ts of the root; "" in the open channel
	User      string
	Text      string           // the fallback, if there are blocks
	Blocks    []map[string]any // copies
	EventType string           // of the metadata
	Payload   map[string]any   // of the metadata
	Reactions map[string][]string
	Files     []string // names
	Edited    bool
	OnlyFor   string // the one person who sees it
	Gone      bool   // a tombstone
}

// Messages are what a channel shows, threads folded: no replies.
func (w *Workspace) Messages(channelID string) []Message {
	return w.shown(channelID, func(m *message) bool { return m.thread == "" || m.broadcast })
}

// Thread is a root and its replies.
func (w *Workspace) Thread(channelID, ts string) []Message {
	return w.shown(channelID, func(m *message) bool { return m.ts == ts || m.thread == ts })
}

// All are the messages of a channel, replies among them, in the order in which
// they were written.
func (w *Workspace) All(channelID string) []Message {
	return w.shown(channelID, func(*message) bool { return true })
}

// Posted are the messages of all channels that the bot wrote, in order.
func (w *Workspace) Posted() []Message {
	w.mu.Lock()
	defer w.mu.Unlock()
	var list []Message
	for _, ch := range w.channels {
		for _, m := range ch.messages {
			if m.user == w.BotUser {
				list = append(list, show(ch, m))
			}
		}
	}
	slices.SortFunc(list, func(a, b Message) int { return compareTS(a.TS, b.TS) })
	return list
}

func (w *Workspace) shown(channelID string, keep func(*message) bool) []Message {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	var list []Message
	for _, m := range ch.messages {
		if keep(m) {
			list = append(list, show(ch, m))
		}
	}
	return list
}

func show(ch *channel, m *message) Message {
	s := Message{
		Channel: ch.id, TS: m.ts, Thread: m.thread, User: m.user, Text: m.text, Edited: m.edited != "", OnlyFor: m.ephemeral,
		Gone: m.subtype == "tombstone", Reactions: map[string][]string{},
	}
	if m.metadata != nil {
		s.EventType, _ = m.metadata["event_type"].(string)
		copied(m.metadata["event_payload"], &s.Payload)
	}
	copied(m.blocks, &s.Blocks)
	for _, r := range m.reactions {
		s.Reactions[r.name] = slices.Clone(r.users)
	}
	for _, f := range m.files {
		s.Files = append(s.Files, f.name)
	}
	return s
}

// copied takes a copy through JSON, which is where it came from.
func copied(from, to any) {
	raw, err := json.Marshal(from)
	if err == nil {
		json.Unmarshal(raw, to)
	}
}

func compareTS(a, b string) int {
	return slices.Compare([]byte(padTS(a)), []byte(padTS(b)))
}

// View is a modal in front of a person.
type View struct {
	ID       string
	Callback string
	Title    string
	Metadata string
	Blocks   []map[string]any
	Content  map[string]any // the whole view as the app sent it, ids added
}

// Views are the open views of a person, the one in front last.
func (w *Workspace) Views(user string) []View {
	w.mu.Lock()
	defer w.mu.Unlock()
	var list []View
	for _, v := range w.views {
		if v.user != user || v.closed {
			continue
		}
		s := View{ID: v.id}
		title, _ := v.content["title"].(object)
		s.Title, _ = title["text"].(string)
		s.Callback, _ = v.content["callback_id"].(string)
		s.Metadata, _ = v.content["private_metadata"].(string)
		copied(v.content["blocks"], &s.Blocks)
		copied(v.content, &s.Content)
		list = append(list, s)
	}
	return list
}

// File returns the bytes of a file by its id.
func (w *Workspace) File(id string) (data []byte, found bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	f := w.files[id]
	if f == nil || f.deleted || !f.uploaded {
		return nil, false
	}
	return slices.Clone(f.data), true
}
