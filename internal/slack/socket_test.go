package slack

import (
	"context"
	"errors"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// TestReconnect: whatever ends a connection, another one comes, and what was said
// meanwhile is heard.
func TestReconnect(t *testing.T) {
	for name, end := range map[string]func(w *bench){
		"warning":  func(w *bench) { w.Disconnect(slackdouble.Warning) },
		"refresh":  func(w *bench) { w.Disconnect(slackdouble.RefreshRequested) },
		"too_many": func(w *bench) { w.Disconnect(slackdouble.TooMany) },
		"cut":      func(w *bench) { w.Cut() },
		"off":      func(w *bench) { w.DisableSocketMode(); time.Sleep(30 * time.Minute); w.EnableSocketMode() },
	} {
		t.Run(name, func(t *testing.T) {
			onBench(t, slackdouble.Options{}, func(w *bench) {
				time.Sleep(10 * time.Minute)
				w.Lose(true)
				w.Say(w.ines, w.station, "", "said before")
				end(w)
				w.Lose(false)
				time.Sleep(15 * time.Minute)
				synctest.Wait()
				if w.Sockets() != 1 {
					t.Fatalf("%d connections are open", w.Sockets())
				}
				w.Say(w.ines, w.station, "", "said after")
				w.settle()
				events := w.in.heard()
				if len(events) != 2 || events[0].Text != "said before" || events[1].Text != "said after" {
					t.Errorf("heard %+v", events)
				}
			})
		})
	}
}

// TestReconnect_backs_off: a connection that ends again and again is not opened
// more than about once a minute.
func TestReconnect_backs_off(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		for range 60 {
			w.Disconnect(slackdouble.RefreshRequested)
			time.Sleep(10 * time.Second)
		}
		if n := len(w.Calls("apps.connections.open")); n > 11 {
			t.Errorf("%d connections were opened in ten minutes", n)
		}
	})
}

// TestReconnect_while_switched_off: with Socket Mode off the operator is told what
// to do, and Slack is asked seldom.
func TestReconnect_while_switched_off(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.DisableSocketMode()
		time.Sleep(time.Hour)
		if n := len(w.Calls("apps.connections.open")); n > 14 {
			t.Errorf("%d connections were opened in an hour", n)
		}
		told := w.troubles()
		if len(told) == 0 || !errors.Is(told[0], errDisabled) || !strings.Contains(told[0].Error(), "switch it on") {
			t.Errorf("told %v", told)
		}
		w.EnableSocketMode()
		time.Sleep(6 * time.Minute)
		if w.Sockets() != 1 {
			t.Error("it does not come back")
		}
	})
}

func TestPauses(t *testing.T) {
	broke := errors.New("broke")
	for name, c := range map[string]struct {
		err      error
		failures int
		lasted   time.Duration
		want     time.Duration
	}{
		"refreshed_after_an_hour": {nil, 0, time.Hour, 0},
		"refreshed_at_once":       {nil, 0, 5 * time.Second, 55 * time.Second},
		"broke_once":              {broke, 1, time.Hour, 2 * time.Second},
		"broke_five_times":        {broke, 5, time.Hour, 32 * time.Second},
		"broke_for_long":          {broke, 100, time.Hour, 5 * time.Minute},
		"switched_off":            {errDisabled, 0, time.Hour, 5 * time.Minute},
	} {
		t.Run(name, func(t *testing.T) {
			if got := reconnect(c.err, c.failures, c.lasted, time.Minute); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

// TestOdd: what nobody knows is acknowledged and forgotten, and hurts nothing.
func TestOdd(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.Odd("telepathy")
		w.Frame("this is no JSON")
		w.Publish(map[string]any{"type": "channel_rename", "channel": map[string]any{"id": w.station, "name": "x"}})
		w.Publish(map[string]any{"type": "user_change", "user": map[string]any{"id": w.ines}})
		w.Publish(map[string]any{"type": "message", "channel": []int{1}, "ts": 5})
		w.settle()
		w.Say(w.ines, w.station, "", "status")
		w.settle()
		if ev := w.only(); ev.Text != "status" {
			t.Errorf("heard %+v", ev)
		}
	})
}

// TestEnter: what is wrong with the app ends Run with what to do about it; a
// service that is away does not.
func TestEnter(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.stop()
		w.Fail("auth.test", slackdouble.Refuse("invalid_auth"))
		b, err := New(w.config())
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Run(w.t.Context(), w.in.receive); err == nil || !strings.Contains(err.Error(), "install the app again") {
			t.Errorf("Run ended with %v", err)
		}
		w.Fail("auth.test", slackdouble.Drop(), slackdouble.Status(503), slackdouble.Limit(5*time.Second))
		w.listen()
		time.Sleep(time.Minute)
		w.Say(w.ines, w.station, "", "status")
		w.settle()
		w.only()
	})
}

// TestRevoked: a token that is revoked while the bot runs stops nothing else; the
// operator is told.
func TestRevoked(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		time.Sleep(2 * time.Minute)
		w.Revoke(w.AppToken)
		w.Cut()
		time.Sleep(10 * time.Minute)
		told := w.troubles()
		if len(told) < 2 || !strings.Contains(told[len(told)-1].Error(), "token") {
			t.Errorf("told %v", told)
		}
		if n := len(w.Calls("apps.connections.open")); n > 8 {
			t.Errorf("asked %d times", n)
		}
		w.noSecrets(told...)
		w.Forget() // a token that is good no more is used on purpose
	})
}

// noSecrets holds that no text has a token in it.
func (w *bench) noSecrets(errs ...error) {
	w.t.Helper()
	for _, err := range errs {
		for _, secret := range w.Secrets() {
			if strings.Contains(err.Error(), secret) {
				w.t.Errorf("an error tells a secret: %v", err)
			}
		}
	}
}

// TestRun_ends: whatever is under way, Run ends with its context.
func TestRun_ends(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &bench{Workspace: slackdouble.New(t, slackdouble.Options{InMemory: true}), t: t, in: newInbox()}
		w.Fail("auth.test", slackdouble.Slow(time.Hour))
		b, err := New(w.config())
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		if err := b.Run(ctx, func(context.Context, chat.Batch) error { return nil }); err != nil {
			t.Error(err)
		}
		w.Close()
		synctest.Wait()
	})
}
