package reply

import (
	"testing"

	"crosslay/bot/check"
)

// sawFanAndPacks adds two items that are alike, told apart by number and seat.
func sawFanAndPacks() []Item {
	items := sawAndFan()
	pack := &check.Sheet{Checks: []check.Check{
		{ID: "bottle", Label: "pressure", Names: []string{"bottle"}, Answer: check.Answer{Kind: check.Number, Unit: "psi", Min: f(4000), Max: f(4500)}, Fault: check.Fault{Default: check.Crew}},
		{ID: "alarm", Label: "low-air alarm", Names: []string{"alarm"}, Answer: check.Answer{Kind: check.YesNo, Good: "yes"}, Fault: check.Fault{Default: check.Shop}},
		{ID: "straps", Label: "straps", Names: []string{"strap"}, Answer: check.Answer{Kind: check.Condition}, Fault: check.Fault{Default: check.Shop}},
	}}
	n := 7
	for _, p := range []struct{ id, number, place string }{{"p41", "PA-41", "officer seat"}, {"p42", "PA-42", "driver seat"}} {
		it := Item{ID: itemIDOf(p.id), Names: []string{"pack", "air pack", p.number}, Place: p.place}
		for i := range pack.Checks {
			n++
			it.Checks = append(it.Checks, Asked{N: n, Check: &pack.Checks[i]})
		}
		items = append(items, it)
	}
	return items
}

// How crews put things, by the means that reads it.
func TestHeard(t *testing.T) {
	cases := []struct{ name, text, want string }{
		// dictation
		{"marks_are_said", "chain tight comma bar oil good period guard fine", "saw.bar_oil=ok saw.chain=ok fan.guard=ok"},
		{"new_line", "saw chain good new line fan guard is cracked", "saw.chain=ok fan.guard=fault"},
		{"know_for_no", "chain has know issues", "saw.chain=ok"},
		{"past_for_passed", "pack forty one alarm past", "p41.alarm=ok"},
		{"four_digits_spoken", "officer pack forty three fifty", "p41.bottle=ok:4350"},
		{"teens_spoken", "fan ran seven oh two to seven eleven", "fan.run=ok:9"},
		{"and_one", "bottle forty two is forty four hundred", "p42.bottle=ok:4400"},
		// alike items
		{"by_digits", "41 4400, 42 3800", "p41.bottle=ok:4400 p42.bottle=fault:3800"},
		{"by_seat", "officer 4400 ok ok\ndriver 4300 ok ok", "p41.bottle=ok:4400 p41.alarm=ok p41.straps=ok p42.bottle=ok:4300 p42.alarm=ok p42.straps=ok"},
		{"fault_of_one", "strap frayed on 42", "p42.straps=fault"},
		{"the_other_pack", "pack 41 alarm good, straps good. the other one is good", "p41.alarm=ok p41.straps=ok p42.alarm=ok p42.straps=ok"},
		{"plural_of_both", "pack 41 4400, pack 42 4300, straps good", "p41.bottle=ok:4400 p41.straps=ok p42.bottle=ok:4300 p42.straps=ok"},
		{"same", "pack 41: alarm ok, straps ok. pack 42 same", "p41.alarm=ok p41.straps=ok p42.alarm=ok p42.straps=ok"},
		{"same_carries_no_reading", "pack 41 4400. pack 42 same", "p41.bottle=ok:4400"},
		{"which_pack", "pack is at 4400", "p41.bottle=unsure p42.bottle=unsure"},
		// the other half of one check
		{"other_half_mends_nothing", "guard is cracked on one side. the other one is fine", "fan.guard=fault"},
		{"one_of_several", "straps on 41 good, one is frayed", "p41.straps=fault"},
		// what is not said to be good
		{"a_part_that_nobody_asked_about", "saw pull cord is fine", ""},
		{"good_once", "saw is good to go once the chain is on", "saw.bar_oil=unsure saw.chain=unsure"},
		{"good_tomorrow", "fan good tomorrow", "fan.guard=unsure"},
		{"should_pass", "chain should hold", "saw.chain=unsure"},
		{"would_like_to_say", "i would love to say the chain is good", ""},
		{"according_to_others", "they say the guard is good", ""},
		{"only_looked_at", "all good but i only looked at the fan", "saw.bar_oil=unsure saw.chain=unsure fan.guard=unsure p41.alarm=unsure p41.straps=unsure p42.alarm=unsure p42.straps=unsure"},
		{"a_trailing_wait", "fan guard good. wait", "fan.guard=unsure"},
		{"a_promise", "ok will look", ""},
		{"loud_is_not_everything", "saw is loud", ""},
		{"said_of_nothing", "that's good", ""},
		{"ok_that_opens", "ok saw next", ""},
		{"a_word_nobody_knows", "guard zorched", "fan.guard=unsure"},
		{"names_thrown_together", "chain guard oil fine", "saw.bar_oil=unsure saw.chain=unsure fan.guard=unsure"},
		// not looked at
		{"no_good_look", "did not get a good look at the guard", "fan.guard=unsure"},
		{"cannot_tell_if", "couldn't tell if the guard is cracked", "fan.guard=unsure"},
		{"sight_is_denied_and_not_the_nick", "didn't see any cracks in the guard", "fan.guard=ok"},
		{"not_mended_yet", "chain is loose, haven't tightened it", "saw.chain=fault"},
		// then and now
		{"yesterday_and_today", "yesterday the chain was loose today it is tight", "saw.chain=ok"},
		{"fixed_and_read_again", "42 was 3800. swapped bottles. 4500", "p42.bottle=ok:4500!"},
		{"half_full", "fan is half full", "fan.fuel=ok:0.5"},
		{"not_but_at", "saw is not full, it's at a quarter", "saw.fuel=fault:0.25"},
		{"later_by_the_clock", "cleaned the guard ten minutes later, guard good", "fan.guard=ok"},
		// lists
		{"without_marks", "full good tight 3 half good 6 4400 yes ok 4300 yes ok", "saw.fuel=ok:1 saw.bar_oil=ok saw.chain=ok saw.run=ok:3 fan.fuel=ok:0.5 fan.guard=ok fan.run=ok:6 p41.bottle=ok:4400 p41.alarm=ok:yes p41.straps=ok p42.bottle=ok:4300 p42.alarm=ok:yes p42.straps=ok"},
		{"neither_nor", "bar oil neither low nor over", "saw.bar_oil=ok"},
		{"something_else_is_gone", "guard ok but 2 screws gone", "fan.guard=unsure"},
		// typing
		{"letters_in_another_order", "gaurd good", "fan.guard=ok"},
		{"nought_typed_as_a_letter", "pack 41 44oo", "p41.bottle=ok:4400"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := brief(Read(Context{Items: sawFanAndPacks(), Now: morning}, c.text)); got != c.want {
				t.Errorf("%q\n got %s\nwant %s", c.text, got, c.want)
			}
		})
	}
}
