package cover

import (
	"math"
	"slices"

	"crosslay/bot/dept"
)

// Goal is what a placement of spares makes as small as it can be.
type Goal string

// Total is the sum of the drives to all that are out (the p-median); Farthest is
// the longest of them (the p-center) and then, among the placements that reach
// it, the total.
const (
	Total    Goal = "total"
	Farthest Goal = "farthest"
)

// Silence is why no placement is told; Spoken is none.
type Silence string

// The reasons for silence.
const (
	Spoken   Silence = ""
	NoneOut  Silence = "no company is out"
	NoSpares Silence = "no spares"
	Unplaced Silence = "a company that is not in the department"
)

// Served is how well the companies that are out are served.
type Served struct {
	Mean     float64        // minutes until the nearest that can is there, by weight; +Inf where nobody can
	Longest  float64        // minutes, the longest of them
	Farthest dept.CompanyID // whose that is
}

// Help is who comes to a company that is out, before and after the placement. A
// company with a spare of its own helps itself in 0 minutes; By is "" where
// nobody can.
type Help struct {
	Company   dept.CompanyID
	By, ByNow dept.CompanyID
	Minutes   float64 // after; +Inf where nobody can
	Now       float64
	Way       Way // of By, after; no way where it helps itself or nobody can
}

// Plan is where the spares do most good.
type Plan struct {
	Goal          Goal
	At            []dept.CompanyID // in the order of the file; no more than are out
	Before, After Served
	Help          []Help // in the order of the file
}

// Places is the question where spares go.
type Places struct {
	Out    []dept.CompanyID             // cannot, and would with a spare
	Can    func(dept.CompanyID) bool    // of the others
	Spares int                          // how many there are
	Weight func(dept.CompanyID) float64 // of a company's need, over 0; nil where all weigh alike
}

// Place answers exactly: no other placement is better for the goal. A company
// with a spare serves itself at once and is then the nearest that can for others.
func (f Formula) Place(d *dept.Department, q Places, goal Goal) (Plan, Silence) {
	switch {
	case len(q.Out) == 0:
		return Plan{}, NoneOut
	case q.Spares <= 0:
		return Plan{}, NoSpares
	}
	t, silent := f.table(d, q)
	if silent != Spoken {
		return Plan{}, silent
	}
	return t.plan(goal, t.place(q.Spares, goal)), Spoken
}

// table is the question in numbers.
type table struct {
	out    []dept.CompanyID
	by     []dept.CompanyID // the nearest that can as things stand
	now    []float64        // minutes of that; never where nobody can
	nowWay []Way
	drive  [][]float64 // minutes from the i-th to the j-th, 0 to itself
	ways   [][]Way
	weight []float64
}

// never stands for +Inf, with which sums could not be told apart.
const never = 1e7

func (f Formula) table(d *dept.Department, q Places) (table, Silence) {
	t := table{}
	isOut := map[dept.CompanyID]bool{}
	for _, id := range q.Out {
		isOut[id] = true
	}
	for _, c := range d.Companies {
		if !isOut[c.ID] {
			continue
		}
		delete(isOut, c.ID)
		t.out = append(t.out, c.ID)
	}
	if len(isOut) > 0 {
		return t, Unplaced
	}
	for _, id := range t.out {
		if !f.row(d, q, &t, id) {
			return t, Unplaced
		}
	}
	return t, Spoken
}

// row adds what concerns one company.
func (f Formula) row(d *dept.Department, q Places, t *table, id dept.CompanyID) bool {
	here, ok := station(d, id)
	if !ok {
		return false
	}
	others := func(c dept.CompanyID) bool { return q.Can(c) && !t.holds(c) }
	best, can := f.Nearest(d, id, others)
	minutes := best.Way.Minutes
	if !can {
		minutes = never
	}
	drive, ways := make([]float64, len(t.out)), make([]Way, len(t.out))
	for j, other := range t.out {
		there, known := station(d, other)
		if !known {
			return false
		}
		if other != id {
			ways[j] = f.Between(d, here, there)
			drive[j] = ways[j].Minutes
		}
	}
	weight := 1.0
	if q.Weight != nil {
		weight = q.Weight(id)
	}
	t.by, t.now, t.nowWay = append(t.by, best.Company), append(t.now, minutes), append(t.nowWay, best.Way)
	t.drive, t.ways, t.weight = append(t.drive, drive), append(t.ways, ways), append(t.weight, weight)
	return true
}

func (t table) holds(id dept.CompanyID) bool { return slices.Contains(t.out, id) }

func (t table) plan(goal Goal, at []int) Plan {
	p := Plan{Goal: goal}
	for _, i := range at {
		p.At = append(p.At, t.out[i])
	}
	after := make([]float64, len(t.out))
	for j, id := range t.out {
		h := Help{Company: id, By: t.by[j], ByNow: t.by[j], Minutes: t.now[j], Now: told(t.now[j]), Way: t.nowWay[j]}
		for _, i := range at {
			if t.drive[i][j] < h.Minutes || i == j {
				h.By, h.Minutes, h.Way = t.out[i], t.drive[i][j], t.ways[i][j]
			}
		}
		after[j], h.Minutes = h.Minutes, told(h.Minutes)
		p.Help = append(p.Help, h)
	}
	p.Before, p.After = t.served(t.now), t.served(after)
	return p
}

func (t table) served(minutes []float64) Served {
	s := Served{}
	var sum, weights float64
	for j, m := range minutes {
		sum, weights = sum+m*t.weight[j], weights+t.weight[j]
		if m > s.Longest || s.Farthest == "" {
			s.Longest, s.Farthest = m, t.out[j]
		}
	}
	s.Mean, s.Longest = sum/weights, told(s.Longest)
	if math.IsInf(s.Longest, 1) {
		s.Mean = s.Longest
	}
	return s
}

func told(minutes float64) float64 {
	if minutes >= never {
		return math.Inf(1)
	}
	return minutes
}
