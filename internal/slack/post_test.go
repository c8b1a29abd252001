package slack

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// TestPost_trouble: what goes wrong with a post means one of four things, and the
// message then stands there or not.
func TestPost_trouble(t *testing.T) {
	const (
		wait    = "wait"
		refused = "refused"
		unsure  = "unsure"
		again   = "not arrived"
	)
	for name, c := range map[string]struct {
		fault slackdouble.Fault
		means string
		shown int
	}{
		"limit_with_header":    {slackdouble.Limit(7 * time.Second), wait, 0},
		"limit_bare":           {slackdouble.LimitBare(), wait, 0},
		"limit_in_200":         {slackdouble.LimitOK(), wait, 0},
		"answer_lost":          {slackdouble.CommitAndDrop(), unsure, 1},
		"connection_lost":      {slackdouble.Drop(), unsure, 0},
		"answer_cut_short":     {slackdouble.CommitAndGarble(), unsure, 1},
		"committed_and_500":    {slackdouble.CommitAndStatus(http.StatusInternalServerError), unsure, 1},
		"unavailable":          {slackdouble.Status(http.StatusServiceUnavailable), unsure, 0},
		"internal_error":       {slackdouble.Refuse("internal_error"), unsure, 0},
		"fatal_error":          {slackdouble.Refuse("fatal_error"), unsure, 0},
		"archived":             {slackdouble.Refuse("is_archived"), refused, 0},
		"thrown_out":           {slackdouble.Refuse("not_in_channel"), refused, 0},
		"forbidden_by_setting": {slackdouble.Refuse("restricted_action"), refused, 0},
		"token_revoked":        {slackdouble.Refuse("token_revoked"), again, 0},
		"scope_missing":        {slackdouble.Refuse("missing_scope"), again, 0},
		"answer_late":          {slackdouble.Slow(2 * time.Minute), unsure, 1},
	} {
		t.Run(name, func(t *testing.T) {
			onBench(t, slackdouble.Options{}, func(w *bench) {
				w.Fail("chat.postMessage", c.fault)
				ctx, cancel := context.WithTimeout(w.t.Context(), time.Minute)
				defer cancel()
				_, err := w.b.Post(ctx, prompt("k/1"), w.place(), "")
				if got := meaning(err); got != c.means {
					t.Errorf("means %s, want %s: %v", got, c.means, err)
				}
				if n := len(w.Messages(w.station)); n != c.shown {
					t.Errorf("%d messages are shown, want %d", n, c.shown)
				}
				w.Forget() // a double that stops in mid-air blames nobody
			})
		})
	}
}

func meaning(err error) string {
	switch {
	case err == nil:
		return "shown"
	case errors.As(err, &chat.Wait{}):
		return "wait"
	case errors.Is(err, chat.ErrRefused):
		return "refused"
	case errors.Is(err, chat.ErrUnsure):
		return "unsure"
	}
	return "not arrived"
}

// TestPost_waits_as_asked: what Slack asks to wait is told, and kept to.
func TestPost_waits_as_asked(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.Fail("chat.postMessage", slackdouble.Limit(40*time.Second))
		_, err := w.b.Post(w.t.Context(), prompt("k/1"), w.place(), "")
		if wait := (chat.Wait{}); !errors.As(err, &wait) || wait.For != 40*time.Second {
			t.Fatalf("error %v", err)
		}
		if _, err = w.b.Post(w.t.Context(), prompt("k/1"), w.place(), ""); !errors.As(err, &chat.Wait{}) {
			t.Errorf("posted before the time was over: %v", err)
		}
		time.Sleep(40 * time.Second)
		w.post(prompt("k/1"), w.place())
	})
}

// TestPost_unreachable: a service that is not there has taken nothing.
func TestPost_unreachable(t *testing.T) {
	b, err := New(Config{Tokens: Tokens{Bot: "xoxb-1", App: "xapp-1"}, URL: "http://127.0.0.1:1/api/"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Post(t.Context(), prompt("k/1"), chat.Place{Backend: Name, Room: "C1"}, ""); meaning(err) != "not arrived" {
		t.Errorf("error %v", err)
	}
}

// TestFind_after_doubt: a message whose answer was lost is found, one that never
// arrived is not, in the channel and in a thread, across pages of the history.
func TestFind_after_doubt(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := w.post(prompt("k/root"), w.place())
		thread := w.place()
		thread.Thread = root
		for _, place := range []chat.Place{w.place(), thread} {
			for name, fault := range map[chat.Key]slackdouble.Fault{"lost": slackdouble.CommitAndDrop(), "never": slackdouble.Drop()} {
				m := prompt(chat.Key(fmt.Sprintf("k/%s/%s", name, place.Thread)))
				began := time.Now()
				w.Fail("chat.postMessage", fault)
				_, err := w.b.Post(w.t.Context(), m, place, "")
				if meaning(err) != "unsure" {
					t.Fatalf("%s: %v", m.Key, err)
				}
				for range 205 { // more than a page
					w.Say(w.ines, w.station, string(place.Thread), "talk")
				}
				time.Sleep(5 * time.Minute)
				ref, found, err := w.b.Find(w.t.Context(), m, place, began.Add(-time.Minute))
				if err != nil || found != (name == "lost") || found != (ref != "") {
					t.Errorf("%s: %q %v %v", m.Key, ref, found, err)
				}
			}
		}
	})
}

// TestFind_in_a_thread_that_is_gone: what stood in it is gone too.
func TestFind_in_a_thread_that_is_gone(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		place := w.place()
		place.Thread = "946684800.123456"
		if _, found, err := w.b.Find(w.t.Context(), prompt("k/1"), place, time.Now()); found || err != nil {
			t.Errorf("%v %v", found, err)
		}
		if _, err := w.b.Post(w.t.Context(), prompt("k/1"), place, ""); meaning(err) != "refused" {
			t.Errorf("error %v", err)
		}
		w.Forget() // a thread that is not there is asked for on purpose
	})
}

// TestPost_long: what is too long for one message goes on below it, once, however
// often it is begun.
func TestPost_long(t *testing.T) {
	long := prompt("k/long")
	for i := range 60 {
		long.Blocks = append(long.Blocks, chat.Text(chat.List, strings.Repeat(fmt.Sprintf("%d item of a long department\n", i), 25)))
	}
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.Fail("chat.postMessage", slackdouble.Status(http.StatusServiceUnavailable))
		began := time.Now()
		if _, err := w.b.Post(w.t.Context(), long, w.place(), ""); meaning(err) != "unsure" {
			t.Fatalf("error %v", err)
		}
		ref := w.post(long, w.place())
		n := len(pages(long))
		if n < 3 || len(w.Messages(w.station)) != 1 || len(w.Thread(w.station, string(ref))) != n {
			t.Fatalf("%d pages, %d messages and %d in the thread", n, len(w.Messages(w.station)), len(w.Thread(w.station, string(ref))))
		}
		found, ok, err := w.b.Find(w.t.Context(), long, w.place(), began.Add(-time.Minute))
		if err != nil || !ok || found != ref {
			t.Errorf("found %q %v %v", found, ok, err)
		}
		edit := long
		edit.Key, edit.Edits = "k/long/edit/1", "k/long"
		if _, err := w.b.Post(w.t.Context(), edit, w.place(), ref); err != nil {
			t.Error(err)
		}
		if got := len(w.Thread(w.station, string(ref))); got != n {
			t.Errorf("an edit makes %d messages of %d", got, n)
		}
	})
}

// TestPost_long_broken_off: the pages that are missing are sent when the message
// is looked for.
func TestPost_long_broken_off(t *testing.T) {
	long := prompt("k/long")
	for i := range 60 {
		long.Blocks = append(long.Blocks, chat.Text(chat.List, strings.Repeat(fmt.Sprintf("%d item of a long department\n", i), 25)))
	}
	onBench(t, slackdouble.Options{}, func(w *bench) {
		began := time.Now()
		w.Fail("conversations.replies", slackdouble.Drop())
		if _, err := w.b.Post(w.t.Context(), long, w.place(), ""); meaning(err) != "unsure" {
			t.Fatalf("error %v", err)
		}
		ref, ok, err := w.b.Find(w.t.Context(), long, w.place(), began.Add(-time.Minute))
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		if got := len(w.Thread(w.station, string(ref))); got != len(pages(long)) {
			t.Errorf("%d pages stand there, want %d", got, len(pages(long)))
		}
	})
}

// TestPost_paced: a burst keeps to a post a second and channel, other channels go
// on meanwhile.
func TestPost_paced(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		other := w.AddChannel("shop")
		began := time.Now()
		for i := range 20 {
			w.post(prompt(chat.Key(fmt.Sprintf("k/%d", i))), w.place())
		}
		if took := time.Since(began); took < 19*time.Second || took > 25*time.Second {
			t.Errorf("20 posts took %s", took)
		}
		w.post(prompt("k/other"), chat.Place{Backend: Name, Room: other})
		for i := range 120 {
			edit := prompt(chat.Key(fmt.Sprintf("k/0/edit/%d", i)))
			if _, err := w.b.Post(w.t.Context(), edit, w.place(), chat.Ref(w.Messages(w.station)[0].TS)); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// TestPlain: what people wrote is never read as markup, and is escaped where Slack
// would read it.
func TestPlain(t *testing.T) {
	m := chat.Message{Key: "k", Blocks: []chat.Block{chat.Text(chat.Body, "a < b & *c* <!here> @channel")}}
	p := pages(m)[0]
	if p.text != "a &lt; b &amp; *c* &lt;!here&gt; @channel" {
		t.Errorf("behind the blocks stands %q", p.text)
	}
	if s := p.blocks[0].(*api.SectionBlock); s.Text.Type != "plain_text" || s.Text.Text != "a < b & *c* <!here> @channel" {
		t.Errorf("shown is %+v", s.Text)
	}
}
