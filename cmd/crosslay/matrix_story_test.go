//go:build goolm

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"maunium.net/go/mautrix/id"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/config"
	"crosslay/internal/matrix/matrixtest"
	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
	"crosslay/internal/story"
)

// matrixTown is Engine 1's part of the example department on a real homeserver,
// encrypted, with the bot as a process of its own.
type matrixTown struct {
	*matrixtest.Server
	t      *testing.T
	bin    string
	db     string
	file   string
	log    string
	health string
	me     id.UserID
	setup  bot.Setup
	people map[string]*matrixtest.Person
	rooms  map[string]id.RoomID // by the id that the department file gives
	said   map[string][]post
	thumb  map[string]post
	bot    *exec.Cmd
}

// post is something that a person put into a room.
type post struct {
	room id.RoomID
	ref  id.EventID
}

func TestMatrix_a_morning_with_kills(t *testing.T) {
	w := newMatrixTown(t)
	steps := storyLines(t, "testdata/matrix_morning.story")
	want := w.terminal(steps)
	w.up()
	w.settle()
	left := count(steps, story.Kill)
	var last id.EventID
	for i, s := range steps {
		switch s.Verb {
		case story.Kill:
			left--
			w.fall(left, last)
		case story.Start:
			w.rise(left)
			w.settle()
		default:
			last = w.act(s)
			if w.bot != nil && !nextIs(steps, i, story.Kill) {
				w.heard(last)
				w.settle()
			}
		}
	}
	w.settle()
	got := w.records()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("on record by Matrix, not as by the terminal (-terminal +matrix):\n%s", diff)
	}
	w.nothingTwice()
}

// fall kills the bot: now, or when it has just heard the last word and is about to
// answer. The last time it is the homeserver that is killed.
func (w *matrixTown) fall(left int, last id.EventID) {
	w.t.Helper()
	if left == 0 {
		w.Server.Kill()
		return
	}
	if left%2 == 1 {
		w.heard(last)
	}
	w.kill()
}

func (w *matrixTown) rise(left int) {
	w.t.Helper()
	if left == 0 {
		w.Server.Up(w.t)
		return
	}
	w.up()
}

func count(steps []story.Step, v story.Verb) int {
	n := 0
	for _, s := range steps {
		if s.Verb == v {
			n++
		}
	}
	return n
}

func nextIs(steps []story.Step, i int, v story.Verb) bool {
	return i+1 < len(steps) && steps[i+1].Verb == v
}

func storyLines(t *testing.T, path string) []story.Step {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	steps, err := story.Parse(path, string(text))
	if err != nil {
		t.Fatal(err)
	}
	return steps
}

// The people and rooms that are on Matrix; all others stay on the terminal.
var (
	matrixPeople = []string{"ines", "ravi", "wim", "greta"}
	matrixRooms  = map[string]string{"room-st1": "#station-1", "shop": "#shop", "officers": "#officers"}
)

func newMatrixTown(t *testing.T) *matrixTown {
	w := &matrixTown{
		Server: matrixtest.Start(t), t: t, people: map[string]*matrixtest.Person{}, rooms: map[string]id.RoomID{},
		said: map[string][]post{}, thumb: map[string]post{},
	}
	dir := t.TempDir()
	w.bin, w.db, w.file, w.log = filepath.Join(dir, "crosslay"), filepath.Join(dir, "crosslay.db"), filepath.Join(dir, "dept.yaml"), filepath.Join(dir, "log")
	w.must(exec.Command("go", "build", "-tags", "goolm", "-o", w.bin, ".").Run())
	w.me = id.UserID(w.Register(t, "bot"))
	login := exec.Command(w.bin, "matrix", "login", "--homeserver", w.URL, "--user", "bot", "--db", w.db)
	login.Stdin = strings.NewReader(matrixtest.Password + "\n\n")
	if out, err := login.CombinedOutput(); err != nil {
		t.Fatalf("log in: %v\n%s", err, out)
	}
	for _, name := range matrixPeople {
		w.people[name] = w.Person(t, name)
	}
	for room, alias := range matrixRooms {
		w.rooms[room] = w.open(strings.TrimPrefix(alias, "#"))
	}
	w.rooms["direct"] = w.people["greta"].Direct(w.me)
	w.must(os.WriteFile(w.file, []byte(w.department()), 0o600))
	setup, err := load(w.file)
	w.must(err)
	w.setup = setup
	w.firstStart()
	return w
}

func (w *matrixTown) must(err error) {
	w.t.Helper()
	if err != nil {
		w.t.Fatal(err)
	}
}

// open makes an encrypted room with everybody in it, and the bot invited.
func (w *matrixTown) open(alias string) id.RoomID {
	host := w.people["ines"]
	var others []id.UserID
	for _, p := range w.people {
		if p != host {
			others = append(others, p.ID)
		}
	}
	room := host.Room(alias, true, append(others, w.me)...)
	for _, p := range w.people {
		if p != host {
			p.Join(room)
		}
	}
	return room
}

// noon is a zone in which it is about noon, so that no test runs over midnight.
func noon() *time.Location {
	shift := 12 - time.Now().UTC().Hour()
	name := fmt.Sprintf("Etc/GMT%+d", -shift)
	if shift == 0 {
		name = "Etc/GMT"
	}
	zone, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return zone
}

var accounts = regexp.MustCompile(`accounts: \{terminal: (\w+)\}`)

// department is the example with some rooms and people on Matrix, and a shift
// change half an hour ago.
func (w *matrixTown) department() string {
	now := time.Now().In(noon())
	text := string(config.ExampleYAML)
	for room, alias := range matrixRooms {
		old := regexp.MustCompile(`(\{id: ` + room + `,.*)backend: terminal, address: "[^"]*"`)
		text = old.ReplaceAllString(text, `${1}backend: matrix, address: "`+alias+":"+matrixtest.Domain+`"`)
	}
	text = accounts.ReplaceAllStringFunc(text, func(s string) string {
		name := accounts.FindStringSubmatch(s)[1]
		if w.people[name] == nil {
			return s
		}
		return fmt.Sprintf(`accounts: {terminal: %s, matrix: "@%s:%s"}`, name, name, matrixtest.Domain)
	})
	for old, new := range map[string]string{
		"zone: America/Denver":      "zone: " + now.Location().String(),
		`shift_change: "07:00"`:     fmt.Sprintf("shift_change: %q", now.Add(-30*time.Minute).Format("15:04")),
		"cycle: [A, A, B, B, C, C]": "cycle: [C, C, A, A, B, B]",
		"starts: 2026-01-01}":       "starts: " + now.Format(time.DateOnly) + "}",
		`summary: "08:30"`:          `summary: "03:00"`,
	} {
		text = strings.Replace(text, old, new, 1)
	}
	return text
}

// firstStart has the bot started once an hour ago, so that it has seen a shift
// change coming.
func (w *matrixTown) firstStart() {
	store, err := sqlite.Open(w.db, sqlite.Options{})
	w.must(err)
	defer store.Close()
	engine := bot.New(store, w.setup)
	w.must(engine.Note(w.t.Context(), chat.Started, time.Now().Add(-time.Hour), ""))
	for more := true; more; {
		more, err = engine.Work(w.t.Context())
		w.must(err)
	}
}

// terminal plays the same on the terminal and returns what is on record.
func (w *matrixTown) terminal(steps []story.Step) []string {
	w.t.Helper()
	path := filepath.Join(w.t.TempDir(), "terminal.db")
	world, err := story.New(w.setup, path, time.Now().Add(-time.Hour), story.Options{Fast: true})
	w.must(err)
	w.must(world.Kill())
	w.must(world.Advance(time.Hour))
	w.must(world.Start())
	played := []story.Step{}
	for _, s := range steps {
		played = append(played, s, story.Step{Line: s.Line, Verb: story.Pass, For: time.Second})
	}
	w.must(story.Script{Name: "matrix_morning", Steps: append([]story.Step{{Verb: story.Pass}}, played...)}.Play(world))
	w.must(world.Close())
	return w.plain(path)
}

// records is what the bot has on record.
func (w *matrixTown) records() []string {
	w.t.Helper()
	w.kill()
	return w.plain(w.db)
}

var stamps = regexp.MustCompile(`-\d{4}-\d\d-\d\d-\d{6}`)

// plain lists the records of a database as crosslay records prints them, without
// what differs between two runs: times, and the names of messages.
func (w *matrixTown) plain(db string) []string {
	w.t.Helper()
	out, err := exec.Command(w.bin, "records", "--db", db).Output()
	w.must(err)
	var list []string
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var r recordLine
		if err := dec.Decode(&r); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			w.t.Fatal(err)
		}
		superseded, supersedes := r.SupersededBy != "", r.Supersedes != ""
		r.ID, r.At, r.Arrived, r.Message, r.Supersedes, r.SupersededBy = "", time.Time{}, time.Time{}, "", "", ""
		if r.Kind == bot.OnRun || r.Check == "run" && r.Item == "e1-pump" {
			r.Value = check.Value{} // a second or two
			r.Words, r.Note = "", ""
		}
		raw, err := json.Marshal(r)
		w.must(err)
		list = append(list, stamps.ReplaceAllString(fmt.Sprintf("%s superseded=%v supersedes=%v", raw, superseded, supersedes), ""))
	}
	return list
}

// nothingTwice looks at the rooms as people see them: every message of the bot's
// is there once, and all of it came encrypted.
func (w *matrixTown) nothingTwice() {
	w.t.Helper()
	sent := w.sent()
	if len(sent) < 20 {
		w.t.Errorf("only %d messages were sent", len(sent))
	}
	var counts map[string]int
	w.poll("ines sees what the bot said", func() bool {
		counts = w.seen("ines")
		for _, key := range sent {
			if counts[key] == 0 {
				return false
			}
		}
		return true
	})
	for key, n := range counts {
		if n != 1 {
			w.t.Errorf("%s is there %d times", key, n)
		}
	}
}

// seen counts the bot's messages as somebody sees them, by key.
func (w *matrixTown) seen(who string) map[string]int {
	w.t.Helper()
	counts := map[string]int{}
	for _, room := range w.rooms {
		for _, s := range w.people[who].All(room, w.me) {
			counts[keyOf(s)]++
			if !s.Secret {
				w.t.Errorf("not encrypted: %s", s.Body)
			}
		}
	}
	return counts
}

// sent lists the messages that the bot has sent to rooms on Matrix, by key.
func (w *matrixTown) sent() []string {
	w.t.Helper()
	store, err := sqlite.Open(w.db, sqlite.Options{ReadOnly: true})
	w.must(err)
	defer store.Close()
	all, err := store.Outgoing(w.t.Context())
	w.must(err)
	var keys []string
	for _, o := range all {
		if o.Message.Place.Backend != "matrix" || o.Message.Place.Direct || o.Message.Edits != "" {
			continue
		}
		if o.State != outbox.Sent {
			w.t.Errorf("%s is %s: %s", o.Message.Key, o.State, o.Reason)
			continue
		}
		keys = append(keys, string(o.Message.Key))
	}
	return keys
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}
