package reply

import (
	"slices"
	"strings"
	"testing"
)

// within reports whether all that is wanted was got; nothing wanted, nothing got.
func within(want, got string) bool {
	if want == "" {
		return got == ""
	}
	results := strings.Fields(got)
	for _, w := range strings.Fields(want) {
		if !slices.Contains(results, w) {
			return false
		}
	}
	return true
}

// Ways of putting it that take the ground from a pass: none of these may pass what
// stands behind the bar.
func TestTempered(t *testing.T) {
	cases := []struct{ name, text, want string }{
		{"not_by_itself", "guard returns by hand", "fan.guard=unsure"},
		{"not_all_the_way", "guard closes almost", "fan.guard=unsure"},
		{"another_time", "chain good before the run", "saw.chain=unsure"},
		{"not_quite", "saw fuel not quite full", "saw.fuel=unsure"},
		{"stale", "saw fuel full, gas is stale", "saw.fuel=unsure"},
		{"hearsay", "probie says all good", "saw.chain=unsure"},
		{"just", "chain not cut just scuffed", "saw.chain=fault"},
		{"you_good", "you good", ""},
		{"work_order", "all good, work order on the fan", "fan.guard=unsure"},
		{"so_many_of", "8/9 pass", "saw.chain=unsure"},
		{"by_now", "saw full, half after the run", "saw.fuel=unsure"},
		{"choke", "saw ran 3 with the choke on", "saw.run=unsure"},
		{"no_it_is", "chain good no it's cracked", "saw.chain=unsure"},
		// the sentence goes on
		{"cord_showing", "chain good, cord showing", "saw.chain=unsure"},
		{"one_of_them", "chain good, one's got tape on it", "saw.chain=unsure"},
		{"does_not", "guard ok, doesn't seat", "fan.guard=unsure"},
		{"only_starts", "saw started right up", ""},
		{"two_figures", "pack 41 bottle 4400 and 3900", "p41.bottle=unsure"},
		{"counts_trouble", "guard ok, 1 cracked", "fan.guard=fault"},
		{"only_sounds_like_all", "ok on a run", ""},
		{"not_carried_here", "the other fan is good", "fan.guard=unsure"},
		{"which_one_left_out", "all good except whatever milo found", "saw.chain=unsure"},
		{"exception_of_another_time", "all good except the chain was loose back when it vibrates", "saw.chain=fault"},
		// and what is no reason to doubt
		{"thanks", "chain good, thanks", "saw.chain=ok"},
		{"other_check", "chain good, guard fine", "saw.chain=ok fan.guard=ok"},
		{"filled", "saw fuel was low, filled it, full now", "saw.fuel=ok:1"},
		{"three_quarters", "saw 3/4, chain good", "saw.fuel=ok:0.75 saw.chain=ok"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := brief(Read(Context{Items: sawFanAndPacks(), Now: morning}, c.text)); !within(c.want, got) {
				t.Errorf("%q\n got %s\nwant %s", c.text, got, c.want)
			}
		})
	}
}

// A company of another number is not the one asked.
func TestOtherCompanyIsNotOurs(t *testing.T) {
	for text, want := range map[string]string{
		"Truck 4 all good": "saw.chain=unsure", "all good on E9": "saw.chain=unsure", "Engine 7 all good": "saw.chain=ok",
	} {
		if got := brief(Read(Context{Items: sawFanAndPacks(), Now: morning, Company: []string{"Engine 7", "E7"}}, text)); !within(want, got) {
			t.Errorf("%q\n got %s\nwant %s", text, got, want)
		}
	}
}
