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
	behind  behind
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
		for _, h := range list {
			d.b.first(ctx, d, h.channel)
		}
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
	l := d.ledger(ctx)
	var batch chat.Batch
	for _, h := range list {
		news, err := l.enter(h)
		if err != nil {
			return err
		}
		if news {
			h.Arrived = time.Now()
			batch.Events = append(batch.Events, h.Event)
		}
	}
	batch.Cursors = l.fresh
	return d.put(ctx, batch)
}

func (d *door) put(ctx context.Context, batch chat.Batch) error {
	if len(batch.Events) == 0 && len(batch.Cursors) == 0 {
		return nil
	}
	if err := d.receive(ctx, batch); err != nil {
		return fmt.Errorf("store what was heard: %w", err)
	}
	return nil
}

func (d *door) ledger(ctx context.Context) *ledger {
	return &ledger{load: func(name string) (string, error) { return d.b.cfg.Bookmark(ctx, name) }, fresh: map[string]string{}}
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
