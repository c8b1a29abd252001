package slackdouble

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"
)

// heard is what a raw client read from a socket, and when.
type heard struct {
	frame map[string]any
	at    time.Duration
}

// listen reads a socket to its end; ack decides what is acknowledged.
func (r *raw) listen(conn *websocket.Conn, ack func(map[string]any) bool) <-chan []heard {
	got := make(chan []heard, 1)
	start := time.Now()
	go func() {
		var list []heard
		for {
			o := map[string]any{}
			if conn.ReadJSON(&o) != nil {
				got <- list
				return
			}
			list = append(list, heard{o, time.Since(start)})
			if o["envelope_id"] != nil && ack(o) {
				conn.WriteJSON(object{"envelope_id": o["envelope_id"]})
			}
		}
	}()
	return got
}

func never(map[string]any) bool  { return false }
func always(map[string]any) bool { return true }

func eventID(f map[string]any) string {
	p, _ := f["payload"].(object)
	s, _ := p["event_id"].(string)
	return s
}

// TestRedelivery: an event that is not acknowledged comes again at once, after 1
// and 5 minutes, with the same event id in new envelopes, and is then lost.
func TestRedelivery(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		conn := r.socket()
		got := r.listen(conn, never)
		r.w.Say(r.ines, r.channel, "", "hi")
		time.Sleep(10 * time.Minute)
		conn.Close()
		list := <-got
		want := []time.Duration{0, 3 * time.Second, 66 * time.Second, 369 * time.Second} // 3 s pass before each wait begins
		if len(list) != len(want) {
			t.Fatalf("delivered %d times, want %d", len(list), len(want))
		}
		for i, h := range list {
			if h.at != want[i] || eventID(h.frame) != eventID(list[0].frame) {
				t.Errorf("delivery %d of %s after %v, want %v", i, eventID(h.frame), h.at, want[i])
			}
			if a := h.frame["retry_attempt"]; a != float64(i) {
				t.Errorf("delivery %d has retry_attempt %v", i, a)
			}
			if i > 0 && h.frame["envelope_id"] == list[i-1].frame["envelope_id"] {
				t.Errorf("delivery %d comes in the same envelope", i)
			}
		}
		if r.w.Lost() != 1 {
			t.Errorf("%d lost, want 1", r.w.Lost())
		}
	})
}

// TestOtherSocket: what a dead socket did not acknowledge comes on the next one.
func TestOtherSocket(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		one, two := r.socket(), r.socket()
		gotOne, gotTwo := r.listen(one, never), r.listen(two, always)
		for range 4 {
			r.w.Say(r.ines, r.channel, "", "hi")
		}
		synctest.Wait()
		one.Close()
		time.Sleep(2 * time.Minute)
		two.Close()
		var first, second []string
		for _, h := range <-gotOne {
			first = append(first, eventID(h.frame))
		}
		for _, h := range <-gotTwo {
			second = append(second, eventID(h.frame))
		}
		if len(first) != 2 || len(second) != 4 {
			t.Fatalf("first socket heard %v, second %v", first, second)
		}
		for _, id := range first {
			if !slices.Contains(second, id) {
				t.Errorf("%s never came again", id)
			}
		}
		clean(t, r.w)
	})
}

// TestDisconnects: each reason is told, and ends the socket, but for a warning.
func TestDisconnects(t *testing.T) {
	for reason, ends := range map[string]bool{Warning: false, RefreshRequested: true, LinkDisabled: true, TooMany: true} {
		t.Run(reason, func(t *testing.T) {
			r := newRaw(t, Options{})
			conn := r.socket()
			r.w.Disconnect(reason)
			if f := r.frame(conn); f["type"] != "disconnect" || f["reason"] != reason {
				t.Errorf("heard %v", f)
			}
			if open := r.w.Sockets() == 1; open == ends {
				t.Errorf("open is %v", open)
			}
			if !ends {
				return
			}
			if err := conn.ReadJSON(&object{}); err == nil {
				t.Error("the socket goes on")
			}
			if next := r.socket(); next == nil {
				t.Error("no new socket")
			}
		})
	}
}

// TestWarning: ten seconds after the warning the socket ends.
func TestWarning(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		got := r.listen(r.socket(), always)
		r.w.Disconnect(Warning)
		list := <-got
		if len(list) != 2 || list[1].at != 10*time.Second || list[1].frame["reason"] != RefreshRequested {
			t.Errorf("heard %v", list)
		}
	})
}

func TestLinkDisabled(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	r.w.DisableSocketMode()
	if f := r.frame(conn); f["reason"] != LinkDisabled {
		t.Errorf("heard %v", f)
	}
	next := r.dial(r.call("apps.connections.open")["url"].(string))
	if f := r.frame(next); f["reason"] != LinkDisabled {
		t.Errorf("a new socket hears %v", f)
	}
	r.w.EnableSocketMode()
	r.socket()
	clean(t, r.w)
}

// TestStayingAlive: pings come and keep a socket open as long as they are
// answered.
func TestStayingAlive(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		conn := r.socket()
		var pings atomic.Int32
		answer := conn.PingHandler()
		conn.SetPingHandler(func(s string) error { pings.Add(1); return answer(s) })
		got := r.listen(conn, always)
		time.Sleep(time.Hour)
		if r.w.Sockets() != 1 || pings.Load() < 300 {
			t.Errorf("%d sockets after an hour, %d pings", r.w.Sockets(), pings.Load())
		}
		conn.Close()
		<-got
		clean(t, r.w)
	})
}

// TestOdd: envelopes of unknown types and frames that are none arrive as sent.
func TestOdd(t *testing.T) {
	r := newRaw(t, Options{})
	conn := r.socket()
	r.w.Odd("stars_api")
	f := r.frame(conn)
	if f["type"] != "stars_api" || f["envelope_id"] == "" {
		t.Errorf("heard %v", f)
	}
	r.ack(conn, f, nil)
	r.w.Frame("no json")
	if _, raw, err := conn.ReadMessage(); err != nil || string(raw) != "no json" {
		t.Errorf("heard %q, %v", raw, err)
	}
	clean(t, r.w)
}

// TestNobodyThere: with no socket an event is tried again, a tap is not.
func TestNobodyThere(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		r.w.Say(r.ines, r.channel, "", "hi")
		if _, err := r.w.Slash(r.ines, r.channel, "status"); !errors.Is(err, ErrNoAnswer) {
			t.Errorf("the command got %v", err)
		}
		time.Sleep(30 * time.Second)
		conn := r.socket()
		got := r.listen(conn, always)
		time.Sleep(time.Minute)
		conn.Close()
		if list := <-got; len(list) != 1 || list[0].frame["retry_attempt"] != 2.0 {
			t.Errorf("heard %v", list)
		}
	})
}

// TestExpiry: a socket address is good for a while only, a revoked token opens
// nothing.
func TestExpiry(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		address := r.call("apps.connections.open")["url"].(string)
		time.Sleep(31 * time.Second)
		if _, resp, err := r.w.Dialer().Dial(address, nil); err == nil || resp.StatusCode != http.StatusForbidden {
			t.Errorf("dialed late: %v", err)
		}
		r.w.Revoke(r.w.AppToken)
		if o := r.call("apps.connections.open"); o["error"] != "token_revoked" {
			t.Errorf("answered %v", o)
		}
		r.w.Revoke(r.w.BotToken)
		if o := r.call("auth.test"); o["error"] != "token_revoked" {
			t.Errorf("answered %v", o)
		}
	})
}

// TestSigned: over HTTP, events are JSON, taps and commands forms; all are signed,
// and only events come again.
func TestSigned(t *testing.T) {
	type request struct{ path, kind, num, reason, body string }
	got := make(chan request, 20)
	var status atomic.Int32
	status.Store(http.StatusOK)
	r := newRaw(t, Options{Retries: []time.Duration{0, time.Millisecond, 2 * time.Millisecond}})
	r.endpoint(func(rw http.ResponseWriter, req *http.Request) {
		body := req.Header.Get("X-Test-Body")
		got <- request{req.URL.Path, req.Header.Get("Content-Type"), req.Header.Get("X-Slack-Retry-Num"), req.Header.Get("X-Slack-Retry-Reason"), body}
		rw.WriteHeader(int(status.Load()))
		if strings.Contains(body, "command=") {
			fmt.Fprint(rw, "no such company")
		}
	})
	r.w.Say(r.ines, r.channel, "", "hi")
	if g := <-got; g.kind != "application/json" || g.num != "" || !strings.Contains(g.body, `"text":"hi"`) {
		t.Errorf("heard %+v", g)
	}
	answer, err := r.w.Slash(r.ines, r.channel, "status")
	if g := <-got; err != nil || answer != "no such company" || !strings.Contains(g.body, "text=status") {
		t.Errorf("command %q %v: %+v", answer, err, g)
	}
	status.Store(http.StatusInternalServerError)
	r.w.Say(r.ines, r.channel, "", "again")
	for i := range 4 {
		g := <-got
		if want := []string{"", "1", "2", "3"}[i]; g.num != want || i > 0 && g.reason != "http_error" {
			t.Errorf("try %d: %+v", i, g)
		}
	}
	if _, err := r.w.Slash(r.ines, r.channel, "status"); !errors.Is(err, ErrNoAnswer) {
		t.Errorf("a command that failed: %v", err)
	}
	clean(t, r.w)
}

// TestRetries: over HTTP an event that is refused comes again at once, after 1 and
// 5 minutes, numbered and with the reason.
func TestRetries(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true})
		var got []string
		start := time.Now()
		app := http.HandlerFunc(func(rw http.ResponseWriter, req *http.Request) {
			got = append(got, strings.TrimSpace(fmt.Sprintln(time.Since(start), req.Header.Get("X-Slack-Retry-Num"), req.Header.Get("X-Slack-Retry-Reason"))))
			rw.WriteHeader(http.StatusServiceUnavailable)
		})
		r.w.endpoint = &Endpoint{Events: "http://crosslay.invalid/", Handler: app}
		r.w.Say(r.ines, r.channel, "", "hi")
		time.Sleep(time.Hour)
		synctest.Wait()
		want := []string{"0s", "0s 1 http_error", "1m0s 2 http_error", "6m0s 3 http_error"}
		if !slices.Equal(got, want) {
			t.Errorf("retries %q, want %q", got, want)
		}
	})
}
