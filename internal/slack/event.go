package slack

import (
	"strings"
	"time"

	"crosslay/bot/chat"
)

// ear turns what Slack sends into events. It knows who the bot is, how people
// are called, and what the department file calls a channel.
type ear struct {
	user, bot string // our own user and bot ids
	called    func(user string) string
	address   func(channel string) string
}

// event is what a callback comes to; false for what is no word to the bot: its
// own messages, those of other bots, people coming and going.
func (e ear) event(cb callback) (chat.Event, bool) {
	h := cb.Event
	switch h.Type {
	case "message", "app_mention":
		return e.message(h)
	case "reaction_added":
		return e.reacted(chat.Reacted, h)
	case "reaction_removed":
		return e.reacted(chat.Unreacted, h)
	}
	return chat.Event{}, false
}

func (e ear) message(h happening) (chat.Event, bool) {
	channel := string(h.Channel)
	switch h.Subtype {
	case "message_changed":
		if h.Message == nil {
			return chat.Event{}, false
		}
		if h.Message.Subtype == "tombstone" { // gone, but answered: a stone marks the place
			return e.deleted(channel, h.Message.TS, h.Message.Thread, h.Stamp, h.Previous)
		}
		return e.changed(channel, *h.Message)
	case "message_deleted":
		thread := ""
		if h.Previous != nil {
			thread = h.Previous.Thread
		}
		return e.deleted(channel, h.Deleted, thread, h.Stamp, h.Previous)
	}
	return e.said(channel, h.wrote)
}

// spoken are the subtypes of messages that people write.
var spoken = map[string]bool{"": true, "file_share": true, "thread_broadcast": true, "me_message": true}

// person reports whether a message is of somebody other than a bot.
func (e ear) person(w wrote) bool {
	return w.Bot == "" && w.User != "" && string(w.User) != e.user && w.User != "USLACKBOT"
}

// said is a message. Its id is that of the post, so that a mention, a second
// delivery and the history all tell of the same one.
func (e ear) said(channel string, w wrote) (chat.Event, bool) {
	if channel == "" || w.TS == "" || !spoken[w.Subtype] || !e.person(w) {
		return chat.Event{}, false
	}
	ev := e.of(chat.Said, channel, w.TS, w.Thread, string(w.User))
	ev.ID = "msg/" + channel + "/" + w.TS
	ev.Ref, ev.Said = chat.Ref(w.TS), instant(w.TS)
	ev.Text, ev.Pics = read(w.Text, e.user, e.called), pictures(w.Files)
	return ev, !ev.Said.IsZero() && (ev.Text != "" || len(ev.Pics) > 0)
}

// changed is an edit. Slack also reports a change when a link is unfurled or a
// thread grows: then nobody has edited anything.
func (e ear) changed(channel string, w wrote) (chat.Event, bool) {
	if channel == "" || w.TS == "" || w.Edited == nil || !spoken[w.Subtype] || !e.person(w) {
		return chat.Event{}, false
	}
	ev := e.of(chat.Edited, channel, w.TS, w.Thread, string(w.User))
	ev.ID = "edit/" + channel + "/" + w.TS + "/" + w.Edited.TS
	ev.Target, ev.Said = chat.Ref(w.TS), instant(w.Edited.TS)
	ev.Text, ev.Pics = read(w.Text, e.user, e.called), pictures(w.Files)
	return ev, !ev.Said.IsZero()
}

func (e ear) deleted(channel, ts, thread, stamp string, was *wrote) (chat.Event, bool) {
	if channel == "" || ts == "" || was != nil && !e.person(*was) {
		return chat.Event{}, false
	}
	author := ""
	if was != nil {
		author = string(was.User)
	}
	ev := e.of(chat.Deleted, channel, ts, thread, author)
	ev.ID = "gone/" + channel + "/" + ts
	ev.Target, ev.Said = chat.Ref(ts), instant(stamp)
	return ev, !ev.Said.IsZero()
}

// reacted is an emoji put on a message or taken off it.
func (e ear) reacted(kind chat.Kind, h happening) (chat.Event, bool) {
	if h.Item.Channel == "" || h.Item.TS == "" || h.User == "" || string(h.User) == e.user {
		return chat.Event{}, false
	}
	ev := e.hand(kind, h.Item.Channel, h.Item.TS, string(h.User), h.Reaction, h.Stamp)
	return ev, !ev.Said.IsZero()
}

// hand is a reaction of one person. Slack tells the room and the message, not the
// thread: that the engine finds by the message.
func (e ear) hand(kind chat.Kind, channel, ts, user, emoji, stamp string) chat.Event {
	ev := e.of(kind, channel, ts, "", user)
	ev.ID = strings.Join([]string{string(kind), channel, ts, user, emoji, stamp}, "/")
	ev.Target, ev.Said, ev.Emoji = chat.Ref(ts), instant(stamp), character(emoji)
	return ev
}

// of is an event of a kind in its place. A root names itself as its thread once
// it was answered; it still stands in the open room.
func (e ear) of(kind chat.Kind, channel, ts, thread, user string) chat.Event {
	ev := chat.Event{Backend: Name, Kind: kind, Author: user, Place: e.place(channel)}
	if thread != ts {
		ev.Place.Thread = chat.Ref(thread)
	}
	if user != "" {
		ev.Name = e.called(user)
	}
	return ev
}

func (e ear) place(channel string) chat.Place {
	if strings.HasPrefix(channel, "D") {
		return chat.Place{Backend: Name, Room: channel, Direct: true}
	}
	return chat.Place{Backend: Name, Room: e.address(channel)}
}

// pictures are the photos among the files of a message.
func pictures(files []file) []chat.Picture {
	var pics []chat.Picture
	for _, f := range files {
		if strings.HasPrefix(f.Type, "image/") {
			pics = append(pics, chat.Picture{Name: f.Name, Type: f.Type, Source: sourceOf(f.ID), Alt: f.Title})
		}
	}
	return pics
}

// chosen is what a pressed button says, in the thread of its message.
func (e ear) chosen(in interaction, p pressed, text string) (chat.Event, bool) {
	channel, ts, thread := in.where()
	if channel == "" || ts == "" || text == "" || in.User.ID == "" {
		return chat.Event{}, false
	}
	ev := e.tapped(channel, ts, thread, in.User.ID, text)
	ev.ID = strings.Join([]string{"tap", channel, ts, in.User.ID, p.ID, p.Stamp}, "/")
	ev.Said = instant(p.Stamp)
	return ev, !ev.Said.IsZero()
}

// where is the message that a button hangs on, with its thread if it is not the
// thread's root.
func (in interaction) where() (channel, ts, thread string) {
	channel, ts, thread = in.Container.Channel, in.Container.TS, in.Message.Thread
	if channel == "" {
		channel = string(in.Channel)
	}
	if ts == "" {
		ts = in.Message.TS
	}
	if thread == "" {
		thread = in.Container.Thread
	}
	return channel, ts, thread
}

// tapped is what was chosen on a message: it is said in the thread that the
// message starts or stands in.
func (e ear) tapped(channel, ts, thread, user, text string) chat.Event {
	ev := e.of(chat.Chosen, channel, "", thread, user)
	if thread == "" && !ev.Place.Direct {
		ev.Place.Thread = chat.Ref(ts)
	}
	ev.Target, ev.Text = chat.Ref(ts), text
	return ev
}

// filled is a dialog that was sent off: what was filled in is said in the thread
// of the message that it was opened from. Slack does not say when.
func (e ear) filled(in interaction, from opened, text string, now time.Time) (chat.Event, bool) {
	if in.View.ID == "" || from.Channel == "" || from.TS == "" || text == "" || in.User.ID == "" {
		return chat.Event{}, false
	}
	ev := e.tapped(from.Channel, from.TS, from.Thread, in.User.ID, text)
	ev.ID, ev.Said = "view/"+in.View.ID, now
	return ev, true
}

// ordered is a slash command: words in the channel that it was typed in. Slack
// does not say when.
func (e ear) ordered(c command, now time.Time) (chat.Event, bool) {
	if c.Trigger == "" || c.Channel == "" || c.User == "" {
		return chat.Event{}, false
	}
	ev := e.of(chat.Said, c.Channel, "", "", c.User)
	ev.ID, ev.Said = "slash/"+c.Trigger, now
	ev.Text = read(c.Text, e.user, e.called)
	if ev.Text == "" {
		ev.Text = "help"
	}
	return ev, true
}
