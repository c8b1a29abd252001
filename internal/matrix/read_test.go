package matrix

import (
	"encoding/json"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// eventOf makes an event as the server sends it, by the forms of the Matrix
// client-server specification (v1.13: m.room.message, m.replace, m.thread, rich
// replies, m.annotation, m.room.redaction).
func eventOf(t testing.TB, kind, content string) *event.Event {
	t.Helper()
	var ev event.Event
	raw := `{"event_id":"$e","sender":"@ana:localhost","origin_server_ts":1764075600000,"room_id":"!r:localhost","type":"` + kind + `","redacts":"$old","content":` + content + `}`
	if err := json.Unmarshal([]byte(raw), &ev); err != nil {
		t.Skip(err)
	}
	parse(&ev)
	return &ev
}

func TestRead(t *testing.T) {
	place := chat.Place{Backend: Name, Room: "#st1:localhost"}
	thread := place
	thread.Thread = "$root"
	base := chat.Event{
		Backend: Name, ID: "$e", Author: "@ana:localhost", Name: "ana", Place: place,
		Said: time.Date(2025, 11, 25, 13, 0, 0, 0, time.UTC),
	}
	with := func(f func(*chat.Event)) *chat.Event {
		ev := base
		f(&ev)
		return &ev
	}
	said := func(text string) *chat.Event {
		return with(func(ev *chat.Event) { ev.Kind, ev.Ref, ev.Text = chat.Said, "$e", text })
	}
	cases := map[string]struct {
		kind, content string
		want          *chat.Event // nil: no concern
		about         id.EventID
	}{
		"text":  {"m.room.message", `{"msgtype":"m.text","body":" all good "}`, said("all good"), ""},
		"emote": {"m.room.message", `{"msgtype":"m.emote","body":"1 ok"}`, said("1 ok"), ""},
		"thread": {"m.room.message", `{"msgtype":"m.text","body":"1 ok","m.relates_to":{"rel_type":"m.thread","event_id":"$root","is_falling_back":true,"m.in_reply_to":{"event_id":"$x"}}}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Ref, ev.Text, ev.Place = chat.Said, "$e", "1 ok", thread }), ""},
		"thread_of_an_older_server": {"m.room.message", `{"msgtype":"m.text","body":"1 ok","m.relates_to":{"rel_type":"io.element.thread","event_id":"$root"}}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Ref, ev.Text, ev.Place = chat.Said, "$e", "1 ok", thread }), ""},
		"reply": {"m.room.message", `{"msgtype":"m.text","body":"> <@bot:localhost> 1 low\n\n1 ok","m.relates_to":{"m.in_reply_to":{"event_id":"$x"}}}`, said("1 ok"), "$x"},
		"reply_html": {"m.room.message", `{"msgtype":"m.text","body":"> <@bot:localhost> all good\n\n1 low","format":"org.matrix.custom.html","formatted_body":"<mx-reply>all good</mx-reply>1 low","m.relates_to":{"m.in_reply_to":{"event_id":"$x"}}}`,
			said("1 low"), "$x"},
		"edit": {"m.room.message", `{"msgtype":"m.text","body":"* 1 low","m.new_content":{"msgtype":"m.text","body":"1 low"},"m.relates_to":{"rel_type":"m.replace","event_id":"$x"}}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Target, ev.Text = chat.Edited, "$x", "1 low" }), "$x"},
		"edit_of_a_reply": {"m.room.message", `{"msgtype":"m.text","body":"* x","m.new_content":{"msgtype":"m.text","body":"> <@bot:localhost> all good\n\n1 low"},"m.relates_to":{"rel_type":"m.replace","event_id":"$x"}}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Target, ev.Text = chat.Edited, "$x", "1 low" }), "$x"},
		"quote_typed": {"m.room.message", `{"msgtype":"m.text","body":"> 1 ok\n2 ok"}`, said("> 1 ok\n2 ok"), ""},
		"quote":       {"m.room.message", `{"msgtype":"m.text","body":"> all good\n\n1 low","format":"org.matrix.custom.html","formatted_body":"<blockquote>all good</blockquote>1 low"}`, said("1 low"), ""},
		"struck":      {"m.room.message", `{"msgtype":"m.text","body":"~~1 ok~~ 1 low","format":"org.matrix.custom.html","formatted_body":"<del>1 ok</del> 1 low"}`, said("1 low"), ""},
		"struck_unseen": {"m.room.message", `{"msgtype":"m.text","body":"1 ok 2 low","format":"org.matrix.custom.html","formatted_body":"<del>1 ok</del> 2 low"}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Ref = chat.Lost, "$e" }), ""},
		"edit_of_nothing": {"m.room.message", `{"msgtype":"m.text","body":"* 1 low","m.relates_to":{"rel_type":"m.replace","event_id":"$x"}}`, nil, ""},
		"notice":          {"m.room.message", `{"msgtype":"m.notice","body":"all good"}`, nil, ""},
		"redacted":        {"m.room.message", `{}`, nil, ""},
		"voice":           {"m.room.message", `{"msgtype":"m.audio","body":"voice.ogg","url":"mxc://localhost/a"}`, with(func(ev *chat.Event) { ev.Kind, ev.Ref = chat.Lost, "$e" }), ""},
		"photo": {"m.room.message", `{"msgtype":"m.image","body":"IMG_1.jpg","url":"mxc://localhost/a","info":{"mimetype":"image/jpeg"}}`,
			with(func(ev *chat.Event) {
				ev.Kind, ev.Ref = chat.Said, "$e"
				ev.Pics = []chat.Picture{{Name: "IMG_1.jpg", Type: "image/jpeg", Source: `{"url":"mxc://localhost/a"}`}}
			}), ""},
		"photo_with_caption": {"m.room.message", `{"msgtype":"m.image","filename":"IMG_1.jpg","body":"nick in the cover","url":"mxc://localhost/a","info":{"mimetype":"image/jpeg"}}`,
			with(func(ev *chat.Event) {
				ev.Kind, ev.Ref, ev.Text = chat.Said, "$e", "nick in the cover"
				ev.Pics = []chat.Picture{{Name: "IMG_1.jpg", Type: "image/jpeg", Source: `{"url":"mxc://localhost/a"}`, Alt: "nick in the cover"}}
			}), ""},
		"reaction": {"m.reaction", `{"m.relates_to":{"rel_type":"m.annotation","event_id":"$x","key":"👍"}}`,
			with(func(ev *chat.Event) { ev.Kind, ev.Target, ev.Emoji = chat.Reacted, "$x", "👍" }), "$x"},
		"redaction":     {"m.room.redaction", `{}`, with(func(ev *chat.Event) { ev.Kind, ev.Target = chat.Deleted, "$old" }), ""},
		"redaction_new": {"m.room.redaction", `{"redacts":"$newer"}`, with(func(ev *chat.Event) { ev.Kind, ev.Target = chat.Deleted, "$newer" }), ""},
		"other":         {"org.example.thing", `{"body":"all good"}`, nil, ""},
		"sticker":       {"m.sticker", `{"body":"all good","url":"mxc://localhost/a"}`, nil, ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			got, about, ok := read(eventOf(t, c.kind, c.content), place)
			if ok != (c.want != nil) || ok && about != c.about {
				t.Fatalf("read %+v about %q, %v; want %+v about %q", got, about, ok, c.want, c.about)
			}
			if diff := cmp.Diff(c.want, &got); ok && diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

// FuzzRead: whatever stands in a content, reading does not panic, and what it
// makes of a notice or of an empty content is nothing.
func FuzzRead(f *testing.F) {
	for _, kind := range []string{"m.room.message", "m.reaction", "m.room.redaction", "m.room.encrypted"} {
		for _, content := range []string{
			`{"msgtype":"m.text","body":"> a\n\nb","m.relates_to":{"rel_type":"m.thread","event_id":"$r","m.in_reply_to":{"event_id":"$x"}}}`,
			`{"msgtype":"m.image","body":"x","file":{"url":"mxc://a/b","key":{"k":"AA"}},"info":{"mimetype":"image/png","w":"7"}}`,
			`{"m.relates_to":null,"m.new_content":{}}`, `{"body":[1],"msgtype":{}}`,
		} {
			f.Add(kind, content)
		}
	}
	f.Fuzz(func(t *testing.T, kind, content string) {
		if !json.Valid([]byte(content)) || strings.ContainsAny(kind, `"\`) || !utf8.ValidString(kind) || strings.ContainsFunc(kind, func(r rune) bool { return r < ' ' }) {
			t.Skip()
		}
		ev := eventOf(t, kind, content)
		out, _, ok := read(ev, chat.Place{Room: "r"})
		if ok && (out.Kind == "" || out.ID != "$e" || out.Backend != Name) {
			t.Errorf("%s makes %+v", content, out)
		}
		if c, is := ev.Content.Parsed.(*event.MessageEventContent); is && ok && c.MsgType == event.MsgNotice {
			t.Errorf("a notice is heard: %+v", out)
		}
		_ = markOf(ev)
		_ = relation(ev)
	})
}
