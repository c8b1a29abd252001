package main

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/config"
	"crosslay/internal/outbox"
	"crosslay/internal/serve"
	"crosslay/internal/slack"
	"crosslay/internal/slack/slackdouble"
	"crosslay/internal/sqlite"
	"crosslay/internal/story"
)

// slackTown is the example department on a double of Slack, with a bot that
// serves it as crosslay serve does. It stands inside a synctest bubble.
type slackTown struct {
	*slackdouble.Workspace
	t     *testing.T
	setup bot.Setup
	db    string
	extra []serve.Backend // beside Slack
	users map[string]string
	said  map[string][]place // of each person, in order
	hands map[string]place   // the last reaction of each person
	clock time.Time          // of the story; the real one runs ahead of it a little
	storm bool               // it runs ahead of it a lot, and requests are in each other's way
	log   bytes.Buffer

	standing []bot.Record // at the end: what nothing superseded

	store *sqlite.Store // nil while the bot is down
	stop  context.CancelFunc
	done  chan error
}

// place is where something stands on Slack.
type place struct{ channel, thread, ts, emoji string }

// newSlackTown moves the department's people to Slack, and the rooms for which on
// is true.
func newSlackTown(t *testing.T, begin time.Time, on func(dept.Room) bool) *slackTown {
	w := &slackTown{Workspace: slackdouble.New(t, slackdouble.Options{InMemory: true}), t: t, db: filepath.Join(t.TempDir(), "crosslay.db"),
		users: map[string]string{}, said: map[string][]place{}, hands: map[string]place{}, clock: begin}
	time.Sleep(time.Until(begin))
	d := config.Example()
	for i, p := range d.Dept.People {
		id := w.AddUser(string(p.ID), p.Name)
		w.users[string(p.ID)] = id
		accounts := map[string]string{slack.Name: id}
		maps.Copy(accounts, p.Accounts)
		d.Dept.People[i].Accounts = accounts
	}
	for i, r := range d.Dept.Rooms {
		if on(r) {
			d.Dept.Rooms[i].Backend, d.Dept.Rooms[i].Address = slack.Name, w.AddChannel(strings.TrimPrefix(r.Address, "#"))
		}
	}
	d.Dept.Index()
	w.setup = bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
	return w
}

// start starts the bot on the database file.
func (w *slackTown) start() {
	w.t.Helper()
	store, err := sqlite.Open(w.db, sqlite.Options{Fast: true})
	if err != nil {
		w.t.Fatal(err)
	}
	cfg := slackConfig(slack.Tokens{Bot: w.BotToken, App: w.AppToken}, func() bot.Setup { return w.setup })
	cfg.URL, cfg.HTTP, cfg.Dialer = w.URL(), w.Client(), w.Dialer()
	logger := slog.New(slog.NewJSONHandler(&w.log, nil))
	cfg.Bookmark = func(ctx context.Context, name string) (string, error) { return store.Cursor(ctx, slack.Name, name) }
	cfg.Report = func(err error) { logger.Warn("slack", "error", err.Error()) }
	b, err := slack.New(cfg)
	if err != nil {
		w.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(w.t.Context())
	w.store, w.stop, w.done = store, cancel, make(chan error, 1)
	go func() {
		w.done <- serve.Run(ctx, serve.Options{Store: store, Queue: store, Setup: w.setup, Backends: relayed(append([]serve.Backend{b}, w.extra...)), Log: logger})
	}()
	w.settle()
}

// kill takes the file away from under the bot: whatever it was doing is not
// written down any more.
func (w *slackTown) kill() {
	w.t.Helper()
	if err := w.store.Close(); err != nil {
		w.t.Error(err)
	}
	w.store = nil
	w.stop()
	<-w.done
}

// settle lets everything be said that is to be said now.
func (w *slackTown) settle() {
	w.t.Helper()
	for range 40 * 60 { // a storm may take a while
		time.Sleep(500 * time.Millisecond)
		synctest.Wait()
		if w.store == nil {
			return
		}
		waiting, err := w.store.Outgoing(w.t.Context(), outbox.Ready, outbox.Sending)
		if err != nil {
			w.t.Fatal(err)
		}
		if len(waiting) == 0 {
			return
		}
	}
	w.t.Fatal("the bot does not come to rest")
}

// until lets time pass.
func (w *slackTown) until(at time.Time) {
	w.clock = at
	time.Sleep(max(0, time.Until(at)))
	w.settle()
}

// play does what the steps of a story say; what it expects is left to the caller.
func (w *slackTown) play(steps []story.Step) error {
	for i, s := range steps {
		if i == 0 && s.Verb == story.At || s.Verb == story.Expect {
			continue
		}
		if err := w.step(s); err != nil {
			return fmt.Errorf("line %d: %w", s.Line, err)
		}
	}
	return nil
}

func (w *slackTown) step(s story.Step) error {
	switch s.Verb {
	case story.At:
		at, err := w.instant(s)
		if err != nil {
			return err
		}
		w.until(at)
		return nil
	case story.Pass:
		if w.storm {
			w.clock = time.Now()
		}
		w.until(w.clock.Add(s.For))
		return nil
	case story.Kill:
		w.kill()
		return nil
	case story.Start:
		w.start()
		return nil
	default:
	}
	err := w.act(s)
	w.settle()
	return err
}

func (w *slackTown) instant(s story.Step) (time.Time, error) {
	clock, err := dept.ParseClock(s.Clock)
	if err != nil {
		return time.Time{}, err
	}
	date := dept.DateOf(w.clock.In(w.setup.Dept.Zone))
	if s.Date != "" {
		if date, err = dept.ParseDate(s.Date); err != nil {
			return time.Time{}, err
		}
	} else if !clock.On(date, w.setup.Dept.Zone).After(w.clock) {
		date = date.AddDays(1)
	}
	return clock.On(date, w.setup.Dept.Zone), nil
}

// act does on Slack what a person does.
func (w *slackTown) act(s story.Step) error {
	who, ok := w.users[s.Who]
	if !ok {
		return fmt.Errorf("nobody is called %s", s.Who)
	}
	own := w.said[s.Who]
	if s.N == 0 {
		s.N = len(own)
	}
	switch s.Verb {
	case story.Edit:
		w.Edit(own[s.N-1].channel, own[s.N-1].ts, s.Text)
	case story.Delete:
		w.Delete(own[s.N-1].channel, own[s.N-1].ts)
	case story.React:
		at, err := w.find(who, s.Place)
		if err != nil {
			return err
		}
		at.emoji = reactionNames[s.Text]
		w.hands[s.Who] = at
		w.React(who, at.channel, at.ts, at.emoji)
	case story.Unreact:
		at := w.hands[s.Who]
		w.Unreact(who, at.channel, at.ts, at.emoji)
	case story.Say:
		at, err := w.find(who, s.Place)
		if err != nil {
			return err
		}
		var files []slackdouble.Upload
		if s.Photo {
			files = append(files, jpeg)
		}
		at.ts = w.Say(who, at.channel, at.thread, s.Text, files...)
		w.said[s.Who] = append(own, at)
	default:
	}
	return nil
}

var jpeg = slackdouble.Upload{Name: "photo.jpg", Data: []byte("\xff\xd8\xff\xe0 a photo")}

var reactionNames = map[string]string{"👍": "+1", "✅": "white_check_mark", "👎": "-1", "👀": "eyes", "👌": "ok_hand", "🙏": "pray"}

// find is the place that a story means: a room, a company's thread, a defect's, or
// alone with the bot.
func (w *slackTown) find(who, name string) (place, error) {
	if name == "direct" {
		return place{channel: w.Direct(who)}, nil
	}
	for _, r := range config.Example().Dept.Rooms {
		if strings.EqualFold(r.Address, name) {
			room, _ := w.setup.Dept.Room(r.ID)
			return place{channel: room.Address}, nil
		}
	}
	prefix, n := "prompt/"+name+"/", -1
	if rest, ok := strings.CutPrefix(name, "defect"); ok {
		prefix, n = "defect/", -1
		fmt.Sscanf(rest, "%d", &n)
	}
	var roots []slackdouble.Message
	for _, m := range w.Posted() {
		if key, _ := m.Payload["key"].(string); m.Thread == "" && strings.HasPrefix(key, prefix) && !strings.Contains(key, "#") {
			roots = append(roots, m)
		}
	}
	if n < 1 {
		n = len(roots)
	}
	if n < 1 || n > len(roots) {
		return place{}, fmt.Errorf("no place is called %s: %d messages begin with %s", name, len(roots), prefix)
	}
	return place{channel: roots[n-1].Channel, thread: roots[n-1].TS, ts: roots[n-1].TS}, nil
}

// end stops the bot in order and returns what is on record.
func (w *slackTown) end() []bot.Record {
	w.t.Helper()
	w.settle()
	var records []bot.Record
	err := w.store.Records(w.t.Context(), sqlite.Filter{}, func(r bot.Record, by string) error {
		records = append(records, r)
		w.standing = append(w.standing, r)
		if by != "" {
			w.standing = w.standing[:len(w.standing)-1]
		}
		return nil
	})
	if err != nil {
		w.t.Error(err)
	}
	parked, err := w.store.Parked(w.t.Context())
	if err != nil || len(parked) > 0 {
		w.t.Errorf("parked: %+v, %v", parked, err)
	}
	w.stop()
	if err := <-w.done; err != nil {
		w.t.Errorf("the bot ended with %v", err)
	}
	if err := w.store.Close(); err != nil {
		w.t.Error(err)
	}
	for _, v := range w.Violations() {
		if w.storm && v.Rule == slackdouble.RateIgnored {
			continue // it was on its way when another was told to wait
		}
		w.t.Errorf("violation: %v", v)
	}
	w.once()
	w.Close()
	synctest.Wait()
	return records
}

// once holds that no message stands twice.
func (w *slackTown) once() {
	w.t.Helper()
	count := map[any]int{}
	for _, m := range w.Posted() {
		if m.Text != "" { // a command that is shown to the channel has no text of ours
			count[m.Payload["key"]]++
		}
	}
	for key, n := range count {
		if n != 1 || key == nil {
			w.t.Errorf("%v stands %d times", key, n)
		}
	}
	for _, secret := range w.Secrets() {
		if strings.Contains(w.log.String(), secret) {
			w.t.Error("the log tells a secret")
		}
	}
}

// plainRecords are records as one line each, without what differs from one service
// to another: ids, and the seconds of a run.
func plainRecords(records []bot.Record) []string {
	var lines []string
	for _, r := range records {
		value := r.Value.Word
		if r.Value.Number != nil && r.Check != "run" { // which lasts as long as the storm
			value = fmt.Sprintf("%.1f", *r.Value.Number)
		}
		lines = append(lines, fmt.Sprintf("%s %s %s/%s %s.%s %s %s %q by %s (%s)", r.Kind, r.Company, r.Date, r.Platoon, r.Item, r.Check, r.State,
			value, r.Words, r.Who, noIDs(r.Note)))
	}
	slices.Sort(lines)
	return lines
}

// noIDs leaves out of a note what names an event.
func noIDs(note string) string {
	if strings.Contains(note, "/") && !strings.Contains(note, " ") {
		return ""
	}
	return note
}
