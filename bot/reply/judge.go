package reply

import (
	"time"

	"crosslay/bot/check"
)

// verdict is what a clause says of one check.
type verdict struct {
	state  check.State // Open: named, but nothing that answers it
	value  check.Value
	damage string
	fixed  bool
	poured bool
	pos    Position
	why    Why
	start  time.Time
	end    time.Time
	wants  bool // reached, but still wants its reading
	now    bool
	hedged bool

	nostart bool
	stale   bool // bad news from before "now"
	door    bool // by "closed" or "open"
	weak    bool // only says what is not wrong
}

// judge reads the signals in the light of one check: the polarity belongs to it.
func judge(a *asked, sigs []signal, now time.Time) verdict {
	v := verdict{}
	for i := range sigs {
		v = step(a, v, &sigs[i], now)
	}
	switch {
	case v.pos == Unmet && (v.state == check.Fail || v.poured):
		v.state, v.why = check.Unsure, ToolOpen
	case v.hedged && !v.fixed:
		v.state, v.why = check.Unsure, Hedged
	}
	return v
}

// step lets one more signal speak. Bad news stays unless it is said to be fixed
// or to be over; good news never covers bad news of the same clause.
func step(a *asked, v verdict, s *signal, now time.Time) verdict {
	switch s.kind {
	case sNow:
		v.now = true
		v.stale = v.state == check.Fail
		return v
	case sHedge:
		v.hedged = v.hedged || v.state != check.Fail
		return v
	case sUndone, sSame:
		return v.unsure(NotChecked)
	case sAsk:
		return v.unsure(Asking)
	case sOpenTool:
		v.pos = Unmet
		return v
	case sClosedTool:
		v.pos = Met
		return v
	case sFixed, sPoured:
		return repaired(a, v, s)
	case sNoStart:
		v.nostart = a.check.Answer.Kind == check.Run
		return v.fail(v.value)
	}
	if s.kind == sClosed || s.kind == sOpen {
		w := v.with(doorWord(a, s), s)
		w.door = true
		return w
	}
	w := judgeKind(a, s, now)
	if s.kind == sNo && s.neg && w.state == check.OK {
		w = doubt(Leftover)
	}
	return v.with(w, s)
}

// doorWord judges "open" and "closed" by the check's own words: what its label,
// question or method wants passes, the other fails, and where they want neither
// the words settle nothing.
func doorWord(a *asked, s *signal) verdict {
	switch a.check.Answer.Kind {
	case check.Condition, check.YesNo:
	default:
		return verdict{}
	}
	closed := a.goodW["closed"] || a.goodW["shut"]
	if !closed && !a.goodW["open"] {
		return doubt(Leftover)
	}
	good := closed == (s.kind == sClosed)
	if a.check.Answer.Kind == check.YesNo && a.check.Answer.Good == "no" {
		good = !good
	}
	if good {
		return pass
	}
	return fault
}

func (v verdict) fail(val check.Value) verdict {
	v.state, v.value, v.why = check.Fail, val, ""
	return v
}

func (v verdict) unsure(w Why) verdict {
	if v.state != check.Fail {
		v.state, v.why = check.Unsure, w
	}
	return v
}

// with joins a further verdict of the same clause: bad beats good, a figure
// completes a word.
func (v verdict) with(w verdict, s *signal) verdict {
	v.wants = v.wants || w.wants
	if w.damage != "" {
		v.damage = w.damage
	}
	if w.state == check.Open {
		return v
	}
	if !w.start.IsZero() {
		v.start, v.end = w.start, w.end
	}
	if v.state == check.Fail && w.state == check.OK && v.stale && !s.neg {
		v.state, v.value, v.stale = check.Open, check.Value{}, false
	}
	v.weak = (v.weak || v.state == check.Open) && s.neg
	switch {
	case v.state == check.Fail && w.state == check.Fail && v.value.Number != nil && w.value.Number == nil:
		return v
	case v.state == check.Fail && w.state == check.OK && s.kind == sFigure && v.value.Number == nil:
		v.value = w.value
		return v
	case v.state == check.Fail && w.state != check.Fail:
		return v
	case v.state == w.state && w.value.IsZero():
		return v
	case v.state == check.Unsure && v.why == NotChecked && w.state == check.OK && s.kind != sFigure:
		return v
	}
	v.state, v.why = w.state, w.why
	if !w.value.IsZero() || w.state != check.OK {
		v.value = w.value
	}
	return v
}

// repaired applies "topped it off" and "tightened it": ok where the crew may mend
// it, and otherwise still a fault, with the words.
func repaired(a *asked, v verdict, s *signal) verdict {
	if s.kind == sPoured {
		return filled(a, v)
	}
	switch a.check.Answer.Kind {
	case check.Level, check.Run, check.Number, check.DateAhead, check.Text, check.Photo:
		if v.state == check.Fail && a.check.Answer.Kind != check.Level {
			v.wants, v.state, v.value = true, check.Open, check.Value{}
		}
		v.fixed = a.check.Answer.Kind == check.Number
		return v
	}
	v.fixed = true
	v.why = ""
	v.value = check.Value{}
	if a.check.Fault.ActFor(v.damage) == check.Crew || v.state != check.Fail && a.check.Fault.Default == check.Crew {
		v.state = check.OK
	} else {
		v.state = check.Fail
	}
	return v
}

func filled(a *asked, v verdict) verdict {
	switch a.check.Answer.Kind {
	case check.Level:
		v.state, v.value = check.OK, check.Num(1)
	case check.Gauge, check.Condition, check.YesNo:
		if v.state == check.Fail && v.value.Word == "over" {
			return v
		}
		v.state, v.value = check.OK, check.Value{}
	case check.Number:
		v.state, v.value, v.wants = check.Open, check.Value{}, true
	default:
		v.wants = true
		return v
	}
	v.fixed, v.poured, v.why = true, true, ""
	return v
}

func judgeKind(a *asked, s *signal, now time.Time) verdict {
	switch a.check.Answer.Kind {
	case check.Condition:
		return judgeCondition(a, s)
	case check.YesNo:
		return judgeYesNo(a, s)
	case check.Gauge:
		return judgeGauge(a, s)
	case check.Level:
		return judgeLevel(a, s)
	case check.Number:
		return judgeNumber(a, s)
	case check.Run:
		return judgeRun(a, s, now)
	case check.Choice:
		return judgeChoice(a, s)
	case check.DateAhead:
		return judgeDate(a, s, now)
	case check.Text:
		return verdict{state: check.OK}
	case check.Photo:
		return verdict{wants: true}
	}
	return verdict{}
}

var (
	pass  = verdict{state: check.OK}
	fault = verdict{state: check.Fail}
)

func doubt(w Why) verdict { return verdict{state: check.Unsure, why: w} }

// bad is a fault with the damage that the words name, if it is one of the check's.
func bad(a *asked, s *signal) verdict {
	v := fault
	for _, d := range s.t.senses.damages {
		if d.check == a.check {
			v.damage = d.name
		}
	}
	return v
}

func judgeCondition(a *asked, s *signal) verdict {
	switch s.kind {
	case sGood:
		return pass
	case sYes:
		if a.anyQ {
			return fault
		}
		return pass
	case sNo:
		if a.anyQ {
			return pass
		}
		return fault
	case sBad:
		return bad(a, s)
	case sLow, sOver, sEmpty:
		return fault
	case sFull, sMid, sNotLow, sNotOver:
		return pass
	case sNotFull, sOption:
		return doubt(Leftover)
	}
	return verdict{}
}

func judgeYesNo(a *asked, s *signal) verdict {
	goodYes := a.check.Answer.Good != "no"
	switch s.kind {
	case sYes:
		if goodYes {
			return verdict{state: check.OK, value: check.Word("yes")}
		}
		return verdict{state: check.Fail, value: check.Word("yes")}
	case sNo:
		if goodYes {
			return verdict{state: check.Fail, value: check.Word("no")}
		}
		return verdict{state: check.OK, value: check.Word("no")}
	}
	return judgeCondition(a, s)
}

func judgeGauge(a *asked, s *signal) verdict {
	switch s.kind {
	case sLow, sEmpty:
		return verdict{state: check.Fail, value: check.Word("low")}
	case sOver:
		return verdict{state: check.Fail, value: check.Word("over")}
	case sGood, sFull, sMid, sNotLow, sNotOver, sYes:
		return pass
	case sNo, sBad:
		return bad(a, s)
	case sFigure:
		return gaugeFigure(s.t.q)
	}
	return verdict{}
}

// gaugeFigure takes a fraction on a low/ok/over gauge: well inside the marks it
// is ok.
func gaugeFigure(q *quantity) verdict {
	if !q.frac && q.unit != "%" {
		return verdict{}
	}
	f := q.lo
	if q.unit == "%" {
		f /= 100
	}
	switch {
	case q.bound != exact && q.bound != near:
		return doubt(Straddles)
	case f > 1:
		return verdict{state: check.Fail, value: check.Word("over")}
	case f < 0.25:
		return verdict{state: check.Fail, value: check.Word("low")}
	case f < 0.5:
		return doubt(Straddles)
	}
	return pass
}

func judgeLevel(a *asked, s *signal) verdict {
	switch s.kind {
	case sFigure:
		f, ok := fraction(s.t.q)
		if !ok {
			return verdict{}
		}
		return judgeBounds(a, f)
	case sFull:
		return judgeBounds(a, quantity{lo: 1, hi: 1})
	case sEmpty:
		return judgeBounds(a, quantity{})
	case sLow:
		return verdict{state: check.Fail, value: check.Word("low")}
	case sOver:
		return verdict{state: check.Fail, value: check.Word("over")}
	case sNotFull:
		if a.check.Answer.Min != nil && *a.check.Answer.Min >= 1 {
			return fault
		}
		return doubt(NoReading)
	case sGood, sMid, sNotLow, sYes:
		return pass
	case sNotOver:
		return verdict{}
	case sNo, sBad:
		return bad(a, s)
	}
	return verdict{}
}

// fraction turns a figure into a fraction of full.
func fraction(q *quantity) (quantity, bool) {
	f := *q
	switch {
	case q.clock || q.date != "":
		return f, false
	case q.unit == "%":
		f.lo, f.hi = f.lo/100, f.hi/100
	case q.unit != "":
		return f, false
	case q.frac:
	case q.lo == 1 || q.lo == 0:
		return f, q.lo == 1 && !q.whole
	case q.lo > 0 && q.hi < 1:
	default:
		return f, false
	}
	return f, f.lo >= 0 && f.hi <= 1.25
}

// judgeBounds judges a figure or a range against the limits. A bound settles the
// state and gives no value; one that straddles a limit settles nothing.
func judgeBounds(a *asked, q quantity) verdict {
	ans := a.check.Answer
	switch q.bound {
	case exact, near:
		st, _ := ans.Within(q.lo)
		if q.bound == near && onLimit(ans, q.lo) {
			return verdict{state: check.Unsure, why: Straddles}
		}
		return verdict{state: st, value: check.Num(q.lo)}
	case rangeB:
		return settled(ans, q.lo, q.hi)
	case underB:
		return under(ans, q.lo)
	case overB:
		return above(ans, q.lo)
	case atLeast:
		return atLeastOf(ans, q.lo)
	case atMost:
		return atMostOf(ans, q.lo)
	}
	return doubt(Straddles)
}

// atLeastOf reads "over 280", "at least 5": from the floor up it is ok, though
// nobody spoke of the ceiling; from below the floor it may be either.
func atLeastOf(ans check.Answer, f float64) verdict {
	st, word := ans.Within(f)
	switch {
	case word == "over" || ans.Max != nil && f >= *ans.Max:
		return fault
	case st == check.OK:
		return pass
	}
	return doubt(Straddles)
}

// atMostOf reads "under 10": at or under the floor it is low; otherwise it passes
// only where the ceiling is the limit next to it.
func atMostOf(ans check.Answer, f float64) verdict {
	switch {
	case ans.Min != nil && f <= *ans.Min:
		return fault
	case ans.Max != nil && f <= *ans.Max && (ans.Min == nil || *ans.Max-f < f-*ans.Min):
		return pass
	}
	return doubt(Straddles)
}

func onLimit(ans check.Answer, f float64) bool {
	return false
}

func settled(ans check.Answer, lo, hi float64) verdict {
	a, _ := ans.Within(lo)
	b, _ := ans.Within(hi)
	if a != b || a == check.Fail && ans.Min != nil && ans.Max != nil && lo < *ans.Min && hi > *ans.Max {
		return doubt(Straddles)
	}
	return verdict{state: a}
}

// under reads "just under 3/4": below the floor if the floor is there; a little
// below anything else.
func under(ans check.Answer, f float64) verdict {
	if ans.Min != nil && f <= *ans.Min+1e-9 {
		return fault
	}
	return settled(ans, f*0.9, f*0.999)
}

func above(ans check.Answer, f float64) verdict {
	if ans.Max != nil && f >= *ans.Max-1e-9 {
		return fault
	}
	return settled(ans, f*1.001, f*1.1)
}

func judgeNumber(a *asked, s *signal) verdict {
	switch s.kind {
	case sFigure:
		q, ok := inUnit(s.t.q, a.check.Answer.Unit)
		if !ok {
			return verdict{}
		}
		return judgeBounds(a, q)
	case sLow, sEmpty:
		return verdict{state: check.Fail, value: check.Word("low")}
	case sOver:
		return verdict{state: check.Fail, value: check.Word("over")}
	case sBad, sNo:
		return bad(a, s)
	case sGood, sFull, sMid, sYes, sNotLow, sNotOver:
		return verdict{wants: true}
	}
	return verdict{}
}

// inUnit converts a figure into the check's own unit; one without a unit is in it.
func inUnit(q *quantity, u check.Unit) (quantity, bool) {
	f := *q
	if q.alt {
		f.lo, f.hi, f.bound, f.clock, f.pair = q.lo, q.hi, rangeB, false, false
		f.lo, f.hi = q.altLo, q.altHi
	}
	if f.clock || q.date != "" {
		return f, false
	}
	if q.unit == "" || q.unit == u {
		return f, true
	}
	lo, ok := check.Convert(q.lo, q.unit, u)
	hi, ok2 := check.Convert(q.hi, q.unit, u)
	f.lo, f.hi = lo, hi
	return f, ok && ok2
}

func judgeRun(a *asked, s *signal, now time.Time) verdict {
	switch s.kind {
	case sFigure:
		return runFigure(a, s.t.q, now)
	case sLow:
		return verdict{state: check.Fail, value: check.Word("low")}
	case sNo:
		return doubt(NotChecked)
	case sBad:
		return bad(a, s)
	case sGood, sYes, sFull, sMid:
		return verdict{wants: true}
	}
	return verdict{}
}

func runFigure(a *asked, q *quantity, now time.Time) verdict {
	if q.pair {
		minutes := q.hi - q.lo
		st, _ := a.check.Answer.Within(minutes)
		v := verdict{state: st, value: check.Num(minutes)}
		v.start, v.end = clockTimes(q, now)
		return v
	}
	if q.clock || q.frac && q.unit == "" && q.lo < 1 {
		return verdict{}
	}
	f, ok := inUnit(q, "min")
	if !ok {
		return verdict{}
	}
	return judgeBounds(a, f)
}

// clockTimes sets the two times on the day of the message, or on the day before
// where they would lie ahead.
func clockTimes(q *quantity, now time.Time) (time.Time, time.Time) {
	day := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	at := func(m float64) time.Time { return day.Add(time.Duration(m) * time.Minute) }
	start, end := at(q.lo), at(q.hi)
	if !q.half && end.Add(12*time.Hour).Before(now.Add(10*time.Minute)) && q.lo < 12*60 {
		start, end = start.Add(12*time.Hour), end.Add(12*time.Hour)
	}
	if start.After(now.Add(10 * time.Minute)) {
		start, end = start.AddDate(0, 0, -1), end.AddDate(0, 0, -1)
	}
	return start, end
}

func judgeChoice(a *asked, s *signal) verdict {
	for _, o := range s.t.senses.options {
		for _, have := range a.check.Answer.Choices {
			if have.Name != o.name {
				continue
			}
			v := verdict{state: check.Fail, value: check.Word(o.name)}
			if o.good && s.kind != sNotFull {
				v.state = check.OK
			}
			if s.neg {
				return doubt(Leftover)
			}
			return v
		}
	}
	switch s.kind {
	case sBad, sLow, sOver, sEmpty:
		return bad(a, s)
	case sGood, sYes, sFull, sMid:
		return verdict{wants: true}
	}
	return verdict{}
}

func judgeDate(a *asked, s *signal, now time.Time) verdict {
	switch s.kind {
	case sFigure:
		d, ok := dateOf(*s.t.q)
		if !ok {
			return verdict{}
		}
		v := verdict{state: check.Fail, value: check.Word(d)}
		today := now.Format("2006-01-02")
		if d >= today[:len(d)] {
			v.state = check.OK
		}
		return v
	case sBad, sNo, sLow:
		return bad(a, s)
	case sGood, sYes, sFull:
		return verdict{wants: true}
	}
	return verdict{}
}
