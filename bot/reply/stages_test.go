package reply

import (
	"strings"
	"testing"

	"crosslay/bot/check"
)

func TestNormalise(t *testing.T) {
	for in, want := range map[string]string{
		"1½":       "1 1/2 ",
		"isn’t":    "isn't",
		"👍🏽":       " thumbsup ",
		"fuel – ¾": "fuel -  3/4 ",
		"ａｌｌ good": "all good",
	} {
		if got := normalise(in); got != want {
			t.Errorf("normalise(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestLex(t *testing.T) {
	for in, want := range map[string]string{
		"fuel's full":   "fuel s full",
		"we'll isn't":   "we will isnt",
		"warm-up run":   "warm up run",
		"4500psi, 1.5":  "4500 psi , 1.5",
		"4,500 psi":     "4,500 psi",
		"w/o leaks":     "w o leaks",
		"PU-07":         "pu 07",
		"7:02\nok":      "7 : 02 \n ok",
		"chain/bar":     "chain / bar",
		"good.Then bad": "good . then bad",
	} {
		var got []string
		for _, x := range lex(in) {
			got = append(got, x.s)
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("lex(%q) = %q, want %q", in, s, want)
		}
	}
}

func TestQuantity(t *testing.T) {
	cases := []struct {
		in     string
		lo, hi float64
		unit   check.Unit
	}{
		{"3/4", 0.75, 0.75, ""}, {"1 1/2", 1.5, 1.5, ""}, {"2-1/2", 2.5, 2.5, ""}, {"half", 0.5, 0.5, ""},
		{"three quarters", 0.75, 0.75, ""}, {"a quarter", 0.25, 0.25, ""}, {"quarter tank", 0.25, 0.25, ""},
		{"6 min", 6, 6, "min"}, {"6m", 6, 6, "min"}, {"4500psi", 4500, 4500, "psi"}, {"300 bar", 300, 300, "bar"},
		{"5-6 min", 5, 6, "min"}, {"twenty point nine percent", 20.9, 20.9, "%"}, {"forty five hundred psi", 4500, 4500, "psi"},
		{"two and a half minutes", 2.5, 2.5, "min"}, {"6 min 30 sec", 6.5, 6.5, "min"}, {"one twenty volts", 120, 120, "V"},
		{"four thousand five hundred", 4500, 4500, ""}, {"80%", 80, 80, "%"}, {"three eighths", 0.375, 0.375, ""},
	}
	for _, c := range cases {
		q, n := quantityAt(lex(c.in), 0)
		if n == 0 || diff(q.lo, c.lo) || diff(q.hi, c.hi) || q.unit != c.unit {
			t.Errorf("%q is %v to %v %q (%d tokens), want %v to %v %q", c.in, q.lo, q.hi, q.unit, n, c.lo, c.hi, c.unit)
		}
	}
}

func diff(a, b float64) bool { return a-b > 1e-9 || b-a > 1e-9 }

func TestClocks(t *testing.T) {
	cases := []struct {
		in      string
		minutes float64
	}{
		{"7:02 to 7:10", 8}, {"0640-0648", 8}, {"7 to 7:08", 8}, {"6:55-7:03", 8}, {"11:58 to 12:04", 6}, {"12:58 to 1:04", 6},
		{"7:02am to 7:10am", 8}, {"23:58 to 0:04", 6}, {"six forty to six forty eight", 8}, {"705-711", 6}, {"7:02 to 10", 8},
	}
	for _, c := range cases {
		q, n := quantityAt(lex(c.in), 0)
		if n == 0 || !q.pair || diff(q.hi-q.lo, c.minutes) {
			t.Errorf("%q is a pair %v of %v minutes, want %v", c.in, q.pair, q.hi-q.lo, c.minutes)
		}
	}
}

func TestDates(t *testing.T) {
	for in, want := range map[string]string{
		"2027-03": "2027-03", "2027-03-15": "2027-03-15", "03/2027": "2027-03", "3/15/27": "2027-03-15", "Mar 2027": "2027-03",
		"March 15, 2027": "2027-03-15", "15 March 2027": "2027-03-15", "3/27": "2027-03", "june twenty twenty six": "2026-06",
		"oct 27": "2027-10", "sept '28": "2028-09",
	} {
		q, _ := quantityAt(lex(strings.ToLower(in)), 0)
		if got, _ := dateOf(q); got != want {
			t.Errorf("%q is %q, want %q", in, got, want)
		}
	}
}

// Typing mistakes are put right, but not into a pass.
func TestSpelling(t *testing.T) {
	lx := newLexicon(sawAndFan())
	for in, want := range map[string]string{
		"chian": "chain", "gaurd": "guard", "crackked": "cracked", "looose": "loose", "everythnig": "everything", "leakign": "leaking",
		"god": "god", "goof": "goof", "gold": "gold", "fulk": "fulk", "find": "find", "tigh": "tigh", "fune": "fune",
	} {
		tok := []token{{s: in}}
		lx.respell(tok)
		if tok[0].s != want {
			t.Errorf("%q is read as %q, want %q", in, tok[0].s, want)
		}
	}
	for _, text := range []string{"bar oil slow", "bar oil lull", "chain on", "chain god", "guard find", "bar oil fuel", "chain now"} {
		if n := passes(text); n > 0 {
			t.Errorf("%q passes", text)
		}
	}
}

func TestMoreReplies(t *testing.T) {
	cases := []struct{ typed, want string }{
		{"saw fuel 3/4, scratch that, half", "saw.fuel=ok:0.5"},
		{"all good except the guard", "saw.bar_oil=ok saw.chain=ok fan.guard=fault"},
		{"bar oil was low, topped it off", "saw.bar_oil=ok!"},
		{"guard was loose, tightened it", "fan.guard=fault!"},
		{"not all good", "saw.bar_oil=unsure saw.chain=unsure fan.guard=unsure"},
		{"coffee is good", ""},
		{"engine 21 all good, 2 guys on overtime", "saw.bar_oil=ok saw.chain=ok fan.guard=ok"},
		{"chain isn't loose", "saw.chain=ok"},
		{"no nicks", ""},
		{"saw fuel between half and 3/4", "saw.fuel=ok"},
		{"saw fuel between a quarter and 3/4", "saw.fuel=unsure"},
		{"fan fuel just under half", "fan.fuel=fault"},
		{"fan ran 5-6 min", "fan.run=ok"},
		{"fan ran 0658 to 0704", "fan.run=ok:6"},
		{"yesterday the bar oil was low", ""},
		{"let me know if the chain is loose", ""},
		{"1-3 ok", "saw.fuel=ok saw.bar_oil=ok saw.chain=ok"},
		{"99 ok", ""},
	}
	for _, c := range cases {
		t.Run(strings.ReplaceAll(c.typed, " ", "_"), func(t *testing.T) {
			if got := brief(Read(Context{Items: sawAndFan(), Now: morning}, c.typed)); got != c.want {
				t.Errorf("%q\n got %s\nwant %s", c.typed, got, c.want)
			}
		})
	}
}

func TestIntents(t *testing.T) {
	for typed, want := range map[string]Intent{
		"on a run": Busy, "tones dropping, later": Busy, "scratch that": Undo, "disregard my last": Undo, "how do I read the gauge?": Question,
		"the siren is cracked": Report, "morning all": Chatter, "saw full, tones dropping": Answer, "10-4": Chatter,
	} {
		if got := Read(Context{Items: sawAndFan(), Now: morning}, typed).Intent; got != want {
			t.Errorf("%q is %s, want %s", typed, got, want)
		}
	}
}

func TestMarks(t *testing.T) {
	r := Read(Context{Items: sawAndFan(), Now: morning}, "started the fan at 7:20")
	if len(r.Starts) != 1 || r.Starts[0].Item != "fan" || r.Starts[0].At.Format("15:04") != "07:20" {
		t.Errorf("starts: %v", r.Starts)
	}
	r = Read(Context{Items: sawAndFan(), Now: morning, Held: "saw"}, "off")
	if len(r.Stops) != 1 || r.Stops[0].Item != "saw" {
		t.Errorf("stops: %v", r.Stops)
	}
}

// What the bot asked back decides what a short answer means.
func TestAnswersToDoubts(t *testing.T) {
	items := sawAndFan()
	oil := *items[0].Checks[1].Check
	oil.Proviso = "was the tool nearly closed?"
	items[0].Checks[1].Check = &oil
	refs := func(names ...string) (out []check.Ref) {
		for _, n := range names {
			item, id, _ := strings.Cut(n, ".")
			out = append(out, check.Ref{Item: itemIDOf(item), Check: check.ID(id)})
		}
		return out
	}
	cases := []struct {
		why   Why
		refs  []check.Ref
		typed string
		want  string
	}{
		{ToolOpen, refs("saw.bar_oil"), "yes", "saw.bar_oil=fault:low"},
		{ToolOpen, refs("saw.bar_oil"), "closed", "saw.bar_oil=fault:low"},
		{ToolOpen, refs("saw.bar_oil"), "no", "saw.bar_oil=unsure"},
		{NoReading, refs("saw.fuel"), "half", "saw.fuel=ok:0.5"},
		{NoReading, refs("saw.run"), "3", "saw.run=ok:3"},
		{NoReading, refs("saw.fuel"), "yes", "saw.fuel=unsure"},
		{Hedged, refs("fan.guard"), "yes", "fan.guard=ok"},
		{Conflict, refs("saw.chain"), "loose", "saw.chain=fault"},
		{WhichCheck, refs("saw.fuel", "saw.bar_oil", "saw.chain"), "yes", ""},
		{WhichCheck, refs("saw.fuel", "saw.bar_oil", "saw.chain"), "the chain is loose", "saw.chain=fault"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "the fan", "fan.fuel=ok"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "2", "fan.fuel=ok"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "both", "saw.fuel=ok fan.fuel=ok"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "full, both of them", "saw.fuel=ok:1 fan.fuel=ok:1"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "full both", "saw.fuel=ok:1 fan.fuel=ok:1"},
		{WhichItem, refs("saw.fuel", "fan.fuel"), "half, both of them", "saw.fuel=ok:0.5 fan.fuel=ok:0.5"},
	}
	for _, c := range cases {
		t.Run(string(c.why)+"_"+c.typed, func(t *testing.T) {
			d := Doubt{Why: c.why, Refs: c.refs}
			if c.why == WhichItem {
				d.State = check.OK
			}
			got := brief(Read(Context{Items: items, Now: morning, Asked: []Doubt{d}}, c.typed))
			if got != c.want {
				t.Errorf("%q: got %s, want %s", c.typed, got, c.want)
			}
		})
	}
}
