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
	spotty bool // only now and then

	nostart bool
	assumed bool // only from the answer about the tool's position
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
	case v.pos == Unmet && (v.state == check.Fail && v.value.Word != "over" || v.poured):
		v.state, v.why = check.Unsure, ToolOpen
	case v.hedged && !v.fixed, v.spotty && v.state == check.OK:
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
		v.spotty = v.spotty || spotty(s.t)
		v.hedged = v.hedged || v.state != check.Fail && !spotty(s.t)
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
	if s.kind == sDry {
		return v.with(dryWord(a), s)
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

// dryWord judges "dry" by what the check is about: a tank that is dry is empty,
// where leaks are asked about it is well, and where grease belongs it is not.
func dryWord(a *asked) verdict {
	switch a.check.Answer.Kind {
	case check.Level:
		return judgeBounds(a, quantity{lo: 0, hi: 0})
	case check.Gauge:
		return verdict{state: check.Fail, value: check.Word("low")}
	case check.Condition, check.YesNo:
	default:
		return verdict{}
	}
	if a.check.Answer.Kind == check.YesNo && a.check.Answer.Good == "no" && (a.goodW["wet"] || a.goodW["damp"] || a.goodW["moist"]) {
		return pass
	}
	for w := range a.goodW {
		switch {
		case vocabularyMeans(w, cLeak), w == "dry":
			return pass
		case isAny(w, "film", "grease", "greased", "lubricant", "lube", "lubed", "oiled", "wet", "moist"):
			return fault
		}
	}
	return doubt(Leftover)
}

// spotty reports words for what comes and goes: trouble now and then is trouble,
// and what works now and then is in doubt.
func spotty(t *term) bool {
	return isAny(t.word, "sometimes", "occasionally", "intermittently", "intermittent", "off", "on", "now", "once", "usually", "from", "every") || t.last == "time"
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
	if v.state != check.Fail && a.check.Fault.Default != check.Crew && isAny(s.t.word, "wiped", "cleaned", "washed", "rinsed", "dusted", "scrubbed", "greased", "oiled", "lubed") {
		return v // cleaning mends nothing where nothing was wrong
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

var (
	pass  = verdict{state: check.OK}
	fault = verdict{state: check.Fail}
)

func doubt(w Why) verdict { return verdict{state: check.Unsure, why: w} }

// bad is a fault with the damage that the words name, if it is one of the check's.
func bad(a *asked, s *signal) verdict {
	if s.t.last == "back" && isAny(s.t.word, "comes", "came", "come") && (a.goodW["returns"] || a.goodW["return"] || a.goodW["neutral"]) && !s.neg {
		return pass
	}
	v := fault
	for _, d := range s.t.senses.damages {
		if d.check == a.check {
			v.damage = d.name
		}
	}
	return v
}
