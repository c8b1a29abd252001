package ledger

import (
	"testing"

	"crosslay/bot"
	"crosslay/bot/check"
)

// step is a step of the defect of the first power unit's throttle.
func step(hours float64, state, words, message string) Line {
	l := line(hours, bot.OnDefect, "e1-pump", state, "")
	l.Defect, l.Check, l.Words, l.Message = "d1", "throttle", words, message
	return l
}

func TestReasonHasItsCheck(t *testing.T) {
	out := line(1, bot.OnService, "e1-pump", "out_of_service", "missing")
	out.Message = "m1"
	later := line(9, bot.OnService, "e1-pump", "out_of_service", "missing")
	back := line(5, bot.OnService, "e1-pump", "in_service", "")
	b := New(setup(), []Line{out, back, later, step(1, "reported", "1 missing", "m1"), step(4, "repaired", "", "m2")})
	if got := b.Outages[0].Why; got != "throttle missing" {
		t.Errorf("out for %q", got)
	}
	if got := b.Outages[1].Why; got != "missing" {
		t.Errorf("a reason that nobody tied to a check is %q", got)
	}
}

func TestNamed(t *testing.T) {
	read := reading("r", 1, check.Ref{Item: "e1-pump", Check: "throttle"}, "fault", check.Value{}, "")
	read.Note, read.Message = "loose", "m1"
	for want, lines := range map[string][]Line{
		"throttle loose": {step(1, "reported", "wobbles", "m1"), read},
		"throttle low":   {step(1, "reported", "1 throttle low", "m1")},
		"throttle fault": {step(1, "reported", "wobbles below", "m1")},
	} {
		b := New(setup(), lines)
		if got := b.Named(b.Lives[0]); got != want {
			t.Errorf("named %q, want %q", got, want)
		}
	}
}

// TestFaultWithin: an item that is out for its defect is out, and no fault.
func TestFaultWithin(t *testing.T) {
	b := New(setup(), []Line{step(1, "reported", "", "a"), step(20, "repaired", "", "b"), step(30, "reopened", "", "c"),
		line(2, bot.OnService, "e1-pump", "out_of_service", ""), line(10, bot.OnService, "e1-pump", "in_service", "")})
	l := b.Lives[0]
	for span, want := range map[[2]float64]bool{
		{0, 1}: false, {0, 1.5}: true, {1.5, 1.6}: true, {2, 10}: false, {3, 11}: true, {19, 25}: true, {20, 30}: false, {20, 31}: true, {500, 501}: true,
	} {
		if got := b.FaultWithin(l, at(span[0]), at(span[1])); got != want || got != (len(b.Faults("e1-pump", at(span[0]), at(span[1]))) == 1) {
			t.Errorf("at fault in %v: %v", span, got)
		}
	}
	if !l.Since(at(15)).Equal(at(1)) || !l.Since(at(25)).IsZero() || !l.Since(at(40)).Equal(at(30)) {
		t.Errorf("open since %v, %v, %v", l.Since(at(15)), l.Since(at(25)), l.Since(at(40)))
	}
}

func TestPutRight(t *testing.T) {
	l := reading("r", 1, check.Ref{Item: "e1-pump", Check: "fuel"}, "ok", check.Num(1), "")
	if l.PutRight() {
		t.Error("a plain reading was put right")
	}
	if l.Note = "fixed by the crew"; !l.PutRight() {
		t.Error("one that the crew fixed was not")
	}
}
