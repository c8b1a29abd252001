package reply_test

import (
	"testing"

	"crosslay/bot/check"
	"crosslay/bot/reply"
)

// What crews of the example company wrote while its stories were played. none
// means that nothing may pass; want lists what must be read, and nothing else
// may pass.
func TestCaptain(t *testing.T) {
	none := map[string]check.State{}
	for text, want := range map[string]map[string]check.State{
		// Acknowledging and talk are no checks.
		"10-4":                                  none,
		"roger":                                 none,
		"yes":                                   none,
		"sounds good":                           none,
		"no problem":                            none,
		"no worries":                            none,
		"ok will do":                            none,
		"ok will look":                          none,
		"we're good, starting now":              none,
		"coffee is good today":                  none,
		"weather is fine":                       none,
		"chief says ok":                         none,
		"all set for dinner":                    none,
		"siren ok":                              none,
		"anything left?":                        none,
		"is everyone ok?":                       none,
		"12 1/4 in":                             {"e1-combi.gap": check.OK},
		"12 1/4":                                {"e1-combi.gap": check.OK},
		"hyd fluid spraying out of the pump":    {"e1-pump.leaks": check.Fail},
		"hydraulic fluid leaking from the pump": {"e1-pump.leaks": check.Fail},
		"fuel dripping from the pump":           {"e1-pump.leaks": check.Fail},
		"right hose coupler is cracked":         {"e1-hose-right.couplers": check.Fail},
		"saw chain brake won't hold":            {"e1-saw.chain": check.Fail},
		"saw died after 1 min":                  {"e1-saw.run": check.Fail},
	} {
		t.Run(text, func(t *testing.T) {
			got := map[string]check.State{}
			for _, r := range reply.Read(engine(), text).Results {
				got[r.Ref.String()] = r.State
				if r.State == check.OK && want[r.Ref.String()] != check.OK {
					t.Errorf("%q passes %s", text, r.Ref)
				}
			}
			for ref, state := range want {
				if got[ref] != state {
					t.Errorf("%q: %s is %q, want %q (all: %v)", text, ref, got[ref], state, got)
				}
			}
		})
	}
}

// Trouble with a part that no check asks about, on an item that is named, is a
// report on that item: neither a question for every check of it, nor a fault of
// another item.
func TestTroubleWithAnUnknownPart(t *testing.T) {
	for text, item := range map[string]string{
		"left hose is leaking":                   "e1-hose-left",
		"pull cord broke on the saw":             "e1-saw",
		"pump pull cord is frayed":               "e1-pump",
		"the saw handle is loose":                "e1-saw",
		"PU-01 has something weird on the frame": "e1-pump",
		"somebody broke the siren":               "",
	} {
		t.Run(text, func(t *testing.T) {
			read := reply.Read(engine(), text)
			for _, r := range read.Results {
				if string(r.Ref.Item) != item {
					t.Errorf("%q is taken for %s, %s", text, r.Ref, r.State)
				}
			}
			if len(read.Reports) == 0 && len(read.Results) == 0 || len(read.Results) > 1 {
				t.Errorf("%q: %d results, reports %v; want one report on %q", text, len(read.Results), read.Reports, item)
			}
		})
	}
	damage := ""
	for _, r := range reply.Read(engine(), "right hose coupler is cracked").Results {
		damage += r.Damage
	}
	if damage != "will not lock" {
		t.Errorf("a damage whose names hold the word wins over the word: %q", damage)
	}
	used := reply.Read(engine(), "used the combi on the wreck, wiped it down, blades look ok, pump ran 25 min")
	if used.Busy || len(used.Used) != 1 || used.Used[0] != "e1-combi" {
		t.Errorf("used the combi: busy %v, used %v", used.Busy, used.Used)
	}
}

// Read again with the tool closed, the fluid is what is said of it now.
func TestReadAgainClosed(t *testing.T) {
	fluid := ref("e1-pump", "fluid")
	for text, want := range map[string]check.State{
		"closed it, hydraulic fluid is ok": check.OK,
		"closed it, still low":             check.Fail,
		"closed now, fluid is good":        check.OK,
	} {
		ctx := engine()
		ctx.Asked = []reply.Doubt{{Why: reply.ToolOpen, Refs: []check.Ref{fluid}, State: check.Fail, Value: check.Word("low")}}
		ctx.Settled = map[check.Ref]check.State{fluid: check.Unsure}
		got := check.Open
		for _, r := range reply.Read(ctx, text).Results {
			if r.Ref == fluid {
				got = r.State
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for text, item := range map[string]string{"fan ran 3": "", "saw ran 3": "e1-saw.run", "ran the saw 3": "e1-saw.run"} {
		for _, r := range reply.Read(engine(), text).Results {
			if r.Ref.String() != item {
				t.Errorf("%q is taken for %s", text, r.Ref)
			}
			item = ""
		}
		if item != "" {
			t.Errorf("%q: nothing for %s", text, item)
		}
	}
}
