package slack

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"time"

	"crosslay/bot/chat"
)

// door is the one way in: whatever brings a payload, it is understood, stored,
// and only then answered for.
type door struct {
	b       *Backend
	ear     ear
	receive Receive
	beside  sync.WaitGroup // catch-ups under way
}

// The sorts of payloads, by the names that Socket Mode gives them.
const (
	eventsAPI     = "events_api"
	interactive   = "interactive"
	slashCommands = "slash_commands"
)

// take takes in one payload. The answer, if any, goes back with the
// acknowledgement; an error means that nothing may be acknowledged. What is not
// understood is acknowledged: it would only come again.
func (d *door) take(ctx context.Context, sort string, payload []byte) (answer any, err error) {
	var list []heard
	switch sort {
	case eventsAPI:
		list = d.event(payload)
	case interactive:
		list = d.interaction(ctx, payload)
	case slashCommands:
		var c command
		if json.Unmarshal(payload, &c) != nil {
			break
		}
		if ev, ok := d.ear.ordered(c, time.Now()); ok {
			list = append(list, heard{Event: ev, channel: c.Channel})
			answer = map[string]string{"response_type": "in_channel"} // the channel sees the words, as if typed
		}
	}
	return answer, d.store(ctx, list)
}

func (d *door) event(payload []byte) []heard {
	var cb callback
	if err := json.Unmarshal(payload, &cb); err != nil {
		d.b.report(fmt.Errorf("an event cannot be read: %w", err))
		return nil
	}
	ev, ok := d.ear.event(cb)
	if !ok {
		return nil
	}
	return []heard{cb.Event.heard(ev)}
}

// heard adds to an event what its mark goes by.
func (h happening) heard(ev chat.Event) heard {
	out := heard{Event: ev, channel: string(h.Channel), ts: string(ev.Ref), stamp: h.Stamp}
	if ev.Target != "" {
		out.ts = string(ev.Target)
	}
	switch ev.Kind {
	case chat.Reacted, chat.Unreacted:
		out.channel, out.hand = h.Item.Channel, handOf(string(h.User), h.Reaction)
	case chat.Edited:
		out.stamp = h.Message.Edited.TS
	default:
	}
	return out
}

// store hands the news among what was heard to the inbox, with the marks that
// make it known. It returns when all is stored.
func (d *door) store(ctx context.Context, list []heard) error {
	if len(list) == 0 {
		return nil
	}
	d.b.door.Lock()
	defer d.b.door.Unlock()
	batch, err := d.news(ctx, list)
	if err != nil || len(batch.Events) == 0 && len(batch.Cursors) == 0 {
		return err
	}
	if err := d.receive(ctx, batch); err != nil {
		return fmt.Errorf("store what was heard: %w", err)
	}
	for name, value := range batch.Cursors {
		if strings.HasPrefix(name, seenMark) {
			d.b.seen[name] = value
		}
	}
	return nil
}

// The names of what is kept with the events.
const (
	aboutMark = "mark/"  // channel/stamp: the mark of a message
	seenMark  = "seen/"  // channel: the latest stamp heard
	sinceMark = "since/" // channel: when it was listened to first
	directs   = "directs"
)

func (d *door) news(ctx context.Context, list []heard) (chat.Batch, error) {
	batch := chat.Batch{Cursors: map[string]string{}}
	marks := map[string]mark{}
	for _, h := range list {
		news, err := d.mark(ctx, h, marks, batch.Cursors)
		if err != nil {
			return batch, err
		}
		if !news {
			continue
		}
		h.Arrived = time.Now()
		batch.Events = append(batch.Events, h.Event)
		if h.Kind == chat.Said && h.Ref != "" {
			if err := d.saw(ctx, h, batch.Cursors); err != nil {
				return batch, err
			}
		}
	}
	return batch, nil
}

// mark looks whether an event is news, and keeps the mark that it leaves.
func (d *door) mark(ctx context.Context, h heard, marks map[string]mark, cursors map[string]string) (bool, error) {
	if h.channel == "" || h.ts == "" || h.Kind == chat.Chosen {
		return true, nil
	}
	name := aboutMark + h.channel + "/" + h.ts
	m, ok := marks[name]
	if !ok {
		stored, err := d.b.cfg.Bookmark(ctx, name)
		if err != nil {
			return false, err
		}
		m = markOf(stored)
	}
	was := m.String()
	news := m.take(h)
	marks[name] = m
	if now := m.String(); now != was {
		cursors[name] = now
	}
	return news, nil
}

// saw moves the bookmark of a channel on.
func (d *door) saw(ctx context.Context, h heard, cursors map[string]string) error {
	name := seenMark + h.channel
	was, err := d.seen(ctx, h.channel)
	if err != nil {
		return err
	}
	if v, ok := cursors[name]; ok {
		was = v
	}
	if later(string(h.Ref), was) {
		cursors[name] = string(h.Ref)
	}
	if was == "" && h.Place.Direct {
		return d.met(ctx, h.channel, cursors)
	}
	return nil
}

// seen is the latest stamp that was heard in a channel, "" before the first.
func (d *door) seen(ctx context.Context, channel string) (string, error) {
	name := seenMark + channel
	if was, ok := d.b.seen[name]; ok {
		return was, nil
	}
	was, err := d.b.cfg.Bookmark(ctx, name)
	if err == nil {
		d.b.seen[name] = was
	}
	return was, err
}

// met remembers a direct conversation, to catch up on it after a gap.
func (d *door) met(ctx context.Context, channel string, cursors map[string]string) error {
	known, err := d.b.cfg.Bookmark(ctx, directs)
	if err != nil {
		return err
	}
	if fresh, ok := cursors[directs]; ok {
		known = fresh
	}
	cursors[directs] = strings.TrimSpace(known + " " + channel)
	cursors[sinceMark+channel] = cursors[seenMark+channel]
	return nil
}

// interaction is a pressed button or a dialog that came back.
func (d *door) interaction(ctx context.Context, payload []byte) []heard {
	var in interaction
	if err := json.Unmarshal(payload, &in); err != nil {
		d.b.report(fmt.Errorf("an interaction cannot be read: %w", err))
		return nil
	}
	switch in.Type {
	case "view_submission":
		from, text := in.View.sent()
		if ev, ok := d.ear.filled(in, from, text, time.Now()); ok {
			return []heard{{Event: ev, channel: from.Channel}}
		}
	case "block_actions":
		return d.pressed(ctx, in)
	}
	return nil
}

func (d *door) pressed(ctx context.Context, in interaction) []heard {
	var list []heard
	for _, p := range in.Actions {
		kind, _, _ := strings.Cut(p.ID, "-")
		switch kind {
		case says:
			if ev, ok := d.ear.chosen(in, p, p.Value); ok {
				list = append(list, heard{Event: ev, channel: string(in.Channel)})
			}
		case asks, forms:
			d.b.report(d.b.open(ctx, in, kind, p))
		}
	}
	return list
}

// open shows a dialog at once: the click that asks for it is good for three
// seconds. Nothing is lost if that fails, for the message can be answered in words.
func (b *Backend) open(ctx context.Context, in interaction, kind string, p pressed) error {
	channel, ts, thread := in.where()
	from := opened{channel, ts, thread}
	view := question(p.Label.Text, p.Value, from)
	if kind == forms {
		var s sheet
		if err := json.Unmarshal([]byte(p.Value), &s); err != nil {
			return fmt.Errorf("the form of a button cannot be read: %w", err)
		}
		view = s.dialog(from)
	}
	ctx, cancel := context.WithTimeout(ctx, triggerLife)
	defer cancel()
	if err := b.pace.wait(ctx, "views.open", ""); err != nil {
		return fmt.Errorf("open a form: %w", err)
	}
	if _, err := b.api.OpenViewContext(ctx, in.Trigger, view); err != nil {
		b.pace.heed("views.open", err)
		return fmt.Errorf("open a form: %w", err)
	}
	return nil
}

const triggerLife = 2500 * time.Millisecond
