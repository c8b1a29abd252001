package slackdouble

import (
	"maps"
	"strings"
	"time"
)

// messageEvent is what the app hears of a new message.
func (w *Workspace) messageEvent(ch *channel, m *message) object {
	o := w.json(ch, m, false)
	delete(o, "reply_count")
	o["channel"], o["channel_type"], o["event_ts"] = ch.id, string(ch.kind), m.ts
	if m.metadata != nil {
		o["metadata"] = m.metadata // MEMORY: message events carry it
	}
	return o
}

func (w *Workspace) changedEvent(ch *channel, m *message, before object) object {
	return w.hidden(ch, "message_changed", object{"message": w.json(ch, m, false), "previous_message": before})
}

func (w *Workspace) hidden(ch *channel, subtype string, more object) object {
	at := w.stamp()
	o := object{
		"type": "message", "subtype": subtype, "hidden": true, "channel": ch.id, "channel_type": string(ch.kind),
		"ts": at, "event_ts": at,
	}
	maps.Copy(o, more)
	return o
}

// delete takes a message out and tells of it: of a root with replies, that it
// changed to a tombstone.
func (w *Workspace) delete(ch *channel, m *message) {
	before, ts := w.json(ch, m, false), m.ts
	if ch.remove(m) {
		w.tell(ch, w.changedEvent(ch, m, before))
		return
	}
	w.tell(ch, w.hidden(ch, "message_deleted", object{"deleted_ts": ts, "previous_message": before}))
}

func (w *Workspace) reactionEvent(ch *channel, m *message, name, user string, add bool) object {
	kind := "reaction_removed"
	if add {
		kind = "reaction_added"
	}
	return object{
		"type": kind, "user": user, "reaction": name, "item_user": m.user, "event_ts": w.stamp(),
		"item": object{"type": "message", "channel": ch.id, "ts": m.ts},
	}
}

// subscribed are the event names that the app's manifest asks for.
var subscribed = map[string]bool{
	"app_mention": true, "message.channel": true, "message.group": true, "message.im": true, "reaction_added": true,
	"reaction_removed": true,
}

// tell delivers an event of a channel to the app, if it is there and asked for
// such events. A mention comes twice, as message and as app_mention.
func (w *Workspace) tell(ch *channel, event object) {
	if !ch.has(w.BotUser) {
		return
	}
	name, _ := event["type"].(string)
	if name == "message" {
		name += "." + string(ch.kind)
	}
	if !subscribed[name] {
		return
	}
	w.publish(event)
	text, _ := event["text"].(string)
	if event["hidden"] == nil && ch.kind != direct && event["bot_id"] == nil && strings.Contains(text, "<@"+w.BotUser+">") {
		mention := maps.Clone(event)
		mention["type"] = "app_mention"
		delete(mention, "channel_type")
		delete(mention, "subtype")
		w.publish(mention)
	}
}

// delivery is one event on its way to the app. The id stays the same however
// often it is delivered.
type delivery struct {
	kind    string // of the envelope
	id      string
	payload []byte
	tries   int
	reason  string // why it comes again
	done    bool
	answer  func(payload []byte) // what the app said to it; nil for events
	lost    func()
	accepts bool
}

func (w *Workspace) publish(event object) {
	id := w.id("Ev")
	payload := encode(object{
		"token": "unused-verification", "team_id": w.TeamID, "api_app_id": w.AppID, "event": event, "type": "event_callback",
		"event_id": id, "event_time": time.Now().Unix(), "is_ext_shared_channel": false, "event_context": "4-" + id,
		"authorizations": []any{object{
			"enterprise_id": nil, "team_id": w.TeamID, "user_id": w.BotUser, "is_bot": true, "is_enterprise_install": false,
		}},
	})
	d := &delivery{kind: "events_api", id: id, payload: payload}
	if w.muted {
		w.lost++
		return
	}
	w.last = d
	w.attempt(d)
}

// attempt hands a delivery to the app, by whichever way is open.
func (w *Workspace) attempt(d *delivery) {
	if w.closed || d.done {
		return
	}
	if w.endpoint != nil {
		go w.postTo(*w.endpoint, d, d.tries, d.reason)
		return
	}
	if s := w.nextSocket(); s != nil {
		s.deliver(d)
		return
	}
	w.missed(d, "connection_failed")
}

// missed plans the next try of a delivery that was not acknowledged. Only events
// are tried again.
func (w *Workspace) missed(d *delivery, reason string) {
	if d.done {
		return
	}
	if d.kind != "events_api" || d.tries >= len(w.opts.Retries) {
		w.lost++
		d.done = true
		if d.lost != nil {
			d.lost()
		}
		return
	}
	wait := w.opts.Retries[d.tries]
	d.tries++
	d.reason = reason
	time.AfterFunc(wait, func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		w.attempt(d)
	})
}
