package reply

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"crosslay/bot/check"
)

func f(v float64) *float64 { return &v }

var denver = time.FixedZone("MST", -7*3600)

var morning = time.Date(2026, 11, 25, 7, 30, 0, 0, denver)

func sawAndFan() []Item {
	saw := &check.Sheet{Checks: []check.Check{
		{ID: "fuel", Label: "fuel", Names: []string{"gas", "tank"}, Answer: check.Answer{Kind: check.Level, Min: f(0.5)}, Fault: check.Fault{Default: check.Crew}},
		{ID: "bar_oil", Label: "bar oil", Names: []string{"oil"}, Answer: check.Answer{Kind: check.Gauge}, Fault: check.Fault{Default: check.Crew}},
		{ID: "chain", Label: "chain", Method: "tight, sharp, brake holds", Answer: check.Answer{Kind: check.Condition}, Fault: check.Fault{Default: check.Shop,
			Damages: []check.Damage{{Name: "loose", Names: []string{"slack"}, Act: check.Crew}, {Name: "dull", Act: check.Shop}}}},
		{ID: "run", Label: "warm-up run", Names: []string{"ran", "run"}, Answer: check.Answer{Kind: check.Run, Min: f(2), Max: f(5)}, Fault: check.Fault{Default: check.Shop}},
	}}
	fan := &check.Sheet{Checks: []check.Check{
		{ID: "fuel", Label: "fuel", Names: []string{"gas", "tank"}, Answer: check.Answer{Kind: check.Level, Min: f(0.5)}, Fault: check.Fault{Default: check.Crew}},
		{ID: "guard", Label: "guard", Names: []string{"cage"}, Answer: check.Answer{Kind: check.Condition}, Fault: check.Fault{Default: check.Shop,
			Damages: []check.Damage{{Name: "loose", Act: check.Shop}, {Name: "cracked", Names: []string{"crack"}, Act: check.Out}}}},
		{ID: "run", Label: "warm-up run", Names: []string{"ran", "run"}, Answer: check.Answer{Kind: check.Run, Min: f(5), Max: f(10)}, Fault: check.Fault{Default: check.Shop}},
	}}
	n := 0
	item := func(id string, s *check.Sheet, names ...string) Item {
		it := Item{ID: "", Names: names}
		it.ID = itemIDOf(id)
		for i := range s.Checks {
			n++
			it.Checks = append(it.Checks, Asked{N: n, Check: &s.Checks[i]})
		}
		return it
	}
	return []Item{item("saw", saw, "saw", "chain saw", "chainsaw", "S-01"), item("fan", fan, "fan", "blower", "F-01")}
}

// brief writes results as "saw.fuel=ok:1 saw.chain=ok!" with ! for fixed.
func brief(r Reading) string {
	var out []string
	for _, x := range r.Results {
		s := x.Ref.String() + "=" + string(x.State)
		if x.Value.Number != nil {
			s += ":" + strconv.FormatFloat(*x.Value.Number, 'g', 4, 64)
		} else if x.Value.Word != "" {
			s += ":" + x.Value.Word
		}
		if x.Fixed {
			s += "!"
		}
		out = append(out, s)
	}
	return strings.Join(out, " ")
}

func TestTone(t *testing.T) {
	cases := []struct{ typed, want string }{
		{"all good", "saw.bar_oil=ok saw.chain=ok fan.guard=ok"},
		{"👍", "saw.bar_oil=ok saw.chain=ok fan.guard=ok"},
		{"saw full, good, tight, 3 min", "saw.fuel=ok:1 saw.bar_oil=ok saw.chain=ok saw.run=ok:3"},
		{"fuel's good", "saw.fuel=unsure fan.fuel=unsure"},
		{"1 half 2 lo 3-4 fine", "saw.fuel=ok:0.5 saw.bar_oil=fault:low saw.chain=ok"},
		{"fan ran 7 to 7:08", "fan.run=ok:8"},
		{"chain was loose, snugged it up", "saw.chain=ok!"},
		{"chain tight? can somebody look", "saw.chain=unsure"},
		{"no issues with the saw other than it won't start", "saw.bar_oil=ok saw.chain=ok saw.run=fault"},
		{"fan guard isn't cracked like last week", "fan.guard=ok"},
		{"bar oil not full but not low", "saw.bar_oil=ok"},
		{"guard fine i guess, couldn't see the back", "fan.guard=unsure"},
		{"everything ok on 21 but the saw", "saw.fuel=unsure saw.bar_oil=unsure saw.chain=unsure saw.run=unsure fan.guard=ok"},
		{"same as yesterday", "saw.fuel=unsure saw.bar_oil=unsure saw.chain=unsure saw.run=unsure fan.fuel=unsure fan.guard=unsure fan.run=unsure"},
	}
	for _, c := range cases {
		t.Run(strings.ReplaceAll(c.typed, " ", "_"), func(t *testing.T) {
			got := brief(Read(Context{Items: sawAndFan(), Now: morning}, c.typed))
			if got != c.want {
				t.Errorf("%q\n got %s\nwant %s", c.typed, got, c.want)
			}
		})
	}
}
