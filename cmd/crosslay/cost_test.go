package main

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/config"
	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
)

// These benchmarks show what the design promises: a reply costs a few durable
// inserts, and the same after ten years as on the first day. Each prints its
// median beside that of a bare durable insert measured in the same run.
//
//	go test ./cmd/crosslay -run '^$' -bench . -benchtime 300x
//
// CROSSLAY_YEARS sets the years of history (default 10); it takes minutes to write.

// fleetOf is the example department with its first company multiplied to n.
func fleetOf(n int) bot.Setup {
	ex := config.Example()
	d := *ex.Dept
	first := d.Companies[0]
	carried := ex.Dept.Carried(first.ID)
	d.Companies, d.Items, d.People = nil, nil, nil
	d.Rooms = slices.DeleteFunc(slices.Clone(d.Rooms), func(r dept.Room) bool { return r.Purpose == dept.ForCompany })
	for i := range n {
		c := first
		c.ID = dept.CompanyID(fmt.Sprintf("E%d", i))
		c.Name, c.Names = fmt.Sprintf("Engine %d", i), nil
		d.Companies = append(d.Companies, c)
		for _, it := range carried {
			it.ID = dept.ItemID(fmt.Sprintf("e%d-%s", i, it.ID))
			it.Number = fmt.Sprintf("%s-%d", it.Number, i)
			it.Company, it.HangsOn = c.ID, ""
			d.Items = append(d.Items, it)
		}
		d.People = append(d.People, dept.Person{ID: dept.PersonID("p" + strconv.Itoa(i)), Name: "P", Roles: []dept.Role{dept.Crew}, Company: c.ID,
			Accounts: map[string]string{"terminal": "p" + strconv.Itoa(i)}})
	}
	d.People = append(d.People, dept.Person{ID: "chief", Name: "Chief", Roles: []dept.Role{dept.Chief}, Accounts: map[string]string{"terminal": "chief"}})
	d.Index()
	return bot.Setup{Dept: &d, Book: ex.Book, Rota: ex.Rota, Ladders: ex.Ladders}
}

// bench is an engine on a file, with a shift that has been prompted.
type bench struct {
	setup  bot.Setup
	store  *sqlite.Store
	engine *bot.Engine
	now    time.Time
	n      int
}

func newBench(b *testing.B, companies, years int) *bench {
	b.Helper()
	setup := fleetOf(companies)
	store, err := sqlite.Open(filepath.Join(b.TempDir(), "cost.db"), sqlite.Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { store.Close() })
	x := &bench{setup: setup, store: store, engine: bot.New(store, setup)}
	change := dept.Clock(7*60).On(dept.Date{Year: 2026, Month: 3, Day: 2}, setup.Dept.Zone)
	x.history(b, change, years)
	x.now = change.Add(-time.Minute)
	x.must(b, x.engine.Note(context.Background(), chat.Started, x.now, ""))
	x.work(b)
	x.now = change
	return x
}

func (x *bench) must(b *testing.B, err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

func (x *bench) work(b *testing.B) {
	b.Helper()
	for {
		more, err := x.engine.Work(context.Background())
		x.must(b, err)
		if !more {
			return
		}
	}
}

func (x *bench) change(b *testing.B) {
	b.Helper()
	_, err := x.engine.Wake(context.Background(), x.now)
	x.must(b, err)
	x.work(b)
}

// keyed is a service that takes everything and calls a message by its key.
type keyed struct{}

func (keyed) Post(_ context.Context, m chat.Message, _ chat.Place, _ chat.Ref) (chat.Ref, error) {
	return chat.Ref(m.Key), nil
}
func (keyed) Keyed() {}

func (x *bench) send(b *testing.B) {
	b.Helper()
	sender := outbox.New(x.store, map[string]outbox.Poster{"terminal": keyed{}}, outbox.Options{})
	for {
		more, err := sender.Step(context.Background(), x.now)
		x.must(b, err)
		if !more {
			return
		}
	}
}

// prompt is the thread of a company's shift.
func (x *bench) prompt(c dept.CompanyID) chat.Ref {
	shift := x.setup.Rota.At(x.now)
	return chat.Ref(fmt.Sprintf("prompt/%s/%s/%s", c, shift.Date, shift.Platoon))
}

func (x *bench) hear(b *testing.B, ev chat.Event) {
	b.Helper()
	x.n++
	x.now = x.now.Add(time.Second)
	ev.Backend, ev.ID, ev.Kind = "terminal", "b"+strconv.Itoa(x.n), chat.Said
	ev.Ref, ev.Said, ev.Arrived = chat.Ref(ev.ID), x.now, x.now
	_, err := x.store.Receive(context.Background(), ev.Backend, chat.Batch{Events: []chat.Event{ev}})
	x.must(b, err)
	x.work(b)
}

// history writes a reading an item and shift, and the words and reminders of a
// company, for so many years before until.
func (x *bench) history(b *testing.B, until time.Time, years int) {
	b.Helper()
	for day := range years * 365 {
		at := until.AddDate(0, 0, -day-1)
		out := bot.Outcome{}
		for i, it := range x.setup.Dept.Items {
			id := fmt.Sprintf("reading/old/%d/%d", day, i)
			out.Records = append(out.Records, bot.Record{ID: id, Kind: bot.OnReading, At: at, Arrived: at, Company: it.Company, Item: it.ID,
				Check: "fuel", State: "ok", Value: check.Num(1), Words: "full", Who: "P", Message: id, Date: dept.DateOf(at), Platoon: "A"})
		}
		ev := chat.Event{Backend: "old", ID: strconv.Itoa(day), Kind: chat.Said, Said: at, Arrived: at}
		_, err := x.store.Receive(context.Background(), "old", chat.Batch{Events: []chat.Event{ev}})
		x.must(b, err)
		_, err = x.store.Decide(context.Background(), func(bot.Tx, chat.Event) (bot.Outcome, error) { return out, nil })
		x.must(b, err)
	}
}

// bareInsert measures durable inserts of one small row, under the same pragmas.
func bareInsert(b *testing.B, n int) time.Duration {
	b.Helper()
	path := filepath.Join(b.TempDir(), "bare.db")
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)")
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec("CREATE TABLE t (id INTEGER PRIMARY KEY, body TEXT)"); err != nil {
		b.Fatal(err)
	}
	body := strings.Repeat("x", 200)
	took := make([]time.Duration, n)
	for i := range took {
		start := time.Now()
		if _, err := db.Exec("INSERT INTO t (body) VALUES (?)", body); err != nil {
			b.Fatal(err)
		}
		took[i] = time.Since(start)
	}
	return median(took)
}

func median(took []time.Duration) time.Duration {
	slices.Sort(took)
	return took[len(took)/2]
}

func years() int {
	if n, err := strconv.Atoi(os.Getenv("CROSSLAY_YEARS")); err == nil {
		return n
	}
	return 10
}

func (x *bench) replies(b *testing.B) {
	b.Helper()
	texts := []string{"1 full", "2 ok", "3-5 ok", "all good", "fuel full, rest later"}
	took := make([]time.Duration, 0, b.N)
	for i := 0; b.Loop(); i++ {
		c := x.setup.Dept.Companies[i%len(x.setup.Dept.Companies)]
		room, _ := x.setup.Dept.Room(c.Room)
		ev := chat.Event{Author: strings.Replace(string(c.ID), "E", "p", 1), Text: texts[i/len(x.setup.Dept.Companies)%len(texts)],
			Place: chat.Place{Backend: "terminal", Room: room.Address, Thread: x.prompt(c.ID)}}
		start := time.Now()
		x.hear(b, ev)
		took = append(took, time.Since(start))
	}
	reportCost(b, took)
}

func (x *bench) questions(b *testing.B) {
	b.Helper()
	room, _ := x.setup.Dept.RoomFor(dept.ForOfficers)
	var took []time.Duration
	for b.Loop() {
		start := time.Now()
		x.hear(b, chat.Event{Author: "chief", Text: "status", Place: chat.Place{Backend: "terminal", Room: room.Address}})
		took = append(took, time.Since(start))
	}
	reportCost(b, took)
}

func reportCost(b *testing.B, took []time.Duration) {
	b.Helper()
	b.StopTimer()
	bare, m := bareInsert(b, 300), median(took)
	b.ReportMetric(float64(m.Microseconds()), "µs-median")
	b.ReportMetric(float64(bare.Microseconds()), "µs-bare-insert")
	b.ReportMetric(float64(m)/float64(bare), "inserts")
}

func BenchmarkReplyEmpty(b *testing.B) {
	x := newBench(b, 200, 0)
	x.change(b)
	x.send(b)
	x.work(b)
	x.replies(b)
}

func BenchmarkReplyHistory(b *testing.B) {
	x := newBench(b, 200, years())
	x.change(b)
	x.send(b)
	x.work(b)
	x.replies(b)
	b.StopTimer()
}

func BenchmarkStatusEmpty(b *testing.B) {
	x := newBench(b, 200, 0)
	x.change(b)
	x.questions(b)
}

func BenchmarkStatusHistory(b *testing.B) {
	x := newBench(b, 200, years())
	x.change(b)
	x.questions(b)
}

// BenchmarkShiftChange prompts 500 companies: to the outbox, durably.
func BenchmarkShiftChange(b *testing.B) {
	x := newBench(b, 500, 0)
	var worst time.Duration
	for b.Loop() {
		start := time.Now()
		x.change(b)
		worst = max(worst, time.Since(start))
		x.now = x.setup.Rota.Next(x.now)
	}
	b.StopTimer()
	b.ReportMetric(float64(worst.Milliseconds()), "ms-worst")
	b.ReportMetric(resident(), "MB-resident")
}

// resident is the process's resident memory in megabytes, where /proc tells.
func resident() float64 {
	data, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		return 0
	}
	var size, pages float64
	fmt.Sscan(string(data), &size, &pages)
	return pages * float64(os.Getpagesize()) / (1 << 20)
}
