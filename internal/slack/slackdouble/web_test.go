package slackdouble

import (
	"strings"
	"testing"
)

func (r *raw) texts(method string, pairs ...string) string {
	r.t.Helper()
	var list []string
	o := r.call(method, pairs...)
	messages, _ := o["messages"].([]any)
	for _, m := range messages {
		list = append(list, m.(object)["text"].(string))
	}
	if o["error"] != nil {
		list = append(list, o["error"].(string))
	}
	return strings.Join(list, " ")
}

// TestReading: what history and replies show, in which order, in which span.
func TestReading(t *testing.T) {
	r := newRaw(t, Options{})
	r.w.Say(r.ines, r.channel, r.root, "r1")
	two := r.w.Say(r.ines, r.channel, "", "two")
	r.w.Say(r.ines, r.channel, r.root, "r2")
	r.w.Say(r.ines, r.channel, "", "three")
	r.call("chat.postMessage", "channel", r.channel, "text", "r3", "thread_ts", r.root, "reply_broadcast", "true")
	for name, c := range map[string]struct {
		method string
		pairs  []string
		want   string
	}{
		"newest_first":    {"conversations.history", nil, "r3 three two root"},
		"after":           {"conversations.history", []string{"oldest", two}, "r3 three"},
		"from":            {"conversations.history", []string{"oldest", two, "inclusive", "1"}, "r3 three two"},
		"before":          {"conversations.history", []string{"latest", two}, "root"},
		"limit":           {"conversations.history", []string{"limit", "2"}, "r3 three"},
		"thread":          {"conversations.replies", []string{"ts", r.root}, "root r1 r2 r3"},
		"thread_after":    {"conversations.replies", []string{"ts", r.root, "oldest", two}, "root r2 r3"},
		"thread_limit":    {"conversations.replies", []string{"ts", r.root, "limit", "1"}, "root r1"},
		"no_thread":       {"conversations.replies", []string{"ts", two}, "two"},
		"no_such_message": {"conversations.replies", []string{"ts", "1700000000.000001"}, "thread_not_found"},
	} {
		if got := r.texts(c.method, append([]string{"channel", r.channel}, c.pairs...)...); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	clean(t, r.w)
}

// TestPages: cursors lead through everything once.
func TestPages(t *testing.T) {
	r := newRaw(t, Options{})
	for _, s := range strings.Fields("a b c d e f g") {
		r.w.Say(r.ines, r.channel, r.root, s)
	}
	for method, pairs := range map[string][]string{
		"conversations.replies": {"channel", r.channel, "ts", r.root, "limit", "3"},
		"conversations.members": {"channel", r.channel, "limit", "1"},
		"conversations.list":    {"limit", "1", "types", "public_channel,im"},
	} {
		pages, cursor := 0, ""
		for {
			o := r.call(method, append(pairs, "cursor", cursor)...)
			pages++
			cursor, _ = o["response_metadata"].(object)["next_cursor"].(string)
			if cursor == "" {
				break
			}
		}
		if want := map[string]int{"conversations.replies": 3, "conversations.members": 2, "conversations.list": 1}[method]; pages != want {
			t.Errorf("%s has %d pages, want %d", method, pages, want)
		}
	}
	clean(t, r.w)
}

// TestMetadata: it is shown where it is asked for, kept by an update without any
// and taken away by an empty one.
func TestMetadata(t *testing.T) {
	r := newRaw(t, Options{})
	key := `{"event_type":"crosslay","event_payload":{"key":"prompt/E1"}}`
	ts := r.call("chat.postMessage", "channel", r.channel, "text", "x", "metadata", key)["ts"].(string)
	payload := func(all string) any {
		o := r.call("conversations.history", "channel", r.channel, "limit", "1", "include_all_metadata", all)
		m, _ := o["messages"].([]any)[0].(object)["metadata"].(object)
		return m["event_payload"]
	}
	if payload("0") != nil || payload("1") == nil {
		t.Errorf("without asking %v, asked %v", payload("0"), payload("1"))
	}
	r.call("chat.update", "channel", r.channel, "ts", ts, "text", "y")
	if payload("1") == nil {
		t.Error("an update without metadata took it away")
	}
	r.call("chat.update", "channel", r.channel, "ts", ts, "text", "y", "metadata", "{}")
	if payload("1") != nil {
		t.Error("an update with empty metadata kept it")
	}
	clean(t, r.w)
}

// TestUpdateKeeps: an update with text alone keeps the blocks, an empty array takes
// them away.
func TestUpdateKeeps(t *testing.T) {
	r := newRaw(t, Options{})
	ts := r.call("chat.postMessage", "channel", r.channel, "text", "x", "blocks", `[{"type":"divider"}]`)["ts"].(string)
	for _, c := range []struct {
		pairs  []string
		blocks int
	}{{nil, 1}, {[]string{"blocks", "[]"}, 0}} {
		r.call("chat.update", append([]string{"channel", r.channel, "ts", ts, "text", "y"}, c.pairs...)...)
		shown := r.w.Messages(r.channel)[1]
		if shown.Text != "y" || len(shown.Blocks) != c.blocks || !shown.Edited {
			t.Errorf("%v shows %+v", c.pairs, shown)
		}
	}
	clean(t, r.w)
}

// TestTombstone: a root with replies leaves a trace, one without does not.
func TestTombstone(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	lone := r.w.Say(r.ines, r.channel, "", "lone")
	r.frame(conn)
	r.w.Delete(r.channel, lone)
	e := r.frame(conn)["payload"].(object)["event"].(object)
	if e["subtype"] != "message_deleted" || e["deleted_ts"] != lone || e["previous_message"].(object)["text"] != "lone" {
		t.Errorf("deleted: %v", e)
	}
	r.w.Say(r.ines, r.channel, r.root, "reply")
	r.frame(conn)
	r.w.Delete(r.channel, r.root)
	e = r.frame(conn)["payload"].(object)["event"].(object)
	if e["subtype"] != "message_changed" || e["message"].(object)["subtype"] != "tombstone" {
		t.Errorf("root deleted: %v", e)
	}
	if shown := r.w.Thread(r.channel, r.root); len(shown) != 2 || !shown[0].Gone {
		t.Errorf("shown %+v", shown)
	}
}

// TestEvents: a mention comes twice; a direct conversation knows none; without the
// bot in the channel nothing comes.
func TestEvents(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	event := func() object { return r.frame(conn)["payload"].(object)["event"].(object) }
	ts := r.w.Say(r.ines, r.channel, "", r.w.Mention()+" status")
	if one, two := event(), event(); one["type"] != "message" || two["type"] != "app_mention" || one["ts"] != ts || two["ts"] != ts {
		t.Errorf("mention: %v, %v", one, two)
	}
	r.w.Remove(r.channel, r.w.BotUser)
	r.w.Say(r.ines, r.channel, "", "among ourselves")
	r.w.Say(r.ines, r.w.Direct(r.ines), "", r.w.Mention()+" hi")
	if e := event(); e["channel_type"] != "im" {
		t.Errorf("direct: %v", e)
	}
	r.w.Redeliver()
	if e := event(); e["channel_type"] != "im" {
		t.Errorf("again: %v", e)
	}
}

// TestScopes: the granted scopes are told with every answer, and what a channel's
// kind needs is asked for.
func TestScopes(t *testing.T) {
	r := newRaw(t, Options{Scopes: []string{"chat:write", "channels:read"}})
	resp, err := r.w.Client().Do(r.request("auth.test", "", "", r.w.BotToken))
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if got := resp.Header.Get("X-OAuth-Scopes"); got != "chat:write,channels:read" {
		t.Errorf("scopes %q", got)
	}
	for method, needed := range map[string]string{
		"conversations.history": "channels:history", "users.list": "users:read", "conversations.info": "",
	} {
		pairs := []string{"channel", r.channel}
		if method == "users.list" {
			pairs = nil
		}
		if o := r.call(method, pairs...); needed != "" && o["needed"] != needed || needed == "" && o["ok"] != true {
			t.Errorf("%s: %v", method, o)
		}
	}
}
