package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// hearing is one sync on its way into the inbox.
type hearing struct {
	*ear
	now     time.Time
	events  []chat.Event
	after   []int64 // by event: no event of its room may go before this, in ms
	cursors map[string]string
	unread  []sealed
}

// sealed is a message that waits for its keys.
type sealed struct {
	Event *event.Event `json:"event"`
	Since time.Time    `json:"since"`          // when it came
	Told  bool         `json:"told,omitempty"` // people were asked to send it again
}

// The bounds of what waits for keys.
const (
	keepUnread = 24 * time.Hour
	mostUnread = 500
)

// room hears what a sync brought of one room, and what it left out.
func (h *hearing) room(ctx context.Context, room id.RoomID, line mautrix.SyncTimeline) error {
	last, err := h.cfg.Cursor(ctx, lastCursor(room))
	if err != nil {
		return err
	}
	events, err := h.fresh(ctx, room, line, last)
	if err != nil {
		return err
	}
	if n := len(line.Events); n > 0 {
		h.cursors[lastCursor(room)] = string(line.Events[n-1].ID)
	}
	if last == "" && h.since == "" || len(events) == 0 {
		return nil // what was said before the bot first listened is not for it
	}
	place, ours, err := h.rooms.place(ctx, room)
	if err != nil || !ours {
		return err
	}
	for _, ev := range events {
		if err := h.event(ctx, ev, place); err != nil {
			return err
		}
	}
	return nil
}

// fresh lists what happened in a room since the event last, or since the bot
// joined, in order.
func (h *hearing) fresh(ctx context.Context, room id.RoomID, line mautrix.SyncTimeline, last string) ([]*event.Event, error) {
	events := line.Events
	if from := h.cut(events, last); from > 0 {
		return events[from:], nil
	}
	if !line.Limited || last == "" && h.since == "" {
		return events, nil
	}
	older, err := h.page(ctx, room, line.PrevBatch, last)
	return append(older, events...), err
}

// cut is where what is new begins, behind the event last or the bot's own latest
// entry; 0 if neither is among the events.
func (h *hearing) cut(events []*event.Event, last string) int {
	for i, ev := range slices.Backward(events) {
		if string(ev.ID) == last && last != "" || h.isOwnJoin(ev) {
			return i + 1
		}
	}
	return 0
}

func (h *hearing) isOwnJoin(ev *event.Event) bool {
	if ev.Type.Type != event.StateMember.Type || ev.GetStateKey() != string(h.client.UserID) {
		return false
	}
	was := ""
	if prev := ev.Unsigned.PrevContent; prev != nil {
		was, _ = prev.Raw["membership"].(string)
	}
	is, _ := ev.Content.Raw["membership"].(string)
	return is == string(event.MembershipJoin) && was != is
}

// A gap is paged back in pages, up to a number that only a mistake exceeds.
const (
	pageSize  = 100
	mostPages = 500
)

// page fetches what a sync left out, from the token back to the event last or the
// bot's own entry, in order.
func (h *hearing) page(ctx context.Context, room id.RoomID, from, last string) ([]*event.Event, error) {
	var back []*event.Event
	for range mostPages {
		resp, err := h.client.Messages(ctx, room, from, "", mautrix.DirectionBackward, nil, pageSize)
		if err != nil && isGone(err) {
			break
		}
		if err != nil {
			return nil, err
		}
		for _, ev := range resp.Chunk {
			if string(ev.ID) == last && last != "" || h.isOwnJoin(ev) {
				slices.Reverse(back)
				return back, nil
			}
			ev.RoomID = room
			parse(ev)
			back = append(back, ev)
		}
		if resp.End == "" || resp.End == from || len(resp.Chunk) == 0 {
			break
		}
		from = resp.End
	}
	slices.Reverse(back)
	return back, nil
}

// event hears one event of a room; a message that cannot be decrypted waits.
func (h *hearing) event(ctx context.Context, ev *event.Event, place chat.Place) error {
	if ev.StateKey != nil || ev.Sender == h.client.UserID || ev.Unsigned.RedactedBecause != nil {
		return nil
	}
	if ev.Type == event.EventEncrypted {
		if c, ok := ev.Content.Parsed.(*event.EncryptedEventContent); !ok || c.Algorithm == "" {
			return nil // redacted
		}
		clear, err := h.vault.decrypt(ctx, ev)
		if err != nil {
			return h.keep(ctx, ev, err)
		}
		ev = clear
	}
	return h.clear(ctx, ev, place)
}

// clear hears an event that can be read.
func (h *hearing) clear(ctx context.Context, ev *event.Event, place chat.Place) error {
	out, about, ok := read(ev, place)
	if !ok {
		return nil
	}
	if out.Kind == chat.Deleted {
		var err error
		if out, ok, err = h.takenBack(ctx, out); err != nil || !ok {
			return err
		}
	}
	if about != "" {
		n, err := h.note(ctx, ev.RoomID, about)
		if err != nil {
			return err
		}
		out.Place.Thread = n.beneath(about)
		if says := n.mark.saying(out.Emoji); out.Kind == chat.Reacted && says != "" {
			out.Kind, out.Text = chat.Chosen, says
		}
	}
	if out.Ref != "" {
		h.roots.put(ev.ID, note{thread: out.Place.Thread})
	}
	h.add(ctx, ev, out)
	return nil
}

// add puts an event into the batch.
func (h *hearing) add(ctx context.Context, ev *event.Event, out chat.Event) {
	if m, err := h.client.StateStore.TryGetMember(ctx, ev.RoomID, id.UserID(out.Author)); err == nil && m != nil && m.Displayname != "" {
		out.Name = m.Displayname
	}
	out.Arrived = h.now.UTC()
	after := ev.Timestamp
	for i, other := range h.events { // a clock that runs back does not turn a room's order
		if other.Place.Room == out.Place.Room {
			after = max(after, h.after[i])
		}
	}
	h.events, h.after = append(h.events, out), append(h.after, after)
}

// takenBack says what a redaction takes back: a message, or a reaction.
func (h *hearing) takenBack(ctx context.Context, out chat.Event) (chat.Event, bool, error) {
	h.unread = slices.DeleteFunc(slices.Clone(h.unread), func(s sealed) bool { return string(s.Event.ID) == string(out.Target) })
	past, ok, err := h.earlier(ctx, string(out.Target))
	if err != nil || !ok {
		return out, true, err
	}
	switch past.Kind {
	case chat.Reacted:
		out.Kind, out.Target, out.Emoji, out.Author = chat.Unreacted, past.Target, past.Emoji, past.Author
	case chat.Said:
	case chat.Edited:
		out.Target = past.Target // nobody can tell which older words stand now: none do
	default:
		return out, false, nil // a choice: what it said stands until somebody says otherwise
	}
	out.Place = past.Place
	return out, true, nil
}

// earlier is an event heard before, in this sync or in another.
func (h *hearing) earlier(ctx context.Context, ref string) (chat.Event, bool, error) {
	for _, ev := range h.events {
		if ev.ID == ref {
			return ev, true, nil
		}
	}
	return h.cfg.Past(ctx, ref)
}

// keep keeps a message until its keys come, and asks for them.
func (h *hearing) keep(ctx context.Context, ev *event.Event, why error) error {
	if errors.Is(why, errNoEncryption) {
		h.cfg.Log.Warn("matrix: a message was not heard", "event", string(ev.ID), "error", why.Error())
		return nil
	}
	if slices.ContainsFunc(h.unread, func(s sealed) bool { return s.Event.ID == ev.ID }) {
		return nil
	}
	h.cfg.Log.Info("matrix: a message waits for its keys", "event", string(ev.ID), "error", why.Error())
	h.unread = append(slices.Clone(h.unread), sealed{Event: ev, Since: h.now})
	if over := len(h.unread) - mostUnread; over > 0 {
		h.unread = h.unread[over:]
	}
	if err := h.vault.request(ctx, ev); err != nil {
		h.cfg.Log.Warn("matrix: keys not asked for", "event", string(ev.ID), "error", plainOrOwn(err))
	}
	return nil
}

// retry tries again what waits for keys, and tells the bot of what has waited too
// long.
func (h *hearing) retry(ctx context.Context) error {
	var still []sealed
	for _, s := range h.unread {
		parse(s.Event)
		place, ours, err := h.rooms.place(ctx, s.Event.RoomID)
		if err != nil {
			return err
		}
		clear, why := h.vault.decrypt(ctx, s.Event)
		switch {
		case !ours || h.now.Sub(s.Since) > keepUnread:
			continue
		case why == nil:
			if err := h.clear(ctx, clear, place); err != nil {
				return err
			}
			continue
		case !s.Told && h.now.Sub(s.Since) >= h.cfg.Patience:
			if err := h.lost(ctx, s.Event, place); err != nil {
				return err
			}
			s.Told = true
		}
		still = append(still, s)
	}
	h.unread = still
	return nil
}

// lost tells the bot of a message that cannot be read. Where it stands is said in
// the clear.
func (h *hearing) lost(ctx context.Context, ev *event.Event, place chat.Place) error {
	rel := relation(ev)
	about := rel.GetReplaceID()
	if about == "" {
		about = rel.GetReplyTo()
	}
	if thread := threadOf(rel); thread != "" {
		place.Thread = thread
	} else if about != "" {
		n, err := h.note(ctx, ev.RoomID, about)
		if err != nil {
			return err
		}
		place.Thread = n.beneath(about)
	}
	h.add(ctx, ev, chat.Event{
		Backend: Name, ID: "lost/" + string(ev.ID), Kind: chat.Lost, Said: time.UnixMilli(ev.Timestamp).UTC(), Place: place,
		Author: string(ev.Sender), Name: ev.Sender.Localpart(),
	})
	return nil
}

// batch is what is handed in: the events as they were said, over all rooms, and
// the bookmarks that go with them.
func (h *hearing) batch(next string) (chat.Batch, error) {
	order := make([]int, len(h.events))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(h.after[a] - h.after[b]) })
	batch := chat.Batch{Cursors: h.cursors}
	for _, i := range order {
		batch.Events = append(batch.Events, h.events[i])
	}
	kept, err := json.Marshal(h.unread)
	batch.Cursors[h.sinceCursor()], batch.Cursors[h.unreadCursor()] = next, string(kept)
	return batch, err
}
