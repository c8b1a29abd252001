package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"log/slog"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/config"
	"crosslay/internal/sqlite"
	"crosslay/internal/terminal"
)

// door is a backend that shows what the bot says and says what it is told to.
type door struct {
	*terminal.Service
	receive chan Receive
	leave   chan error
}

func newDoor() *door {
	return &door{terminal.NewService("t", time.Now), make(chan Receive, 1), make(chan error, 1)}
}

func (d *door) Name() string { return terminal.Name }

func (d *door) Run(ctx context.Context, receive Receive) error {
	d.receive <- receive
	select {
	case <-ctx.Done():
		return nil
	case err := <-d.leave:
		return err
	}
}

func (d *door) kinds(room string) []chat.MessageKind {
	var kinds []chat.MessageKind
	for _, p := range d.Posts() {
		if p.Place.Room == room && p.Place.Thread == "" && p.Key != "" {
			kinds = append(kinds, p.Kind)
		}
	}
	return kinds
}

func setupOf(d *config.Department) bot.Setup {
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
}

type running struct {
	door *door
	file string
	log  *bytes.Buffer
	stop context.CancelFunc
	done chan error
}

// start serves the example department from a file that a test may change.
func start(t *testing.T) *running {
	t.Helper()
	dir := t.TempDir()
	r := &running{door: newDoor(), file: filepath.Join(dir, "dept.yaml"), log: &bytes.Buffer{}, done: make(chan error, 1)}
	if err := os.WriteFile(r.file, config.ExampleYAML, 0o600); err != nil {
		t.Fatal(err)
	}
	store, err := sqlite.Open(filepath.Join(dir, "crosslay.db"), sqlite.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	r.stop = stop
	load := func() (bot.Setup, error) {
		d, err := config.Load(r.file)
		if err != nil {
			return bot.Setup{}, err
		}
		return setupOf(d), nil
	}
	go func() {
		defer store.Close()
		r.done <- Run(ctx, Options{
			Store: store, Queue: store, Setup: setupOf(config.Example()), Backends: []Backend{r.door},
			File: r.file, Load: load, Log: slog.New(slog.NewJSONHandler(r.log, nil)),
			Paint: func(_ context.Context, source string) (chat.Picture, error) {
				return chat.Picture{Name: "p.png", Type: "image/png", Data: []byte("png"), Alt: "drawn for " + source}, nil
			},
		})
	}()
	return r
}

func (r *running) end(t *testing.T) {
	t.Helper()
	r.stop()
	if err := <-r.done; err != nil {
		t.Errorf("stopped with %v", err)
	}
}

func TestServe_prompts_at_shift_change_and_takes_replies(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := start(t)
		time.Sleep(24*time.Hour + time.Minute)
		synctest.Wait()
		for _, room := range []string{"#station-1", "#station-2", "#station-3", "#station-4", "#rescue-2"} {
			if !slices.Contains(r.door.kinds(room), chat.Prompt) {
				t.Errorf("no prompt in %s: %v", room, r.door.kinds(room))
			}
		}
		prompt, _ := r.door.Prompt("E1")
		receive := <-r.door.receive
		ev := r.door.Say("ana", prompt.Thread(), "secret words: all good")
		if err := receive(t.Context(), chat.Batch{Events: []chat.Event{ev}}); err != nil {
			t.Fatal(err)
		}
		synctest.Wait()
		answered := slices.ContainsFunc(r.door.Posts(), func(p terminal.Post) bool {
			return p.Place.Thread == prompt.Ref && p.Key != ""
		})
		if !answered {
			t.Error("no answer to a reply")
		}
		r.end(t)
		if strings.Contains(r.log.String(), "secret words") {
			t.Error("the log has a message's body")
		}
	})
}

func TestServe_draws_the_board_of_the_summary(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := start(t)
		time.Sleep(24 * time.Hour)
		synctest.Wait()
		if n := count(r.door, "[picture] drawn for draw:board/"); n != 1 {
			t.Errorf("a board was drawn %d times in a day: %v", n, r.door.kinds("#officers"))
		}
		r.end(t)
	})
}

func TestServe_takes_up_a_changed_file_that_vets_clean(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := start(t)
		time.Sleep(time.Minute)
		edit(t, r.file, "Quillwater Fire Department", "Juniper Hills Fire Department")
		time.Sleep(time.Minute)
		synctest.Wait()
		if n := count(r.door, "in force: 8 companies"); n != 1 {
			t.Errorf("said %d times that the file is in force: %v", n, r.door.Posts())
		}
		edit(t, r.file, "zone: America/Denver", "zone: America/Nowhere")
		time.Sleep(time.Minute)
		synctest.Wait()
		if n := count(r.door, "old one stays"); n != 1 {
			t.Errorf("said %d times that the old file stays: %v", n, r.door.Posts())
		}
		r.end(t)
	})
}

func edit(t *testing.T, file, from, to string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	changed := bytes.Replace(text, []byte(from), []byte(to), 1)
	if bytes.Equal(changed, text) {
		t.Fatalf("%q is not in the file", from)
	}
	if err := os.WriteFile(file, append(changed, '\n'), 0o600); err != nil {
		t.Fatal(err)
	}
}

// count is how many messages to the officers have the text, whichever way its
// lines are broken.
func count(d *door, text string) int {
	n := 0
	for _, p := range d.Posts() {
		if p.Place.Room == "#officers" && strings.Contains(strings.Join(strings.Fields(p.Text), " "), text) {
			n++
		}
	}
	return n
}

func TestServe_ends_when_a_backend_does(t *testing.T) {
	cases := map[string]struct {
		leave error
		want  string
	}{
		"somebody_left":  {nil, ""},
		"backend_failed": {errors.New("thrown out"), "backend terminal: thrown out"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				r := start(t)
				time.Sleep(time.Second)
				r.door.leave <- c.leave
				err := <-r.done
				if text(err) != c.want {
					t.Errorf("ended with %v, want %q", err, c.want)
				}
				r.stop()
			})
		})
	}
}

func TestFits_unknown_backend(t *testing.T) {
	setup := setupOf(config.Example())
	if err := Fits(setup, []string{"terminal"}); err != nil {
		t.Error(err)
	}
	err := Fits(setup, []string{"pigeon"})
	var none *NoBackendError
	if !errors.As(err, &none) || !strings.Contains(err.Error(), `"terminal", a backend that is not in this build`) {
		t.Errorf("error %v", err)
	}
}

func TestHealth_only_on_loopback(t *testing.T) {
	for address, ok := range map[string]bool{
		"127.0.0.1:0": true, "localhost:0": true, "[::1]:0": true,
		"0.0.0.0:80": false, ":80": false, "10.1.2.3:80": false, "example.invalid:80": false, "80": false,
	} {
		if err := loopback(address); (err == nil) != ok {
			t.Errorf("%s: %v", address, err)
		}
	}
}

func TestHealth_report(t *testing.T) {
	s := &server{began: time.Now()}
	s.Backlog = func(context.Context) (Backlog, error) { return Backlog{Outbox: 3, Parked: 1, Uncertain: 2}, nil }
	get := func() (int, report) {
		w := httptest.NewRecorder()
		s.healthz(w, httptest.NewRequest("GET", "/healthz", nil))
		var h report
		if err := json.Unmarshal(w.Body.Bytes(), &h); err != nil {
			t.Fatal(err)
		}
		return w.Code, h
	}
	if code, h := get(); code != 200 || !h.OK || h.Outbox != 3 || h.Parked != 1 || h.Uncertain != 2 {
		t.Errorf("%d %+v", code, h)
	}
	s.busy.Store(time.Now().Add(-2 * stuck).UnixMilli())
	if code, h := get(); code != 503 || h.OK || h.InboxAge < stuck.Seconds() {
		t.Errorf("stuck inbox: %d %+v", code, h)
	}
}
