package matrix

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// read turns what a person did in a room into what the bot hears; false for what
// is no concern of it. The place's thread is the one that the event names; about
// is the message whose thread it is to take if it names none. A redaction comes
// out as Deleted, whatever it takes back.
func read(ev *event.Event, place chat.Place) (out chat.Event, about id.EventID, ok bool) {
	out = chat.Event{
		Backend: Name, ID: string(ev.ID), Said: time.UnixMilli(ev.Timestamp).UTC(), Place: place,
		Author: string(ev.Sender), Name: ev.Sender.Localpart(),
	}
	switch c := ev.Content.Parsed.(type) {
	case *event.MessageEventContent:
		if ev.Type == event.EventMessage {
			about, ok = readMessage(&out, c)
		}
	case *event.ReactionEventContent:
		rel := c.RelatesTo
		out.Kind, out.Target, out.Emoji = chat.Reacted, chat.Ref(rel.GetAnnotationID()), rel.GetAnnotationKey()
		about, ok = rel.GetAnnotationID(), out.Target != "" && out.Emoji != ""
	case *event.RedactionEventContent:
		out.Kind, out.Target = chat.Deleted, chat.Ref(ev.Redacts)
		if c.Redacts != "" {
			out.Target = chat.Ref(c.Redacts)
		}
		ok = out.Target != ""
	}
	return out, about, ok
}

// readMessage reads a message, or an edit of one. Other bots' notices are left
// alone, so that two of them never talk to each other.
func readMessage(out *chat.Event, c *event.MessageEventContent) (about id.EventID, ok bool) {
	if c.MsgType == event.MsgNotice || c.MsgType == event.MsgVerificationRequest || c.MsgType == "" {
		return "", false
	}
	rel := c.RelatesTo
	if target := rel.GetReplaceID(); target != "" {
		if c.NewContent == nil {
			return "", false
		}
		out.Kind, out.Target = chat.Edited, chat.Ref(target)
		out.Text, out.Pics = words(c.NewContent, true), pictures(c.NewContent)
		return target, true
	}
	out.Kind, out.Ref = chat.Said, chat.Ref(out.ID)
	out.Text, out.Pics = words(c, false), pictures(c)
	if out.Text == "" && len(out.Pics) == 0 {
		out.Kind = chat.Lost // a voice message, a file: nobody must believe that it was heard
	}
	if thread := threadOf(rel); thread != "" {
		out.Place.Thread = thread
		return "", true
	}
	return rel.GetReplyTo(), true
}

// words are what a person typed, without what they answered to; an edit does not
// say whether it answers. Of a file they are only its caption.
func words(c *event.MessageEventContent, edited bool) string {
	if c.MsgType.IsMedia() {
		return strings.TrimSpace(c.GetCaption())
	}
	text := unquoted(c)
	if c.RelatesTo.GetReplyTo() != "" || edited {
		text = event.TrimReplyFallbackText(text) // "> all good" is what somebody else said
	}
	return strings.TrimSpace(text)
}

var struck = regexp.MustCompile(`~~[^~]*~~`)

// unquoted is a text without what its writer marked as somebody else's words, or
// struck out. Where the plain form does not show what was struck out, nothing can
// be taken from it.
func unquoted(c *event.MessageEventContent) string {
	text, shape := c.Body, strings.ToLower(c.FormattedBody)
	if strings.Contains(shape, "<blockquote") {
		lines := strings.Split(text, "\n")
		text = strings.Join(slices.DeleteFunc(lines, func(l string) bool { return strings.HasPrefix(l, ">") }), "\n")
	}
	if strings.Contains(shape, "<del>") || strings.Contains(shape, "<s>") || strings.Contains(shape, "<strike>") {
		if !struck.MatchString(text) {
			return ""
		}
		text = struck.ReplaceAllString(text, " ")
	}
	return text
}

// source is what is needed to fetch a picture again: its address, and its key if
// it is encrypted.
type source struct {
	URL  id.ContentURIString      `json:"url,omitempty"`
	File *event.EncryptedFileInfo `json:"file,omitempty"`
}

// pictures lists the picture of a message: a photo, a film, or one that was sent
// as a file.
func pictures(c *event.MessageEventContent) []chat.Picture {
	kind := ""
	if c.Info != nil {
		kind = c.Info.MimeType
	}
	shows := c.MsgType == event.MsgImage || c.MsgType == event.MsgVideo ||
		c.MsgType == event.MsgFile && strings.HasPrefix(kind, "image/")
	if !shows || c.URL == "" && c.File == nil {
		return nil
	}
	raw, err := json.Marshal(source{URL: c.URL, File: c.File})
	if err != nil {
		return nil
	}
	return []chat.Picture{{Name: c.GetFileName(), Type: kind, Source: string(raw), Alt: c.GetCaption()}}
}
