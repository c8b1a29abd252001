package reply

import (
	"strings"
	"testing"
	"time"

	"crosslay/bot/dept"
)

// shopNow is a Wednesday.
var shopNow = time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC)

var shopItems = []NamedItem{
	{ID: "saw-r", Names: []string{"S-90"}},
	{ID: "pump-r", Names: []string{"PU-90", "the blue one"}},
	{ID: "saw", Names: []string{"S-01"}},
}

// shopFacts is what was read, in one line.
func shopFacts(w ShopWords) string {
	var facts []string
	for _, f := range []struct {
		set  bool
		word string
	}{
		{w.Seen, "seen"}, {w.AtShop, "shop"}, {w.Wanted, "wanted"}, {w.Repaired, "repaired"}, {w.Returned, "returned"}, {w.NotAFault, "no fault"},
		{w.OutOfService, "out"}, {w.Parts, "parts"}, {!w.Until.IsZero(), w.Until.String()}, {w.SparePlaced, "spare"},
		{w.Spare != "", string(w.Spare)}, {w.Question, "question"},
	} {
		if f.set {
			facts = append(facts, f.word)
		}
	}
	return strings.Join(facts, " ")
}

func TestReadShop(t *testing.T) {
	tests := []struct{ text, want string }{
		{"seen", "seen"},
		{"got it", "seen"},
		{"on it", "seen"},
		{"We're on it.", "seen"},
		{"looking", "seen"},
		{"looking at it now", "seen"},
		{"copy, will look at it tomorrow", "seen"},
		{"10-4", "seen"},
		{"saw your photo", "seen"},

		{"waiting for parts", "parts"},
		{"waiting on a blade", "parts"},
		{"parts ordered, until friday", "parts 2026-11-27"},
		{"parts due 12/3", "parts 2026-12-03"},
		{"back ordered till next week", "parts 2026-12-04"},
		{"back-ordered until the 15th", "parts 2026-12-15"},
		{"Parts on order, should be here Monday", "parts 2026-11-30"},
		{"parts on order. eta dec 3", "parts 2026-12-03"},
		{"parts ordered 11/20, due 1/5", "parts 2027-01-05"},
		{"parts ordered monday", "parts"},
		{"parts expected in two weeks", "parts 2026-12-09"},
		{"parts haven't come in yet, until 2026-12-01", "parts 2026-12-01"},
		{"ordered a new blade, eta next tuesday", "parts 2026-12-01"},
		{"parts will be here tomorrow", "parts 2026-11-26"},
		{"until friday", "2026-11-27"},
		{"parts due 13/40", "parts"},
		{"parts are in", ""},
		{"don't need any parts", ""},
		{"need to order parts", ""},

		{"bring it in", "wanted"},
		{"please bring it in tomorrow", "wanted"},
		{"need it at the shop", "wanted"},
		{"need it here", "wanted"},
		{"i need to see it here at the bench", "wanted"},
		{"drop it off", "wanted"},
		{"send it to the shop", "wanted"},
		{"it's at the shop", "shop"},
		{"got it here at the shop", "seen shop"},
		{"it's here now", "shop"},
		{"it came in this morning", "shop"},
		{"it will be at the shop tomorrow", ""},
		{"parts are in", ""},
		{"don't bring it in", ""},
		{"no need to drop it off", ""},

		{"spare placed", "spare"},
		{"put S-90 on E1", "spare saw-r"},
		{"put s90 on engine 1", "spare saw-r"},
		{"dropped the spare PU-90", "spare pump-r"},
		{"the spare is on E1", "spare"},
		{"left the blue one with the crew", "spare pump-r"},
		{"swapped S-01 for S-90", "spare saw-r"},
		{"replaced it with S-90", "spare saw-r"},
		{"S-90 on E1 as the spare", "spare saw-r"},
		{"brought spare S-90 to E1", "spare saw-r"},
		{"brought the spare back", ""},
		{"ordered spare parts", ""},
		{"left spare blades at station 2", ""},
		{"replaced the chain with a spare chain", ""},
		{"will drop the spare tomorrow", ""},
		{"no spare placed", ""},
		{"picked up the spare", ""},
		{"spare placed?", "question"},

		{"repaired", "repaired"},
		{"fixed", "repaired"},
		{"Fixed it this morning.", "repaired"},
		{"replaced the blade", "repaired"},
		{"put in a new plug", "repaired"},
		{"repairs are done", "repaired"},
		{"back in service", "returned"},
		{"returned to service", "returned"},
		{"good to go, back on the rig", "returned"},
		{"it's back on E1", "returned"},
		{"put S-01 back on E1", "returned"},
		{"repaired, back in service", "repaired returned"},
		{"replaced the blade and it's back in service", "repaired returned"},
		{"no leaks and back in service", "returned"},
		{"seen, repaired, back in service", "seen repaired returned"},
		{"repaired and returned", "repaired returned"},
		{"swapped out the throttle cable, its back on E2", "repaired returned"},
		{"fixed, holding pressure, still tight, back in service", "repaired returned"},
		{"S-01 repaired and back in service; S-90 picked up", "repaired returned"},
		{"repaired but not back in service yet", "repaired"},
		{"parts came in, will repair tomorrow", ""},
		{"parts arrived, repaired, back in service", "repaired returned"},
		{"not repaired but back in service", "returned"},

		{"not a fault", "no fault"},
		{"no defect", "no fault"},
		{"works as designed", "no fault"},
		{"that is normal", "no fault"},
		{"that's normal, back in service", "returned no fault"},
		{"no fault found", "no fault"},

		{"take it out of service", "out"},
		{"tag it", "out"},
		{"OOS", "out"},
		{"out of service until repaired", "out"},
		{"needs to be out of service", "out"},
		{"do not use it", "out"},
		{"don't tag it", ""},
		{"no need to take it out of service", ""},
		{"bring it in, tag it, spare placed", "wanted out spare"},
		{"was out of service, now back in service", "returned"},
	}
	for _, tt := range tests {
		t.Run(shopName(tt.text), func(t *testing.T) {
			if got := shopFacts(ReadShop(tt.text, shopNow, shopItems)); got != tt.want {
				t.Errorf("%q\n got %q\nwant %q", tt.text, got, tt.want)
			}
		})
	}
}

// TestReadShopNoFalsePass holds words near to a repair, a return or "not a
// fault" that are none.
func TestReadShopNoFalsePass(t *testing.T) {
	for _, text := range []string{
		"not repaired yet", "will be fixed tomorrow", "is it repaired?", "can't fix it", "cant be repaired", "not back in service",
		"isn't fixed", "isnt fixed", "never fixed", "fixed? no", "is it fixed? not yet", "repaired. not!", "almost fixed", "half repaired", "should be fixed",
		"should be good to go", "probably fixed", "i think it's fixed", "I'll have it fixed by friday", "needs fixed", "get it fixed",
		"when it's fixed, back in service", "once repaired it goes back in service", "until it is repaired", "if it's repaired tag it",
		"will be fixed and back in service", "fixed and back in service tomorrow", "not repaired, tested or returned to service",
		"not repaired and back in service", "driver says it's fixed", "who fixed it", "did you get it repaired", "has it been repaired",
		"was repaired last month", "back in service friday", "back in service tonight", "back in service?", "repaired, back in service?",
		"don't put it back in service", "do not put back in service", "ready to go back in service", "could go back in service",
		"not good to go", "good to go? no", "parts are good to go", "spare is back in service", "engine 1 is back in service",
		"that is not normal", "that isn't normal", "not working as designed", "is that normal?", "is that normal", "not a fault?", "probably normal",
		"not a fault but a cracked blade", "nothing wrong with the pump, it's the hose", "not sure it's not a fault",
		"repaired but still leaking", "fixed it. Still leaking.", "replaced the blade, cracked again", "unrepaired", "waiting to be repaired",
		"being repaired", "trying to get it fixed", "let me know when it's fixed", "repaired... scratch that, not repaired", "fixed, wrong thread",
		"unable to get it fixed", "no longer in service", "nobody fixed it", "hopefully fixed", "out of service", "fixed-ish maybe", "not fixed, not repaired",
		"haven't fixed it", "havent repaired it", "wasn't repaired", "it won't be fixed", "fix it", "repair it", "repairing it", "return it to service",
		"wish it was fixed", "as soon as it's repaired", "not seen it", "fixed the other one", "fixed another pump", "replaced the blade but it's still bent", "as good as fixed", "fixed one of two leaks",
		"not a fault of ours", "fixed but leaks again", "swapped it with S-90", "fixed the leak but throttle still loose", "temporary fix", "fixed pending test",
		"was fixed, now leaking again", "fixed the spare", "",
	} {
		t.Run(shopName(text), func(t *testing.T) {
			w := ReadShop(text, shopNow, shopItems)
			if w.Repaired || w.Returned || w.NotAFault || w.Seen {
				t.Errorf("%q read as %q", text, shopFacts(w))
			}
		})
	}
}

// TestReadShopSpoiled puts every plain word of a repair, a return or "not a
// fault" into sentences that do not say so.
func TestReadShopSpoiled(t *testing.T) {
	plain := []string{
		"repaired", "fixed", "replaced the blade", "put in a new plug", "rebuilt", "back in service", "returned to service", "good to go",
		"back on the rig", "back on E1", "in service", "cleared for duty", "not a fault", "no defect", "works as designed", "that is normal", "no fault found",
	}
	for _, p := range plain {
		if w := ReadShop(p, shopNow, nil); !w.Repaired && !w.Returned && !w.NotAFault {
			t.Errorf("%q alone says nothing", p)
		}
		for _, spoiled := range []string{
			"%?", "is it %", "is it %?", "has it been %", "who says %", "not sure it is %", "will be % tomorrow", "it'll be %", "going to be %", "if it is %",
			"driver says %", "they told me %", "maybe %", "% maybe", "probably %", "% i think", "% tomorrow", "% soon", "% by friday", "should be %", "hopefully %",
			"once % let me know", "when it's % call me", "until %", "scratch that", "% scratch that", "% wrong thread", "never %", "isn't %", "isnt %",
			"it aint %", "wasn't %", "can't get it %", "cant be %", "don't say %", "% - not", "%. not yet", "%, no", "nobody has %", "almost %", "needs to be %",
			"want it %", "trying to get it %", "% in two weeks", "% after lunch if parts come", "% last month", "supposedly %", "i'd like it %",
		} {
			text := strings.ReplaceAll(spoiled, "%", p)
			if w := ReadShop(text, shopNow, shopItems); w.Repaired || w.Returned || w.NotAFault {
				t.Errorf("%q read as %q", text, shopFacts(w))
			}
		}
	}
}

func TestReadShopQuestions(t *testing.T) {
	for text, want := range map[string]bool{
		"is it repaired?": true, "is it repaired": true, "which tool was on it": true, "seen, was it open?": true, "any word on the parts": true,
		"repaired": false, "has been repaired": false, "seen. bring it in": false,
	} {
		if got := ReadShop(text, shopNow, shopItems).Question; got != want {
			t.Errorf("%q: question %v, want %v", text, got, want)
		}
	}
	if w := ReadShop("seen, was it open?", shopNow, nil); !w.Seen {
		t.Error("what comes before a question is lost")
	}
}

func TestReadShopTwoSparesAlike(t *testing.T) {
	items := []NamedItem{{"a", []string{"blue saw"}}, {"b", []string{"blue saw"}}}
	if w := ReadShop("put the blue saw on E1", shopNow, items); w.Spare != dept.ItemID("") {
		t.Errorf("chose %q of two with one name", w.Spare)
	}
}

func FuzzReadShop(f *testing.F) {
	for _, s := range []string{"repaired, back in service", "parts due 99/99", "not,,,or?!", "S-00 0-0 12/0/0", "’s n't 'll"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w := ReadShop("not "+text, shopNow, shopItems)
		if !w.Until.IsZero() && w.Until.AddDays(0) != w.Until {
			t.Errorf("%q: no calendar has %v", text, w.Until)
		}
	})
}

// shopName makes a subtest name without blanks.
func shopName(text string) string {
	if text == "" {
		return "nothing"
	}
	return strings.ReplaceAll(text, " ", "_")
}
