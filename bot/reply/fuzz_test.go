package reply

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crosslay/bot/check"
)

// says reports whether a stretch of text has any word, sign or figure from which
// a pass could come at all.
func says(text string) bool {
	for _, t := range lexiconFor(sawAndFan()).terms(lex(normalise(text)), nil) {
		if t.is(cGood|cBlanket|cFull|cMid|cYes|cNo|cNot|cNone|cLow|cOver|cBad|cFixed|cPoured|cEmpty|cClosed|cOpened) || t.q != nil || len(t.senses.damages) > 0 {
			return true
		}
	}
	return false
}

func neverFalse(t interface{ Fatalf(string, ...any) }, text string) {
	r := Read(Context{Items: sawAndFan(), Now: morning}, text)
	seen := map[check.Ref]bool{}
	for _, x := range r.Results {
		if seen[x.Ref] {
			t.Fatalf("%q: two results for %s", text, x.Ref)
		}
		seen[x.Ref] = true
		switch x.State {
		case check.OK, check.Fail, check.Unsure:
		default:
			t.Fatalf("%q: %s has state %q", text, x.Ref, x.State)
		}
		if x.State != check.OK {
			continue
		}
		if !says(text) {
			t.Fatalf("%q passes %s without a word for it", text, x.Ref)
		}
		if x.Value.Word == "low" || x.Value.Word == "over" {
			t.Fatalf("%q passes %s as %s", text, x.Ref, x.Value.Word)
		}
		if c := limits(x.Ref); x.Value.Number != nil && c != nil {
			if st, _ := c.Answer.Within(*x.Value.Number); st != check.OK {
				t.Fatalf("%q passes %s at %v", text, x.Ref, *x.Value.Number)
			}
		}
	}
}

func limits(ref check.Ref) *check.Check {
	for _, it := range sawAndFan() {
		for _, a := range it.Checks {
			if it.ID == ref.Item && a.Check.ID == ref.Check {
				return a.Check
			}
		}
	}
	return nil
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"all good", "👍", "1 half 2 lo 3-4 fine", "saw full, good, tight, 3 min", "fan ran 7 to 7:08", "no issues with the saw other than it won't start",
		"½ ¾ 2-1/2", "scratch that", "0640-0648", "guard isn't cracked", "expires 3/27", "2027-03-15", "\n\n1.\n2)", "s1u\x8cl7\x82full3\x007>Lo\x80d\xc7tightBY", "not not not ok", "half to", "between and", "7:", "'s", "é́",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) { neverFalse(t, text) })
}

// Whatever stands before or after, a fault that is plainly said of a check does
// not come out as a pass.
func TestNeverAFalsePass(t *testing.T) {
	faults := []struct{ words, item, id string }{
		{"chain is loose", "saw", "chain"}, {"guard is cracked", "fan", "guard"}, {"bar oil is low", "saw", "bar_oil"},
		{"the chain is dull", "saw", "chain"}, {"bar oil low", "saw", "bar_oil"}, {"guard cracked", "fan", "guard"},
	}
	others := []string{"all good", "rest good", "fan fuel full", "saw ran 3 min", "morning cap", "tones dropping", "thanks", "zzyzx qwv", "👍", "everything else is fine", "fan ran 7 min", "no other issues"}
	marks := []string{". ", ", ", "\n", "; ", " and ", " but ", " - "}
	rapid.Check(t, func(t *rapid.T) {
		fault := rapid.SampledFrom(faults).Draw(t, "fault")
		before := rapid.SliceOfN(rapid.SampledFrom(others), 0, 3).Draw(t, "before")
		after := rapid.SliceOfN(rapid.SampledFrom(others), 0, 3).Draw(t, "after")
		mark := rapid.SampledFrom(marks).Draw(t, "mark")
		text := strings.Join(append(append(before, fault.words), after...), mark)
		neverFalse(t, text)
		for _, x := range Read(Context{Items: sawAndFan(), Now: morning}, text).Results {
			if string(x.Ref.Item) == fault.item && string(x.Ref.Check) == fault.id && x.State == check.OK {
				t.Fatalf("%q passes %s", text, x.Ref)
			}
		}
	})
}

// A word that nobody knows, thrown into a pass, leaves no more passes than before.
func TestUnknownWordsAddNoPass(t *testing.T) {
	texts := []string{"all good", "chain tight", "bar oil ok", "saw full, good, tight, 3 min", "rest good", "guard fine"}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		word := rapid.StringMatching(`[bcdfghjklmnpqrstvwxz]{5,9}`).Draw(t, "word")
		words := strings.Fields(text)
		at := rapid.IntRange(0, len(words)).Draw(t, "at")
		mixed := strings.Join(append(append(append([]string{}, words[:at]...), word), words[at:]...), " ")
		if a, b := passes(text), passes(mixed); b > a {
			t.Fatalf("%q passes %d, %q passes %d", text, a, mixed, b)
		}
	})
}

func passes(text string) (n int) {
	for _, x := range Read(Context{Items: sawAndFan(), Now: morning}, text).Results {
		if x.State == check.OK {
			n++
		}
	}
	return n
}

func BenchmarkRead(b *testing.B) {
	texts := []string{
		"all good", "saw full, good, tight, 3 min", "no issues with the saw other than it won't start", "1 half 2 lo 3-4 fine",
		"Saw fuel's about three quarters, bar oil good, chain was loose so I snugged it up, ran it from 7:02 to 7:05. Fan is full, guard fine, ran 7.",
	}
	ctx := Context{Items: sawAndFan(), Now: morning}
	b.ReportAllocs()
	for b.Loop() {
		for _, t := range texts {
			Read(ctx, t)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(texts)), "ns/message")
}

// BenchmarkReadLong shows that the cost grows with the length and not faster.
func BenchmarkReadLong(b *testing.B) {
	ctx := Context{Items: sawAndFan(), Now: morning}
	for _, n := range []int{1, 10, 100} {
		text := strings.Repeat("saw chain tight, bar oil ok, thingamabob fine. ", n)
		b.Run(strings.Repeat("x", len(text)/1000+1), func(b *testing.B) {
			for b.Loop() {
				Read(ctx, text)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(text)), "ns/byte")
		})
	}
}
