package slackdouble

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/gorilla/websocket"
)

// raw is a client that sends whatever a test wants.
type raw struct {
	t       *testing.T
	w       *Workspace
	ines    string
	channel string
	root    string // a message of the bot's
}

// newRaw opens a workspace with one post, and no limit that the test has not
// asked for.
func newRaw(t *testing.T, o Options) *raw {
	t.Helper()
	if o.PostBurst == 0 {
		o.PostBurst = 1000
	}
	w := New(t, o)
	r := &raw{t: t, w: w, ines: w.AddUser("ines", "Ines Vega")}
	r.channel = w.AddChannel("station-1", r.ines)
	w.Lose(true) // of the first post the app hears nothing
	r.root = r.call("chat.postMessage", "channel", r.channel, "text", "root")["ts"].(string)
	w.Lose(false)
	w.lost = 0
	clean(t, w)
	return r
}

// call sends a form with the bot's token in the header.
func (r *raw) call(method string, pairs ...string) map[string]any {
	r.t.Helper()
	values := url.Values{}
	for i := 0; i < len(pairs); i += 2 {
		values.Set(pairs[i], pairs[i+1])
	}
	token := r.w.BotToken
	if method == "apps.connections.open" {
		token = r.w.AppToken
	}
	return r.send(r.request(method, "application/x-www-form-urlencoded", values.Encode(), token))
}

func (r *raw) request(method, kind, body, token string) *http.Request {
	req, err := http.NewRequest(http.MethodPost, r.w.URL()+method, strings.NewReader(body))
	if err != nil {
		r.t.Fatal(err)
	}
	req.Header.Set("Content-Type", kind)
	if token != "" {
		req.Header.Set("Authorization", "Bearer "+token)
	}
	return req
}

// send returns the answer, with the status in "status" and the wait of a 429 in
// "after".
func (r *raw) send(req *http.Request) map[string]any {
	r.t.Helper()
	resp, err := r.w.Client().Do(req)
	if err != nil {
		return map[string]any{"error": "connection: " + err.Error()}
	}
	defer resp.Body.Close()
	o := map[string]any{}
	if err := json.NewDecoder(resp.Body).Decode(&o); err != nil {
		o["error"] = "decode: " + err.Error()
	}
	o["status"], o["after"] = resp.StatusCode, resp.Header.Get("Retry-After")
	return o
}

// socket opens a socket and reads its hello.
func (r *raw) socket() *websocket.Conn {
	r.t.Helper()
	conn := r.dial(r.call("apps.connections.open")["url"].(string))
	if hello := r.frame(conn); hello["type"] != "hello" {
		r.t.Fatalf("first frame is %v", hello)
	}
	return conn
}

func (r *raw) dial(address string) *websocket.Conn {
	r.t.Helper()
	conn, _, err := r.w.Dialer().Dial(address, nil)
	if err != nil {
		r.t.Fatal(err)
	}
	r.t.Cleanup(func() { conn.Close() })
	return conn
}

func (r *raw) frame(conn *websocket.Conn) map[string]any {
	r.t.Helper()
	o := map[string]any{}
	if err := conn.ReadJSON(&o); err != nil {
		r.t.Fatal(err)
	}
	return o
}

func (r *raw) ack(conn *websocket.Conn, envelope map[string]any, payload any) {
	r.t.Helper()
	o := object{"envelope_id": envelope["envelope_id"]}
	if payload != nil {
		o["payload"] = payload
	}
	if err := conn.WriteJSON(o); err != nil {
		r.t.Fatal(err)
	}
}

// has tells whether the rule was broken, by now or soon.
func (r *raw) has(rule Rule) bool {
	for _, v := range r.w.Violations() {
		if v.Rule == rule {
			return true
		}
	}
	return false
}
