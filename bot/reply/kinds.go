package reply

import (
	"time"

	"crosslay/bot/check"
)

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
	case sFigure:
		return counted(s.t.q)
	case sEmpty:
		if a.goodW["empty"] {
			return pass
		}
		return fault
	case sLow, sOver:
		return fault
	case sFull, sMid, sNotLow, sNotOver:
		return pass
	case sNotFull, sOption:
		return doubt(Leftover)
	}
	return verdict{}
}

// counted reads "3 of 4" and "4/4" of things that should all be there and well.
func counted(q *quantity) verdict {
	switch {
	case !q.frac || q.den == 0 || q.unit != "" || q.mixed > 0 || q.num > q.den:
		return verdict{}
	case q.num == q.den:
		return pass
	}
	return fault
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
	case q.unit != "", q.den > 16:
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
		if q.altLo == q.altHi {
			f.bound = exact
		}
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
		if isAny(s.t.word, "nobody", "no", "noone") {
			return doubt(NotChecked)
		}
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
		if s.t.is(cNot|cCannot) && !s.t.is(cBad) {
			return doubt(NotChecked) // "can't find a date"
		}
		return bad(a, s)
	case sGood, sYes, sFull:
		return verdict{wants: true}
	}
	return verdict{}
}
