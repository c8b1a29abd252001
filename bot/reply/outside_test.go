package reply

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"crosslay/bot/check"
)

const outside = "../../../shared/eval"

// outsideRow is one row of any of the files.
type outsideRow struct {
	Text   string `json:"text"`
	Fault  *bool  `json:"fault"`
	Group  string `json:"group"`
	Noisy  string `json:"noisy"`
	Clean  string `json:"clean"`
	Expect []struct {
		Value any `json:"value"`
	} `json:"expect"`
}

func outsideRows(t *testing.T, name string) []outsideRow {
	t.Helper()
	f, err := os.Open(filepath.Join(outside, name))
	if err != nil {
		t.Skipf("the outside texts are not here: %v", err)
	}
	defer f.Close()
	var out []outsideRow
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		var r outsideRow
		if err := json.Unmarshal(sc.Bytes(), &r); err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}

// machine is a company with one machine and one check.
func machine() []Item {
	c := &check.Check{ID: "wrong", Label: "condition", Question: "Anything wrong with the machine?", Answer: check.Answer{Kind: check.Condition}}
	return []Item{{ID: "machine", Names: []string{"machine"}, Checks: []Asked{{N: 1, Check: c}}}}
}

func stateOf(text string) check.State {
	r := Read(Context{Items: machine(), Now: morning}, text)
	if len(r.Results) == 0 {
		return check.Open
	}
	return r.Results[0].State
}

// No outside text that reports a fault may be read as a pass.
func TestOutsideFaults(t *testing.T) {
	count := map[check.State]int{}
	for _, r := range outsideRows(t, "faults.jsonl") {
		st := stateOf(r.Text)
		count[st]++
		if st == check.Open && os.Getenv("CORPUS_SHOW") != "" {
			t.Logf("open: %q", r.Text)
		}
		if st == check.OK {
			t.Errorf("%q is read as a pass", r.Text)
		}
	}
	t.Logf("faults: fault %d, unsure %d, not understood %d, pass %d", count[check.Fail], count[check.Unsure], count[check.Open], count[check.OK])
}

func TestOutsideNegation(t *testing.T) {
	var right, passed, total int
	for _, r := range outsideRows(t, "negation.jsonl") {
		st := stateOf(r.Text)
		total++
		switch {
		case *r.Fault && st == check.OK:
			passed++
			if os.Getenv("CORPUS_SHOW") != "" {
				t.Logf("pass: %q", r.Text)
			}
		case *r.Fault == (st == check.Fail) && st != check.Unsure:
			right++
		}
	}
	t.Logf("negation: %d of %d settled as labelled, %d faults passed", right, total, passed)
}

func TestOutsideTypos(t *testing.T) {
	var right, wrong int
	for _, r := range outsideRows(t, "typos.jsonl") {
		lx := newLexicon([]Item{{ID: "x", Names: []string{r.Clean}}})
		tok := lex(strings.ToLower(r.Noisy))
		if len(tok) == 0 {
			continue
		}
		lx.respell(tok)
		switch got, noisy := joined(tok), joined(lex(strings.ToLower(r.Noisy))); {
		case sameNoun(got, strings.ReplaceAll(r.Clean, "-", "")):
			right++
		case got == noisy:
		default:
			wrong++
			if os.Getenv("CORPUS_SHOW") != "" {
				t.Logf("%q is read as %q, meant was %q", r.Noisy, got, r.Clean)
			}
		}
	}
	t.Logf("typos: %d brought back to the word, %d turned into another", right, wrong)
}

// joined puts the words together: a hyphen or a slash inside a word is no mistake.
func joined(tok []token) string {
	var b strings.Builder
	for i := range tok {
		if tok[i].kind != aPunct && tok[i].s != "s" {
			b.WriteString(tok[i].s)
		}
	}
	return b.String()
}

// sameNoun forgives the number: one gasket or several is the same name.
func sameNoun(a, b string) bool {
	cut := func(s string) string { return strings.TrimSuffix(strings.TrimSuffix(s, "s"), "ie") }
	return a == b || cut(a) == cut(b) || strings.TrimSuffix(cut(a), "y") == strings.TrimSuffix(cut(b), "y")
}

func TestOutsideQuantities(t *testing.T) {
	right, total := map[string]int{}, map[string]int{}
	for _, r := range outsideRows(t, "quantities.jsonl") {
		if len(r.Expect) != 1 {
			continue
		}
		want, err := strconv.ParseFloat(strings.TrimSuffix(fmt.Sprint(r.Expect[0].Value), "%"), 64)
		if err != nil {
			continue
		}
		total[r.Group]++
		if hasFigure(r.Text, want) {
			right[r.Group]++
		} else if os.Getenv("CORPUS_SHOW") != "" {
			t.Logf("%s: no %v in %q", r.Group, want, r.Text)
		}
	}
	for g, n := range total {
		t.Logf("quantities, %s: %d of %d", g, right[g], n)
	}
}

func hasFigure(text string, want float64) bool {
	tok := lex(normalise(text))
	for i := range tok {
		q, n := quantityAt(tok, i)
		if n == 0 {
			continue
		}
		for _, scale := range []float64{1, 60, 100} { // seconds for minutes, percent for fractions
			if math.Abs(q.lo*scale-want) <= 1e-6*math.Max(1, math.Abs(want)) {
				return true
			}
		}
		if q.unit == "h" && math.Abs(q.lo*3600-want) < 1e-6 {
			return true
		}
	}
	return false
}
