package slackdouble

import (
	"testing"
	"testing/synctest"
	"time"
)

// TestPostPace: one post a second a channel, 429 with Retry-After beyond; channels
// do not hinder each other, and who waits breaks no rule.
func TestPostPace(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := newRaw(t, Options{InMemory: true, PostBurst: 1})
		other := r.w.AddChannel("shop")
		if o := r.call("chat.postMessage", "channel", other, "text", "x"); o["ok"] != true {
			t.Errorf("in another channel: %v", o)
		}
		o := r.call("chat.postMessage", "channel", r.channel, "text", "x")
		if o["status"] != 429 || o["after"] != "1" {
			t.Errorf("the second post within a second: %v", o)
		}
		time.Sleep(time.Second)
		if o := r.call("chat.postMessage", "channel", r.channel, "text", "x"); o["ok"] != true {
			t.Errorf("after the wait: %v", o)
		}
		if o := r.call("chat.postMessage", "channel", "#station-1", "text", "x"); o["status"] != 429 {
			t.Errorf("the same channel by its name: %v", o)
		}
		time.Sleep(time.Second)
		clean(t, r.w)
		for range 10 {
			time.Sleep(time.Second)
			if o := r.call("chat.postMessage", "channel", r.channel, "text", "x"); o["ok"] != true {
				t.Errorf("one a second: %v", o)
			}
		}
	})
}

// TestTiers: the documented tiers, by the number of calls a minute that are taken.
func TestTiers(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		want int
	}{
		"apps.connections.open": {nil, 3},
		"conversations.list":    {nil, 20},
		"conversations.history": {[]string{"channel", ""}, 50},
		"users.info":            {[]string{"user", "U1"}, 100},
		"auth.test":             {nil, 300},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				r := newRaw(t, Options{InMemory: true})
				taken := 0
				for r.call(name, c.args...)["status"] == 200 {
					taken++
				}
				if taken != c.want {
					t.Errorf("%d calls were taken, want %d", taken, c.want)
				}
				time.Sleep(59 * time.Second)
				if name != "apps.connections.open" && r.call(name, c.args...)["status"] != 429 {
					t.Error("taken before the minute was over")
				}
				time.Sleep(2 * time.Minute)
				if r.call(name, c.args...)["status"] != 200 {
					t.Error("not taken after the wait")
				}
			})
		})
	}
}

// TestShapesOf429: the three forms in which a limit is told.
func TestShapesOf429(t *testing.T) {
	for name, c := range map[string]struct {
		fault  Fault
		status int
		after  string
	}{
		"header": {Limit(1500 * time.Millisecond), 429, "2"},
		"bare":   {LimitBare(), 429, ""},
		"ok":     {LimitOK(), 200, ""},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				r := newRaw(t, Options{InMemory: true})
				r.w.Fail("chat.postMessage", c.fault)
				o := r.call("chat.postMessage", "channel", r.channel, "text", "x")
				if o["status"] != c.status || o["after"] != c.after || o["error"] != "ratelimited" {
					t.Errorf("answered %v", o)
				}
				if shown := r.w.Messages(r.channel); len(shown) != 1 {
					t.Errorf("%d are shown, want the root alone", len(shown))
				}
				time.Sleep(2 * time.Second)
				r.call("chat.postMessage", "channel", r.channel, "text", "x")
				clean(t, r.w)
			})
		})
	}
}
