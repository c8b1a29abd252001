package slackdouble

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestMethods: the methods that no other test calls, by one good call each.
func TestMethods(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(*raw) map[string]any
		want string // somewhere in the answer
	}{
		"permalink": {func(r *raw) map[string]any {
			return r.call("chat.getPermalink", "channel", r.channel, "message_ts", r.root)
		}, "/archives/"},
		"ephemeral": {func(r *raw) map[string]any {
			return r.call("chat.postEphemeral", "channel", r.channel, "user", r.ines, "text", "x", "thread_ts", r.root)
		}, "message_ts"},
		"delete":     {func(r *raw) map[string]any { return r.call("chat.delete", "channel", r.channel, "ts", r.root) }, "ts"},
		"bot":        {func(r *raw) map[string]any { return r.call("bots.info", "bot", r.w.BotID) }, "crosslay"},
		"people":     {func(r *raw) map[string]any { return r.call("users.list", "limit", "1") }, "next_cursor"},
		"channels":   {func(r *raw) map[string]any { return r.call("users.conversations", "user", r.ines) }, "station-1"},
		"api":        {func(r *raw) map[string]any { return r.call("api.test") }, "true"},
		"groups":     {func(r *raw) map[string]any { return r.call("usergroups.list", "include_users", "1") }, "chiefs"},
		"of_a_group": {func(r *raw) map[string]any { return r.call("usergroups.users.list", "usergroup", r.w.groups[0].id) }, "U0"},
		"reactions": {func(r *raw) map[string]any {
			r.w.React(r.ines, r.channel, r.root, "eyes")
			return r.call("reactions.get", "channel", r.channel, "timestamp", r.root)
		}, "eyes"},
		"direct": {func(r *raw) map[string]any { return r.call("conversations.open", "users", r.ines, "return_im", "1") }, "is_im"},
		"join": {func(r *raw) map[string]any {
			r.w.opts.Scopes = append(r.w.opts.Scopes, "channels:join")
			r.w.Remove(r.channel, r.w.BotUser)
			return r.call("conversations.join", "channel", r.channel)
		}, "is_member:true"},
		"delete_file": {func(r *raw) map[string]any {
			o := r.call("files.getUploadURLExternal", "filename", "a.png", "length", "3")
			r.respond(o["upload_url"].(string), "png")
			r.call("files.completeUploadExternal", "files", fmt.Sprintf(`[{"id":%q}]`, o["file_id"]))
			return r.call("files.delete", "file", o["file_id"].(string))
		}, "true"},
		"push": {func(r *raw) map[string]any {
			r.view()
			return r.call("views.push", "trigger_id", r.w.Trigger(r.ines), "view", aView)
		}, "previous_view_id:V0"},
		"update_view": {func(r *raw) map[string]any { return r.call("views.update", "view_id", r.view(), "view", aView) }, "hash"},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			r.w.AddGroup("chiefs", r.ines)
			if o := c.do(r); o["ok"] != true || !strings.Contains(fmt.Sprint(o), c.want) {
				t.Errorf("answered %v, want %s in it", o, c.want)
			}
			clean(t, r.w)
		})
	}
}

// TestChanges: what the app hears of edits, of pages unfolded under links and of
// reactions taken away.
func TestChanges(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	event := func() object {
		e := r.frame(conn)
		r.ack(conn, e, nil)
		return e["payload"].(object)["event"].(object)
	}
	ts := r.w.Say(r.ines, r.channel, "", "half")
	event()
	r.w.Edit(r.channel, ts, "3/4")
	e := event()
	now, before := e["message"].(object), e["previous_message"].(object)
	if e["subtype"] != "message_changed" || now["text"] != "3/4" || before["text"] != "half" || now["edited"] == nil {
		t.Errorf("edited: %v", e)
	}
	r.w.Unfurl(r.channel, ts)
	e = event()
	now, before = e["message"].(object), e["previous_message"].(object)
	if now["text"] != before["text"] || now["attachments"] == nil {
		t.Errorf("unfolded: %v", e)
	}
	r.w.React(r.ines, r.channel, ts, "+1")
	event()
	if r.w.React(r.ines, r.channel, ts, "+1") {
		t.Error("the same reaction twice")
	}
	r.w.Unreact(r.ines, r.channel, ts, "+1")
	if e := event(); e["type"] != "reaction_removed" || len(r.w.Messages(r.channel)[1].Reactions) != 0 {
		t.Errorf("taken away: %v", e)
	}
	clean(t, r.w)
}

// TestNoRetry: an app may ask not to be told again; a wrong challenge is an error.
func TestNoRetry(t *testing.T) {
	r := newRaw(t, Options{Retries: []time.Duration{0, 0, 0}})
	tries := make(chan int, 10)
	r.endpoint(func(rw http.ResponseWriter, _ *http.Request) {
		rw.Header().Set("X-Slack-No-Retry", "1")
		rw.WriteHeader(http.StatusInternalServerError)
		tries <- 1
	})
	r.w.Say(r.ines, r.channel, "", "hi")
	eventually(t, func() bool { return r.w.Lost() == 1 })
	if len(tries) != 1 {
		t.Errorf("delivered %d times", len(tries))
	}
	server := httptest.NewServer(http.NotFoundHandler())
	defer server.Close()
	if err := r.w.DeliverTo(t.Context(), Endpoint{Events: server.URL}); err == nil {
		t.Error("an address that knows no challenge was taken")
	}
}

// FuzzAPI: no request whatever upsets the workspace.
func FuzzAPI(f *testing.F) {
	names := slices.Sorted(func(yield func(string) bool) {
		for name := range methods {
			if !yield(name) {
				return
			}
		}
	})
	f.Add(uint8(0), "channel=C1&text=x")
	f.Add(uint8(7), "view="+url.QueryEscape(aView)+"&trigger_id=1")
	f.Add(uint8(3), "channel=station-1&text=x&blocks=%5B%7B%22type%22%3A%22divider%22%7D%5D&thread_ts=1")
	f.Fuzz(func(t *testing.T, n uint8, body string) {
		w := open(Options{})
		w.addr = "slack.invalid"
		w.AddChannel("station-1", w.AddUser("ines", "Ines Vega"))
		name := names[int(n)%len(names)]
		for _, kind := range []string{"application/x-www-form-urlencoded", "application/json"} {
			req := httptest.NewRequest(http.MethodPost, "/api/"+name, strings.NewReader(body))
			req.Header.Set("Content-Type", kind)
			req.Header.Set("Authorization", "Bearer "+w.BotToken)
			got := httptest.NewRecorder()
			w.mux().ServeHTTP(got, req)
			if got.Code == http.StatusInternalServerError {
				t.Errorf("%s %s: %s", name, body, got.Body)
			}
		}
	})
}
