package matrix

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot/chat"
)

// fake is a homeserver that answers from a script, for what a real one cannot be
// made to do on demand.
type fake struct {
	mu    sync.Mutex
	sync  func(n int, since string) (int, string) // status and body of the n-th sync, from 1
	page  func(from string) string                // of /messages
	state string
	syncs int
	at    []time.Time // of each sync

	alias  int             // status of a look-up; 200 if zero
	dir    string          // of the account; a passing one if empty
	device json.RawMessage // the keys of the bot's device
	made   int             // how often it made one-time keys
}

func (f *fake) RoundTrip(req *http.Request) (*http.Response, error) {
	if err := req.Context().Err(); err != nil {
		return nil, err
	}
	status, text := f.answer(req)
	return &http.Response{StatusCode: status, Header: http.Header{}, Body: io.NopCloser(strings.NewReader(text)), Request: req}, nil
}

func (f *fake) answer(req *http.Request) (int, string) {
	path := req.URL.Path
	switch {
	case strings.HasSuffix(path, "/sync"):
		if req.URL.Query().Get("since") == "" && strings.Contains(req.URL.Query().Get("filter"), `"limit":1}`) {
			return 200, `{"next_batch":"open"}`
		}
		f.mu.Lock()
		defer f.mu.Unlock()
		f.syncs++
		f.at = append(f.at, time.Now())
		status, body := f.sync(f.syncs, req.URL.Query().Get("since"))
		if status == 0 { // nothing happens until the poll is over
			f.mu.Unlock()
			select {
			case <-req.Context().Done():
			case <-time.After(30 * time.Second):
			}
			f.mu.Lock()
			return 200, fmt.Sprintf(`{"next_batch":%q}`, req.URL.Query().Get("since"))
		}
		return status, body
	case strings.Contains(path, "/messages"):
		return 200, f.page(req.URL.Query().Get("from"))
	case strings.HasSuffix(path, "/state"):
		return 200, f.state
	case strings.Contains(path, "/directory/room/"):
		return cmp.Or(f.alias, 200), `{"room_id":"!r:localhost"}`
	case strings.HasSuffix(path, "/keys/query"):
		return 200, `{"device_keys":` + f.keys() + `}`
	case strings.HasSuffix(path, "/keys/upload"):
		f.upload(req)
		return 200, `{"one_time_key_counts":{"signed_curve25519":50}}`
	}
	return 404, `{"errcode":"M_NOT_FOUND","error":"no such thing"}`
}

func (f *fake) keys() string {
	if f.device == nil {
		return `{}`
	}
	return `{"@bot:localhost":{"DEV":` + string(f.device) + `}}`
}

func (f *fake) upload(req *http.Request) {
	var body struct {
		Device  json.RawMessage            `json:"device_keys"`
		OneTime map[string]json.RawMessage `json:"one_time_keys"`
	}
	if json.NewDecoder(req.Body).Decode(&body) != nil {
		return
	}
	if body.Device != nil {
		f.device = body.Device
	}
	if len(body.OneTime) > 0 {
		f.made++
	}
}

const ownState = `[{"type":"m.room.member","state_key":"@bot:localhost","sender":"@bot:localhost","event_id":"$m1","content":{"membership":"join"}},
	{"type":"m.room.canonical_alias","state_key":"","sender":"@ana:localhost","event_id":"$m3","content":{"alias":"#st1:localhost"}},
	{"type":"m.room.member","state_key":"@ana:localhost","sender":"@ana:localhost","event_id":"$m2","content":{"membership":"join","displayname":"Ana"}}]`

// listen runs a backend on a fake for a while and returns what it heard.
func listen(t *testing.T, f *fake, cursors map[string]string, d time.Duration) ([]chat.Event, error) {
	t.Helper()
	var mu sync.Mutex
	var heard []chat.Event
	cfg := Config{
		Account: Account{Homeserver: "http://fake", User: "@bot:localhost", Device: "DEV", Token: "token", Pickle: []byte("pickle")},
		Dir:     cmp.Or(f.dir, t.TempDir()), Web: &http.Client{Transport: f},
		Rooms: func() []string { return []string{"#st1:localhost"} }, Known: func(string) bool { return true },
		Cursor: func(_ context.Context, name string) (string, error) {
			mu.Lock()
			defer mu.Unlock()
			return cursors[name], nil
		},
		Past: func(context.Context, string) (chat.Event, bool, error) { return chat.Event{}, false, nil },
	}
	b, err := Open(t.Context(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	ctx, cancel := context.WithTimeout(t.Context(), d)
	defer cancel()
	err = b.Run(ctx, func(_ context.Context, batch chat.Batch) error {
		mu.Lock()
		defer mu.Unlock()
		for _, ev := range batch.Events {
			if !slices.ContainsFunc(heard, func(have chat.Event) bool { return have.ID == ev.ID }) {
				heard = append(heard, ev)
			}
		}
		for name, value := range batch.Cursors {
			cursors[name] = value
		}
		return nil
	})
	return heard, err
}

func message(n int) string {
	return fmt.Sprintf(`{"type":"m.room.message","event_id":"$%d","sender":"@ana:localhost","origin_server_ts":%d,"content":{"msgtype":"m.text","body":"word %d"}}`, n, 1764075600000+n*1000, n)
}

func timeline(next string, limited bool, prev string, events ...string) string {
	return fmt.Sprintf(`{"next_batch":%q,"rooms":{"join":{"!r:localhost":{"timeline":{"limited":%v,"prev_batch":%q,"events":[%s]}}}}}`,
		next, limited, prev, strings.Join(events, ","))
}

func texts(events []chat.Event) string {
	var list []string
	for _, ev := range events {
		list = append(list, strings.TrimPrefix(ev.Text, "word "))
	}
	return strings.Join(list, " ")
}

func TestRun_asked_to_wait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := &fake{state: ownState}
		f.sync = func(n int, _ string) (int, string) {
			switch n {
			case 1:
				return 429, `{"errcode":"M_LIMIT_EXCEEDED","retry_after_ms":7000}`
			case 2, 3, 4:
				return 502, `<html>no</html>`
			case 5:
				return 200, `{"next_batch":"s1"}`
			}
			return 0, ""
		}
		if _, err := listen(t, f, map[string]string{}, 25*time.Second); err != nil {
			t.Fatal(err)
		}
		var waits []string
		for i := 1; i < len(f.at); i++ {
			waits = append(waits, f.at[i].Sub(f.at[i-1]).String())
		}
		if got, want := strings.Join(waits, " "), "7s 2s 4s 8s"; !strings.HasPrefix(got, want) {
			t.Errorf("it waits %s between syncs, want %s", got, want)
		}
	})
}

// TestRun_gaps: what a sync leaves out is paged back to what was heard last,
// whether the server still knows the token or not.
func TestRun_gaps(t *testing.T) {
	last := map[string]string{"since/@bot:localhost/DEV": "s1", "last/!r:localhost": "$2"}
	join := `{"type":"m.room.member","state_key":"@bot:localhost","event_id":"$j","sender":"@bot:localhost","content":{"membership":"join"}}`
	pages := map[string]string{
		"p1": `{"chunk":[` + message(6) + `,` + message(5) + `],"end":"p2"}`,
		"p2": `{"chunk":[` + message(4) + `,` + message(3) + `],"end":"p3"}`,
		"p3": `{"chunk":[` + message(2) + `,` + message(1) + `],"end":"p4"}`,
		"j1": `{"chunk":[` + message(6) + `,` + join + `,` + message(5) + `],"end":"p4"}`,
	}
	cases := map[string]struct {
		cursors map[string]string
		sync    func(n int, since string) (int, string)
		want    string
	}{
		"no_gap": {last, func(int, string) (int, string) { return 200, timeline("s2", false, "p1", message(3), message(4)) }, "3 4"},
		"gap":    {last, func(int, string) (int, string) { return 200, timeline("s2", true, "p1", message(7), message(8)) }, "3 4 5 6 7 8"},
		"overlap": {last, func(int, string) (int, string) {
			return 200, timeline("s2", true, "p1", message(1), message(2), message(3))
		}, "3"},
		"token_forgotten": {last, func(_ int, since string) (int, string) {
			if since != "" {
				return 400, `{"errcode":"M_UNKNOWN","error":"bad since"}`
			}
			return 200, timeline("s9", true, "p1", message(7))
		}, "3 4 5 6 7"},
		"first_start":   {map[string]string{}, func(int, string) (int, string) { return 200, timeline("s2", true, "p1", message(7)) }, ""},
		"newly_joined":  {map[string]string{"since/@bot:localhost/DEV": "s1"}, func(int, string) (int, string) { return 200, timeline("s2", true, "j1", message(7)) }, "6 7"},
		"joined_inside": {map[string]string{"since/@bot:localhost/DEV": "s1"}, func(int, string) (int, string) { return 200, timeline("s2", false, "j1", message(1), join, message(7)) }, "7"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				f := &fake{state: ownState, page: func(from string) string { return pages[from] }}
				done := false
				f.sync = func(n int, since string) (int, string) {
					if done {
						return 0, ""
					}
					status, body := c.sync(n, since)
					done = status == 200
					return status, body
				}
				cursors := map[string]string{}
				for k, v := range c.cursors {
					cursors[k] = v
				}
				heard, err := listen(t, f, cursors, 10*time.Second)
				if err != nil || texts(heard) != c.want {
					t.Errorf("heard %q (%v), want %q", texts(heard), err, c.want)
				}
				if cursors["last/!r:localhost"] == "" {
					t.Error("it does not know what it heard last")
				}
			})
		})
	}
}

// TestRun_alias: a server that cannot look an alias up just now does not make the
// bot deaf in the room that it knows; one that says that there is none does.
func TestRun_alias(t *testing.T) {
	cases := map[string]struct {
		status int
		known  string
		want   string
	}{"well": {200, "", "3"}, "known": {502, "!r:localhost", "3"}, "unknown": {502, "", ""}, "gone": {404, "!r:localhost", ""}}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				f := &fake{state: ownState, alias: c.status}
				f.sync = func(n int, _ string) (int, string) {
					if n == 1 {
						return 200, timeline("s2", false, "", message(3))
					}
					return 0, ""
				}
				cursors := map[string]string{"since/@bot:localhost/DEV": "s1", "last/!r:localhost": "$2", "room/#st1:localhost": c.known}
				heard, err := listen(t, f, cursors, 10*time.Second)
				if err != nil || texts(heard) != c.want {
					t.Errorf("heard %q (%v), want %q", texts(heard), err, c.want)
				}
			})
		})
	}
}

// TestRun_keeps_its_keys: a server that says nothing of one-time keys in its first
// sync does not make the bot throw away those that others were given.
func TestRun_keeps_its_keys(t *testing.T) {
	if !Encrypts {
		t.Skip("this build has no encryption")
	}
	synctest.Test(t, func(t *testing.T) {
		f := &fake{state: ownState, dir: t.TempDir()}
		f.sync = func(n int, _ string) (int, string) {
			if n%2 == 1 {
				return 200, fmt.Sprintf(`{"next_batch":"s%d"}`, n)
			}
			return 0, ""
		}
		cursors := map[string]string{}
		for range 3 { // starts
			if _, err := listen(t, f, cursors, 10*time.Second); err != nil {
				t.Fatal(err)
			}
		}
		if f.made != 1 {
			t.Errorf("it made one-time keys %d times, want once", f.made)
		}
	})
}

// TestHearing_order: over two rooms things are heard as they were said, and a clock
// that runs back does not turn the order of a room.
func TestHearing_order(t *testing.T) {
	h := &hearing{ear: &ear{Backend: &Backend{cfg: Config{}}}, cursors: map[string]string{}}
	add := func(room, id string, at int64) {
		h.events = append(h.events, chat.Event{ID: id, Place: chat.Place{Room: room}})
		h.after = append(h.after, at)
	}
	add("a", "a1", 10)
	add("a", "a2", 30)
	add("a", "a3", 30) // said at 20 by its clock
	add("b", "b1", 15)
	add("b", "b2", 40)
	batch, err := h.batch("next")
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, ev := range batch.Events {
		ids = append(ids, ev.ID)
	}
	if got := strings.Join(ids, " "); got != "a1 b1 a2 a3 b2" {
		t.Errorf("the order is %s", got)
	}
	var kept []sealed
	if err := json.Unmarshal([]byte(batch.Cursors["unread/"]), &kept); err != nil {
		t.Error(err)
	}
}

func TestAccount_environment(t *testing.T) {
	dir := t.TempDir()
	a := Account{Homeserver: "http://x", User: "@bot:x", Device: "D", Token: "file", Pickle: []byte("p")}
	if err := a.save(dir); err != nil {
		t.Fatal(err)
	}
	t.Setenv(TokenVariable, "environment")
	got, err := LoadAccount(dir)
	if err != nil || got.Token != "environment" {
		t.Errorf("token %q, %v; want the one of the environment", got.Token, err)
	}
	info, err := os.Stat(filepath.Join(dir, accountFile))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the account has the rights %v (%v)", info.Mode().Perm(), err)
	}
}
