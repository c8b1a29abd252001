package matrix

import (
	"html"
	"strings"
	"unicode"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// largest is how many bytes of text a message may have before its HTML is left
// out: an event has at most 65,536 bytes, with the text in it up to four times
// (an edit has the old clients' form too) and a third more for the encryption.
const largest = 9000

// show is the content of a new message in a place.
func show(m chat.Message, place chat.Place) *event.Content {
	c := body(m)
	if place.Thread != "" {
		root := id.EventID(place.Thread)
		c.RelatesTo = (&event.RelatesTo{}).SetThread(root, root)
	}
	return marked(c, m)
}

// revise is the content of an edit, which shows m in the place of target. Clients
// that know no edits show its first line.
func revise(m chat.Message, target chat.Ref) *event.Content {
	c := body(m)
	fallback, _, _ := strings.Cut(c.Body, "\n")
	return marked(&event.MessageEventContent{
		MsgType: c.MsgType, Body: "* " + fallback, Mentions: &event.Mentions{}, NewContent: c,
		RelatesTo: (&event.RelatesTo{}).SetReplace(id.EventID(target)),
	}, m)
}

func marked(c *event.MessageEventContent, m chat.Message) *event.Content {
	k := map[string]any{"key": string(m.Key)}
	if m.Kind != "" {
		k["kind"] = string(m.Kind)
	}
	if says := offers(m); len(says) > 0 {
		k["says"] = says
	}
	return &event.Content{Parsed: c, Raw: map[string]any{markField: k}}
}

// body is a message as people see it: plain for a lock screen, and HTML. An echo
// rings nobody's phone, and no words in it call anybody (the empty mentions).
func body(m chat.Message) *event.MessageEventContent {
	c := &event.MessageEventContent{MsgType: event.MsgText, Mentions: &event.Mentions{}}
	if m.Kind == chat.Echo {
		c.MsgType = event.MsgNotice
	}
	c.Body = plainText(m)
	if len(c.Body) <= largest {
		c.Format, c.FormattedBody = event.FormatHTML, htmlText(m)
	}
	return c
}

func plainText(m chat.Message) string {
	text := printable(m.Plain())
	if offer := offerLine(m, func(s string) string { return s }); offer != "" {
		text += "\n" + offer
	}
	return text
}

// offerLine is what other services have buttons for: "Reply: 👍 all good · 🚨 on a call".
func offerLine(m chat.Message, style func(string) string) string {
	var parts []string
	for _, says := range offers(m) {
		part := style(printable(says))
		if s := signFor(says); s != "" {
			part = s + " " + part
		}
		parts = append(parts, part)
	}
	if len(parts) == 0 {
		return ""
	}
	return "Reply: " + strings.Join(parts, " · ")
}

// htmlText shows each block as a paragraph. Roles are set off by weight and
// slant, and cautions by a sign too; never by colour.
func htmlText(m chat.Message) string {
	var b strings.Builder
	for _, block := range m.Blocks {
		if len(block.Lines) == 0 {
			continue
		}
		lines := make([]string, len(block.Lines))
		for i, l := range block.Lines {
			lines[i] = html.EscapeString(printable(l))
		}
		open, shut := tags(block.Role)
		b.WriteString("<p>" + open + strings.Join(lines, "<br>") + shut + "</p>")
	}
	if offer := offerLine(m, func(s string) string { return "<code>" + html.EscapeString(s) + "</code>" }); offer != "" {
		b.WriteString("<p>" + offer + "</p>")
	}
	return b.String()
}

func tags(r chat.Role) (open, shut string) {
	switch r {
	case chat.Title:
		return "<strong>", "</strong>"
	case chat.Hint:
		return "<em>", "</em>"
	case chat.Safety:
		return "⚠️ <strong>", "</strong>"
	case chat.Body, chat.List:
	}
	return "", ""
}

// printable is a text without the characters that steer screens.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, text)
}
