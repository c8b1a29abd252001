//go:build goolm

package main

import (
	"bytes"
	"context"
	"log/slog"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/config"
	"crosslay/internal/matrix"
	"crosslay/internal/matrix/matrixtest"
	"crosslay/internal/serve"
	"crosslay/internal/slack"
	"crosslay/internal/slack/slackdouble"
	"crosslay/internal/sqlite"
)

// mixed is the example department with its crews on a double of Slack and its shop
// on a real homeserver, encrypted; both on the real clock.
type mixed struct {
	*slackdouble.Workspace
	t       *testing.T
	server  *matrixtest.Server
	wim     *matrixtest.Person
	shop    id.RoomID
	ines    string // on Slack
	station string // on Slack
	secrets string
	setup   bot.Setup
	store   *sqlite.Store
	log     lockedBuffer
}

// lockedBuffer is a log that is read while it is written.
type lockedBuffer struct {
	mu sync.Mutex
	bytes.Buffer
}

func (b *lockedBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.Buffer.Write(p)
}

func (b *lockedBuffer) text() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.Buffer.String()
}

// TestSlack_and_Matrix: a crew reports on Slack with a photo, the shop has both on
// Matrix, and what it says there the crew reads on Slack.
func TestSlack_and_Matrix(t *testing.T) {
	w := newMixed(t)
	w.serve()
	var prompt slackdouble.Message
	w.poll("the prompt comes", func() bool {
		i := slices.IndexFunc(w.Messages(w.station), func(m slackdouble.Message) bool { return strings.HasPrefix(slackKey(m), "prompt/E1/") })
		if i >= 0 {
			prompt = w.Messages(w.station)[i]
		}
		return i >= 0
	})
	w.Say(w.ines, w.station, prompt.TS, "left hose has a nick in the cover", slackdouble.Upload{Name: "nick.png", Data: photoOf(t)})
	root := w.wim.Wait(t, "the defect", w.shop, func(s matrixtest.Seen) bool { return strings.Contains(s.Body, "HH-01") && s.Thread == "" })
	photo := w.wim.Wait(t, "its photo", w.shop, func(s matrixtest.Seen) bool { return s.Type == event.MsgImage && s.Thread == root.ID })
	if !root.Secret || !photo.Secret {
		t.Error("the shop's room is encrypted, and what came is not")
	}
	w.wim.Say(w.shop, root.ID, "waiting for parts until friday")
	w.poll("the crew is told", func() bool {
		return slices.ContainsFunc(w.Thread(w.station, prompt.TS), func(m slackdouble.Message) bool {
			return m.User == w.BotUser && strings.Contains(m.Text, "HH-01") && strings.Contains(m.Text, "Fri")
		})
	})
	for _, v := range w.Violations() {
		t.Errorf("violation: %v", v)
	}
}

func slackKey(m slackdouble.Message) string {
	key, _ := m.Payload["key"].(string)
	return key
}

func newMixed(t *testing.T) *mixed {
	w := &mixed{Workspace: slackdouble.New(t, slackdouble.Options{PostBurst: 1000}), t: t, server: matrixtest.Start(t), secrets: t.TempDir()}
	w.ines = w.AddUser("ines", "Ines Pelluci")
	w.station = w.AddChannel("station-1", w.ines)
	me := id.UserID(w.server.Register(t, "bot"))
	login, err := matrix.LogIn(t.Context(), matrix.Credentials{Homeserver: w.server.URL, User: "bot", Password: matrixtest.Password, Dir: w.secrets})
	if err != nil || login.Trouble != nil {
		t.Fatal(err, login.Trouble)
	}
	w.wim = w.server.Person(t, "wim")
	w.department(map[string]map[string]string{"ines": {slack.Name: w.ines}, "wim": {matrix.Name: string(w.wim.ID)}})
	if w.store, err = sqlite.Open(filepath.Join(t.TempDir(), "crosslay.db"), sqlite.Options{Fast: true}); err != nil {
		t.Fatal(err)
	}
	w.shop = w.wim.Room("shop", true, me)
	return w
}

// department is the example with a shift change half an hour ago.
func (w *mixed) department(accounts map[string]map[string]string) {
	now := time.Now().In(noon())
	text := string(config.ExampleYAML)
	for old, fresh := range map[string]string{
		"zone: America/Denver": "zone: " + now.Location().String(), `shift_change: "07:00"`: `shift_change: "` + now.Add(-30*time.Minute).Format("15:04") + `"`,
		"cycle: [A, A, B, B, C, C]": "cycle: [C, C, A, A, B, B]", "starts: 2026-01-01}": "starts: " + now.Format(time.DateOnly) + "}",
	} {
		text = strings.Replace(text, old, fresh, 1)
	}
	d, err := config.Parse("mixed.yaml", []byte(text))
	if err != nil {
		w.t.Fatal(err)
	}
	for i, p := range d.Dept.People {
		all := maps.Clone(p.Accounts)
		maps.Copy(all, accounts[string(p.ID)])
		d.Dept.People[i].Accounts = all
	}
	for i, r := range d.Dept.Rooms {
		switch {
		case r.Purpose == dept.ForShop:
			d.Dept.Rooms[i].Backend, d.Dept.Rooms[i].Address = matrix.Name, "#shop:"+matrixtest.Domain
		case r.Station == "st1":
			d.Dept.Rooms[i].Backend, d.Dept.Rooms[i].Address = slack.Name, w.station
		default:
			d.Dept.Rooms[i].Backend, d.Dept.Rooms[i].Address = slack.Name, w.AddChannel(string(r.ID))
		}
	}
	d.Dept.Index()
	w.setup = bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
}

// serve runs the bot until the test ends. It has seen the shift change coming, an
// hour ago.
func (w *mixed) serve() {
	engine := bot.New(w.store, w.setup)
	err := engine.Note(w.t.Context(), chat.Started, time.Now().Add(-time.Hour), "")
	for more := err == nil; more; {
		more, err = engine.Work(w.t.Context())
	}
	if err != nil {
		w.t.Fatal(err)
	}
	logger := slog.New(slog.NewJSONHandler(&w.log, nil))
	setup := func() bot.Setup { return w.setup }
	onMatrix, err := openMatrix(parts{setup: setup, store: w.store, secrets: w.secrets, log: logger})
	if err != nil {
		w.t.Fatal(err)
	}
	cfg := slackConfig(slack.Tokens{Bot: w.BotToken, App: w.AppToken}, setup)
	cfg.URL, cfg.HTTP, cfg.Limits = w.URL(), w.Client(), slack.Limits{Channel: 5 * time.Millisecond, Workspace: time.Millisecond, Connect: time.Second}
	cfg.Bookmark = func(ctx context.Context, name string) (string, error) { return w.store.Cursor(ctx, slack.Name, name) }
	cfg.Report = func(err error) { logger.Warn("slack", "error", err.Error()) }
	onSlack, err := slack.New(cfg)
	if err != nil {
		w.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() {
		done <- serve.Run(ctx, serve.Options{Store: w.store, Queue: w.store, Setup: w.setup, Log: logger, Backends: relayed([]serve.Backend{onSlack, onMatrix})})
	}()
	w.t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			w.t.Errorf("the bot ended with %v", err)
		}
		w.store.Close()
	})
}

// poll waits until done, and fails the test with the bot's log after a while.
func (w *mixed) poll(what string, done func() bool) {
	w.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		if done() {
			return
		}
	}
	w.t.Fatalf("it does not come about that %s; the bot's log:\n%s", what, w.log.text())
}
