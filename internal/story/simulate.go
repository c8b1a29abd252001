package story

import (
	"container/heap"
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/terminal"
)

// Totals counts what was said and recorded, by kind.
type Totals struct {
	Days     int            `json:"days"`
	People   int            `json:"said_by_people"`
	Said     map[string]int `json:"said"`
	Edited   int            `json:"edited"`
	Recorded map[string]int `json:"recorded"`
	Parked   int            `json:"parked"`
}

// Simulate has made-up crews and a made-up shop work in w for some days: prompts
// are answered, engines run, a few things break and are repaired. The same seed
// on an empty file is the same year.
func Simulate(w *World, days int, seed uint64) (Totals, error) {
	s := &simulation{
		w: w, rng: rand.New(rand.NewPCG(seed, seed)),
		broken: map[string]string{},
		totals: Totals{Days: days, Said: map[string]int{}, Recorded: map[string]int{}},
	}
	w.Hear(s.hear)
	end := w.now.In(w.setup.Dept.Zone).AddDate(0, 0, days)
	for len(s.agenda) > 0 || w.now.Before(end) {
		if err := s.step(end); err != nil {
			return s.totals, err
		}
		if !w.now.Before(end) {
			break
		}
	}
	return s.totals, nil
}

type simulation struct {
	w      *World
	rng    *rand.Rand
	agenda agenda
	seq    int
	totals Totals
	broken map[string]string // item.check with the shop -> what the crews say of it
}

// step goes to the next thing that somebody means to do, or to the next instant
// at which the bot wakes, whichever comes first.
func (s *simulation) step(end time.Time) error {
	until := end
	if next, err := s.w.next(); err != nil {
		return err
	} else if !next.IsZero() && next.Before(until) {
		until = next
	}
	if len(s.agenda) > 0 && s.agenda[0].at.Before(until) {
		until = s.agenda[0].at
	}
	if err := s.w.Advance(max(until.Sub(s.w.now), 0)); err != nil {
		return err
	}
	for len(s.agenda) > 0 && !s.agenda[0].at.After(s.w.now) {
		if err := heap.Pop(&s.agenda).(task).do(); err != nil {
			return err
		}
	}
	return nil
}

// hear sees to it that somebody answers what the bot says.
func (s *simulation) hear(e Entry) {
	switch e.What {
	case WasSaid:
		if e.Who != "" {
			s.totals.People++
			return
		}
		s.totals.Said[e.Kind]++
		if e.Kind == string(chat.Prompt) {
			s.answer(e)
		}
		if e.Kind == string(chat.Defect) && e.Thread == "" {
			s.repair(e)
		}
	case WasEdited:
		s.totals.Edited++
	case WasRecorded:
		s.totals.Recorded[e.Kind]++
	case WasParked:
		s.totals.Parked++
	case WasDeleted, WasReacted, WasTrouble:
	}
}

// answer plans what a crew does about its prompt.
func (s *simulation) answer(e Entry) {
	company := dept.CompanyID(strings.Split(e.Key, "/")[1])
	who := s.crew(company)
	if who == "" || s.chance(0.03) {
		return
	}
	start := s.minutes(2, 35)
	s.after(start, func() error { return s.say(who, string(company), s.checks(company)) })
	s.after(start+s.minutes(2, 10), func() error { return s.say(who, string(company), "all good") })
	s.after(start+s.minutes(10, 15), func() error { return s.say(who, string(company), s.rest(company)) })
	s.after(start+s.minutes(10, 15), func() error { return s.photos(who, company) })
	if s.chance(0.95) {
		s.after(start+s.minutes(15, 40), func() error { return s.say(who, string(company), s.engines(company)) })
	}
}

// rest answers one by one what no blanket reaches: checks that wait for a repair
// or for a look at one.
func (s *simulation) rest(company dept.CompanyID) string {
	var said []string
	st := s.w.standings[company]
	for _, a := range s.due(company) {
		ref := check.Ref{Item: a.Item.ID, Check: a.Check.ID}.String()
		mark := st.Watch.Recorded[ref]
		if k := a.Check.Answer.Kind; mark.State != check.Open || k == check.Run || k == check.Photo {
			continue
		}
		word := s.broken[ref]
		if word == "" {
			word = a.Good()
		}
		said = append(said, fmt.Sprintf("%d %s", a.N, word))
	}
	return strings.Join(said, ", ")
}

// photos sends what only a picture answers.
func (s *simulation) photos(who string, company dept.CompanyID) error {
	for _, a := range s.due(company) {
		if a.Check.Answer.Kind != check.Photo {
			continue
		}
		if err := s.say(who, string(company), fmt.Sprintf("%d here", a.N), photo(true)...); err != nil {
			return err
		}
	}
	return nil
}

// checks are the readings of a shift, and now and then a fault.
func (s *simulation) checks(company dept.CompanyID) string {
	var said []string
	for _, a := range s.due(company) {
		k := a.Check.Answer.Kind
		switch {
		case k == check.Run || k == check.Photo:
		case s.chance(0.004) && len(a.Check.Fault.Damages) > 0:
			said = append(said, fmt.Sprintf("%d %s", a.N, s.damage(a)))
		case s.chance(0.01) && k == check.Gauge:
			said = append(said, fmt.Sprintf("%d low", a.N))
		case s.chance(0.03) && k == check.Level:
			said = append(said, fmt.Sprintf("%d half, topped it off", a.N))
		case k.WantsFigure():
			said = append(said, fmt.Sprintf("%d %s", a.N, a.Good()))
		}
	}
	return strings.Join(said, ", ")
}

// damage is something that breaks.
func (s *simulation) damage(a Due) string {
	d := a.Check.Fault.Damages[s.rng.IntN(len(a.Check.Fault.Damages))]
	if d.Act != check.Crew {
		s.broken[check.Ref{Item: a.Item.ID, Check: a.Check.ID}.String()] = d.Name
	}
	return d.Name
}

// engines are the warm-up runs of a shift; one in twenty is left out.
func (s *simulation) engines(company dept.CompanyID) string {
	var said []string
	for _, a := range s.due(company) {
		if a.Check.Answer.Kind == check.Run && !s.chance(0.05) {
			said = append(said, fmt.Sprintf("%d %s", a.N, a.Good()))
		}
	}
	return strings.Join(said, ", ")
}

// repair plans what the shop does about a defect.
func (s *simulation) repair(e Entry) {
	shop := account(s.w.setup.Dept, func(p dept.Person) bool { return p.Has(dept.Shop) })
	place := chat.Place{Backend: terminal.Name, Room: e.Room, Thread: chat.Ref(e.Key)}
	tell := func(text string) func() error {
		return func() error { return s.w.Send(s.w.Hall.Say(shop, place, text)) }
	}
	seen := s.minutes(20, 600)
	fixed := seen + s.minutes(120, 3*24*60)
	s.after(seen, tell("seen"))
	s.after(fixed, func() error {
		delete(s.broken, e.About)
		return tell("repaired")()
	})
	s.after(fixed+30*time.Minute, tell("back in service"))
}

func (s *simulation) due(company dept.CompanyID) []Due {
	st := s.w.standings[company]
	if st == nil || st.Watch == nil {
		return nil
	}
	return asked(s.w.setup, st)
}

// crew is somebody of the company's platoon on duty.
func (s *simulation) crew(company dept.CompanyID) string {
	platoon := s.w.setup.Rota.At(s.w.now).Platoon
	return account(s.w.setup.Dept, func(p dept.Person) bool { return p.Company == company && p.Platoon == platoon })
}

func (s *simulation) say(who, place, text string, pics ...chat.Picture) error {
	if text == "" {
		return nil
	}
	at, err := s.w.Hall.Find(who, place)
	if err != nil {
		return err
	}
	return s.w.Send(s.w.Hall.Say(who, at, text, pics...))
}

func (s *simulation) chance(p float64) bool { return s.rng.Float64() < p }

func (s *simulation) minutes(from, to int) time.Duration {
	return time.Duration(from+s.rng.IntN(to-from)) * time.Minute
}

func (s *simulation) after(d time.Duration, do func() error) {
	s.seq++
	heap.Push(&s.agenda, task{s.w.now.Add(d), s.seq, do})
}

// task is what somebody means to do.
type task struct {
	at  time.Time
	seq int
	do  func() error
}

// agenda is tasks by time, and among those of one instant by when they were
// planned.
type agenda []task

func (a agenda) Len() int      { return len(a) }
func (a agenda) Swap(i, j int) { a[i], a[j] = a[j], a[i] }
func (a *agenda) Push(t any)   { *a = append(*a, t.(task)) }
func (a agenda) Less(i, j int) bool {
	if a[i].at.Equal(a[j].at) {
		return a[i].seq < a[j].seq
	}
	return a[i].at.Before(a[j].at)
}

func (a *agenda) Pop() any {
	last := (*a)[len(*a)-1]
	*a = (*a)[:len(*a)-1]
	return last
}
