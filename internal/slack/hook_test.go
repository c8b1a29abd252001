package slack

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// byHTTP delivers over signed HTTP requests to a backend on this machine.
func byHTTP(t *testing.T) (*bench, string) {
	t.Helper()
	w := &bench{Workspace: slackdouble.New(t, slackdouble.Options{Retries: []time.Duration{50 * time.Millisecond, 200 * time.Millisecond}}), t: t, in: newInbox()}
	w.ines = w.AddUser("ines", "Ines Pelluci")
	w.station = w.AddChannel("station-1", w.ines)
	cfg := w.config()
	cfg.Limits = quick
	b, err := New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	d, err := b.enter(t.Context(), w.in.receive)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(b.hook(d.take))
	t.Cleanup(server.Close)
	w.b = b
	if err := w.DeliverTo(t.Context(), slackdouble.Endpoint{Events: server.URL}); err != nil {
		t.Fatal(err)
	}
	return w, server.URL
}

// next waits for the next event.
func (w *bench) next() chat.Event {
	w.t.Helper()
	for deadline := time.Now().Add(10 * time.Second); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		if events := w.in.heard(); len(events) > 0 {
			return events[0]
		}
	}
	w.t.Fatalf("nothing is heard; reported: %v", w.troubles())
	return chat.Event{}
}

// TestHook: what comes in by HTTP is what comes in by Socket Mode.
func TestHook(t *testing.T) {
	w, _ := byHTTP(t)
	root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
	ts := w.Say(w.ines, w.station, root, "all good & <done>")
	if ev := w.next(); ev.ID != "msg/"+w.station+"/"+ts || ev.Text != "all good & <done>" || ev.Place.Thread != chat.Ref(root) {
		t.Errorf("heard %+v", ev)
	}
	w.click(root, "On a call")
	if ev := w.next(); ev.Kind != chat.Chosen || ev.Text != "on a call" || ev.Target != chat.Ref(root) {
		t.Errorf("heard %+v", ev)
	}
	w.click(root, "Fill in the form")
	w.send(map[string]string{"n/5/min": "6"})
	if ev := w.next(); ev.Kind != chat.Chosen || ev.Text != "2 low, 5 6 min" {
		t.Errorf("heard %+v", ev)
	}
	w.slash("status")
	if ev := w.next(); ev.Kind != chat.Said || ev.Text != "status" || ev.Place.Room != "#station-1" {
		t.Errorf("heard %+v", ev)
	}
	w.in.fill(true)
	w.Say(w.ines, w.station, root, "again")
	time.Sleep(20 * time.Millisecond) // the first delivery fails, a later one does not
	w.in.fill(false)
	if ev := w.next(); ev.Text != "again" {
		t.Errorf("heard %+v", ev)
	}
	for _, v := range w.Violations() {
		t.Errorf("violation: %v", v)
	}
}

// TestHook_forged: nothing comes in that Slack did not sign, just now.
func TestHook_forged(t *testing.T) {
	w, address := byHTTP(t)
	body, _ := json.Marshal(map[string]any{"type": "event_callback", "event_id": "Ev1", "event": map[string]any{
		"type": "message", "channel": w.station, "user": w.ines, "text": "all good", "ts": stampOf(time.Now()), "event_ts": stampOf(time.Now())}})
	signed := func(change func(h http.Header)) http.Header {
		h := w.Sign(time.Now(), body)
		h.Set("Content-Type", "application/json")
		change(h)
		return h
	}
	for name, c := range map[string]struct {
		header http.Header
		body   []byte
		want   int
	}{
		"signed":        {signed(func(http.Header) {}), body, 200},
		"unsigned":      {signed(func(h http.Header) { h.Del("X-Slack-Signature") }), body, 401},
		"other_secret":  {signed(func(h http.Header) { h.Set("X-Slack-Signature", "v0="+strings.Repeat("0", 64)) }), body, 401},
		"body_changed":  {signed(func(http.Header) {}), bytes.Replace(body, []byte("good"), []byte("bad!"), 1), 401},
		"no_time":       {signed(func(h http.Header) { h.Del("X-Slack-Request-Timestamp") }), body, 401},
		"too_old":       {w.Sign(time.Now().Add(-10*time.Minute), body), body, 401},
		"time_replaced": {signed(func(h http.Header) { h.Set("X-Slack-Request-Timestamp", "99999999999") }), body, 401},
		"too_long":      {signed(func(http.Header) {}), bytes.Repeat([]byte("x"), mostBody+1), 413},
	} {
		t.Run(name, func(t *testing.T) {
			w.in.heard()
			req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, address, bytes.NewReader(c.body))
			if err != nil {
				t.Fatal(err)
			}
			req.Header = c.header
			resp, err := http.DefaultClient.Do(req)
			if err != nil {
				t.Fatal(err)
			}
			resp.Body.Close()
			if resp.StatusCode != c.want {
				t.Errorf("status %d, want %d", resp.StatusCode, c.want)
			}
			if n := len(w.in.heard()); (n > 0) != (c.want == 200) {
				t.Errorf("heard %d events", n)
			}
		})
	}
	w.noSecrets(w.troubles()...)
	resp, err := http.Get(address)
	if err != nil || resp.StatusCode != http.StatusMethodNotAllowed {
		t.Errorf("GET: %v %v", resp, err)
	}
}

func TestSorted(t *testing.T) {
	form := url.Values{"payload": {`{"type":"block_actions"}`}}.Encode()
	slash := url.Values{"command": {"/crosslay"}, "text": {"status & more"}}.Encode()
	for name, c := range map[string]struct{ kind, body, sort, payload, challenge string }{
		"event":     {"application/json; charset=utf-8", `{"type":"event_callback"}`, eventsAPI, `{"type":"event_callback"}`, ""},
		"challenge": {"application/json", `{"type":"url_verification","challenge":"c1"}`, "", "", "c1"},
		"tap":       {"application/x-www-form-urlencoded", form, interactive, `{"type":"block_actions"}`, ""},
		"slash":     {"application/x-www-form-urlencoded", slash, slashCommands, `{"command":"/crosslay","text":"status \u0026 more"}`, ""},
		"junk":      {"application/x-www-form-urlencoded", "%zz", "", "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			sort, payload, challenge := sorted(c.kind, []byte(c.body))
			if sort != c.sort || string(payload) != c.payload || challenge != c.challenge {
				t.Errorf("%q %q %q", sort, payload, challenge)
			}
		})
	}
}

// TestListen: a bot that is reached by HTTP catches up when it starts, and ends
// with its context.
func TestListen(t *testing.T) {
	w := &bench{Workspace: slackdouble.New(t, slackdouble.Options{}), t: t, in: newInbox()}
	w.ines = w.AddUser("ines", "Ines Pelluci")
	w.station = w.AddChannel("station-1", w.ines)
	if err := w.in.receive(t.Context(), chat.Batch{Cursors: map[string]string{channelMark + w.station: track{Since: stampOf(time.Now().Add(-time.Hour))}.String()}}); err != nil {
		t.Fatal(err)
	}
	w.Lose(true)
	w.Say(w.ines, w.station, "", "said meanwhile")
	cfg := w.config()
	cfg.Listen, cfg.Limits, cfg.Tokens.App = "127.0.0.1:0", quick, ""
	b, err := New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- b.Run(ctx, w.in.receive) }()
	if ev := w.next(); ev.Text != "said meanwhile" {
		t.Errorf("heard %+v", ev)
	}
	cancel()
	if err := <-done; err != nil && !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
