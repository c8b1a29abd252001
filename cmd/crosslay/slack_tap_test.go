package main

import (
	"fmt"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
	"crosslay/config"
	"crosslay/internal/story"
)

// TestSlack_taps: a button, a form and a slash command put on record what the typed
// words do.
func TestSlack_taps(t *testing.T) {
	cases := map[string]struct {
		before, typed string // lines of a story
		tapped        func(w *slackTown)
	}{
		"all_good":  {"", "ines in E1: all good", func(w *slackTown) { w.tap("ines", "E1", "All good") }},
		"on_a_call": {"", "ines in E1: on a call", func(w *slackTown) { w.tap("ines", "E1", "On a call") }},
		"report_a_fault": {"", "ines in E1: left hose has a nick", func(w *slackTown) {
			w.tap("ines", "E1", "Report a fault")
			w.fill("ines", map[string]string{"rest": "left hose has a nick"})
		}},
		"form": {"", "ines in E1: 1 3/4, 2 ok, 4 not ok, 5 6 min, 12 1/4 in\nravi in E1: 17 full", func(w *slackTown) {
			w.tap("ines", "E1", "Fill in the form")
			w.fill("ines", map[string]string{"n/1/": "3/4", "n/2/": "ok", "n/4/": "not ok", "n/5/min": "6", "n/12/in": "1/4"})
			w.tap("ravi", "E1", "Fill in the form")
			w.fill("ravi", map[string]string{"n/17/": "full"})
		}},
		"form_with_words": {"", `ines in E1: 1 full, 17 1/2\nright hose is cut`, func(w *slackTown) {
			w.tap("ines", "E1", "Fill in the form")
			w.fill("ines", map[string]string{"n/1/": "full", "n/17/": "1/2", "rest": "right hose is cut"})
		}},
		"shop_steps": {"ines in E1: left hose has a nick", "wim in defect 1: seen\nwim in defect 1: repaired\nwim in defect 1: back in service", func(w *slackTown) {
			w.tap("wim", "defect 1", "Seen")
			w.tap("wim", "defect 1", "Repaired")
			w.tap("wim", "defect 1", "Back in service")
		}},
		"shop_steps_aside": {"ines in E1: left hose has a nick\nravi in E1: right hose has a cut", "wim in defect 1: waiting for parts\nwim in defect 1: spare placed\nwim in defect 2: need it at the shop\nwim in defect 1: not a fault", func(w *slackTown) {
			w.tap("wim", "defect 1", "Waiting for parts")
			w.tap("wim", "defect 1", "Spare placed")
			w.tap("wim", "defect 2", "Need it here")
			w.tap("wim", "defect 1", "Not a fault")
		}},
		"crew_taps_the_shops_button": {"ines in E1: left hose has a nick", "ines in defect 1: repaired", func(w *slackTown) {
			w.tap("ines", "defect 1", "Repaired")
		}},
		"slash_in_the_channel": {"", "ines in #station-1: E1 all good", func(w *slackTown) {
			w.slash("ines", "#station-1", "E1 all good")
		}},
		"slash_by_an_officer": {"", "greta in #officers: take CS-01 out of service", func(w *slackTown) {
			w.slash("greta", "#officers", "take CS-01 out of service")
		}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			played(t, name == "form_with_words")
			script := func(more string) story.Script {
				steps, err := story.Parse(name, "at 2026-11-25 06:59\n+1m\n"+c.before+"\n"+more)
				if err != nil {
					t.Fatal(err)
				}
				return story.Script{Name: name, Steps: steps}
			}
			want := plainRecords(onTerminal(t, script(c.typed)))
			synctest.Test(t, func(t *testing.T) {
				w := newSlackTown(t, beginOf(t, script("")), everywhere)
				w.start()
				if err := w.play(script("").Steps); err != nil {
					t.Fatal(err)
				}
				c.tapped(w)
				if diff := cmp.Diff(want, plainRecords(w.end())); diff != "" {
					t.Errorf("on record is (-typed +tapped):\n%s", diff)
				}
			})
		})
	}
}

// tap presses a button of the message that starts a thread.
func (w *slackTown) tap(who, where, button string) {
	w.t.Helper()
	at, err := w.find(w.users[who], where)
	if err == nil {
		err = w.Click(w.users[who], at.channel, at.ts, button)
	}
	if err != nil {
		w.t.Fatal(err)
	}
	w.settle()
}

// fill sends off the dialog that is open in front of a person.
func (w *slackTown) fill(who string, values map[string]string) {
	w.t.Helper()
	views := w.Views(w.users[who])
	if len(views) != 1 {
		w.t.Fatalf("%d dialogs are open", len(views))
	}
	if problems, err := w.SubmitView(w.users[who], views[0].ID, values); err != nil || len(problems) > 0 {
		w.t.Fatal(problems, err)
	}
	w.settle()
}

func (w *slackTown) slash(who, where, words string) {
	w.t.Helper()
	at, err := w.find(w.users[who], where)
	if err == nil {
		_, err = w.Slash(w.users[who], at.channel, words)
	}
	if err != nil {
		w.t.Fatal(fmt.Errorf("/crosslay %s: %w", words, err))
	}
	w.settle()
}

// TestSlack_form_says_what_is_tapped reads back every answer that a form offers,
// for every check of the example department: what is tapped is what is understood,
// and of no other check.
func TestSlack_form_says_what_is_tapped(t *testing.T) {
	d := config.Example()
	for _, c := range d.Dept.Companies {
		view, refs := promptOf(d, c.ID)
		for _, f := range wording.PromptForm(view).Fields {
			for _, say := range sayings(f) {
				text := chat.Spoken([]chat.Filled{{N: f.N, Unit: f.Unit, Text: say}}, "")
				got := reply.Read(reply.Context{Now: time.Now(), Items: reply.Full(d.Dept, d.Book, c.ID)}, text)
				if len(got.Results) != 1 || got.Results[0].Ref != refs[f.N] || len(got.NotUnderstood) > 0 {
					t.Errorf("%s %s, tapped %q, said %q: %+v, not understood %q", c.ID, f.Label, say, text, got.Results, got.NotUnderstood)
					continue
				}
				if state := got.Results[0].State; state == check.Open || state == check.Unsure || say == "ok" && state != check.OK || say == "not ok" && state != check.Fail {
					t.Errorf("%s %s, tapped %q, is %s", c.ID, f.Label, say, state)
				}
			}
		}
	}
}

// promptOf is the prompt of all that a company carries, numbered in the order of
// the file.
func promptOf(d *config.Department, id dept.CompanyID) (wording.PromptView, map[int]check.Ref) {
	view, refs, n := wording.PromptView{Company: string(id)}, map[int]check.Ref{}, 0
	for _, it := range d.Dept.Carried(id) {
		item := wording.PromptItem{Thing: wording.Thing{Name: string(it.Kind), Number: it.Number}}
		sheet := d.Book[it.Sheet]
		for i := range sheet.Checks {
			n++
			refs[n] = check.Ref{Item: it.ID, Check: sheet.Checks[i].ID}
			item.Checks = append(item.Checks, wording.PromptCheck{N: n, Check: &sheet.Checks[i]})
		}
		view.Items = append(view.Items, item)
	}
	return view, refs
}

// sayings are the answers of a field, or what one might type.
func sayings(f chat.Field) []string {
	switch {
	case len(f.Say) > 0:
		return f.Say
	case f.Unit == "min":
		return []string{"6", "6 min", "7:02 to 7:08"}
	case f.Unit == "in":
		return []string{"1/4", "0.25", "1/4 in", "1/4\""}
	case f.Unit != "":
		return []string{"4500", "100"}
	}
	return nil
}

// TestSlack_form_asks_what_is_open: the form under the prompt follows what was
// said: it asks what is open, and has what is in doubt filled in.
func TestSlack_form_asks_what_is_open(t *testing.T) {
	steps, err := story.Parse("form", "at 2026-11-25 06:59\n+1m\nines in E1: all good, 1 full, fluid low\nravi in E1: ran it 7, saw ran 4 min")
	if err != nil {
		t.Fatal(err)
	}
	script := story.Script{Name: "form", Steps: steps}
	synctest.Test(t, func(t *testing.T) {
		w := newSlackTown(t, beginOf(t, script), everywhere)
		w.start()
		if err := w.play(steps); err != nil {
			t.Fatal(err)
		}
		w.tap("ines", "E1", "Fill in the form")
		views := w.Views(w.users["ines"])
		if len(views) != 1 {
			t.Fatalf("%d dialogs are open", len(views))
		}
		var asked []string
		for _, b := range views[0].Blocks {
			element, _ := b["element"].(map[string]any)
			option, _ := element["initial_option"].(map[string]any)
			if id, _ := b["block_id"].(string); b["type"] == "input" && id != "rest" {
				asked = append(asked, fmt.Sprint(id, option["value"]))
			}
		}
		want := []string{"n/2/low", "n/5/min<nil>", "n/12/in<nil>", "n/17/<nil>"}
		if diff := cmp.Diff(want, asked); diff != "" {
			t.Errorf("asked is (-want +got):\n%s", diff)
		}
		w.end()
	})
}
