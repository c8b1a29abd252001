package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/outbox"
	"crosslay/internal/slack/slackdouble"
	"crosslay/internal/story"
)

const stories = "../../testdata/stories"

// storms is how many storms are lived through.
const storms = 4

// played skips a play that is one too many for the race detector.
func played(t *testing.T, always bool) {
	t.Helper()
	if !thorough && !always {
		t.Skip("one of its sort is enough under the race detector")
	}
}

func storyOf(t *testing.T, file string) story.Script {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(stories, file))
	if err != nil {
		t.Fatal(err)
	}
	steps, err := story.Parse(file, string(text))
	if err != nil {
		t.Fatal(err)
	}
	return story.Script{Name: file, Steps: steps}
}

// onTerminal plays a story on the terminal and returns what is on record.
func onTerminal(t *testing.T, script story.Script) []bot.Record {
	t.Helper()
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	begin, err := script.Begin(setup)
	if err != nil {
		t.Fatal(err)
	}
	w, err := story.New(setup, filepath.Join(t.TempDir(), "crosslay.db"), begin, story.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	var records []bot.Record
	w.Hear(func(e story.Entry) {
		if e.Record != nil {
			records = append(records, *e.Record)
		}
	})
	if err := script.Play(w); err != nil {
		t.Fatal(err)
	}
	return records
}

func everywhere(dept.Room) bool { return true }

// beginOf is when a story begins.
func beginOf(t *testing.T, script story.Script) time.Time {
	t.Helper()
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	begin, err := script.Begin(setup)
	if err != nil {
		t.Fatal(err)
	}
	return begin
}

// TestSlack_morning: a morning in Slack's channels puts on record what it puts on
// record on the terminal. So it does when the bot is killed at every step, with a
// message on its way of which it will never hear whether it arrived.
func TestSlack_morning(t *testing.T) {
	script := storyOf(t, "morning.story")
	want := plainRecords(onTerminal(t, script))
	never := time.Hour
	for name, faults := range map[string][]slackdouble.Fault{
		"unhurt":                  nil,
		"killed_in_mid_post":      {slackdouble.Slow(never)},
		"killed_after_a_lost_one": {slackdouble.Drop(), slackdouble.Slow(never)},
		"killed_before_the_post":  {slackdouble.Status(503)},
	} {
		t.Run(name, func(t *testing.T) {
			played(t, name == "killed_in_mid_post")
			synctest.Test(t, func(t *testing.T) {
				w := newSlackTown(t, beginOf(t, script), everywhere)
				w.start()
				for _, s := range w.acts(script.Steps) {
					w.killing(s, faults)
				}
				if diff := cmp.Diff(want, plainRecords(w.end())); diff != "" {
					t.Errorf("on record is (-terminal +slack):\n%s", diff)
				}
			})
		})
	}
}

// killing takes a step, and kills the bot in the middle of what it does then.
func (w *slackTown) killing(s story.Step, faults []slackdouble.Fault) {
	w.t.Helper()
	if len(faults) == 0 || s.Verb == story.At || s.Verb == story.Pass {
		if err := w.step(s); err != nil {
			w.t.Fatalf("line %d: %v", s.Line, err)
		}
		return
	}
	w.Fail("chat.postMessage", faults...)
	if err := w.act(s); err != nil {
		w.t.Fatalf("line %d: %v", s.Line, err)
	}
	time.Sleep(4 * time.Second)
	w.kill()
	time.Sleep(70 * time.Second)
	w.start()
}

// acts are the steps in which something is done.
func (w *slackTown) acts(steps []story.Step) []story.Step {
	steps = slices.DeleteFunc(slices.Clone(steps), func(s story.Step) bool { return s.Verb == story.Expect })
	if steps[0].Verb == story.At {
		steps = steps[1:]
	}
	return steps
}

// TestSlack_stories plays a choice of the stories on Slack.
func TestSlack_stories(t *testing.T) {
	for _, name := range strings.Fields(`
		kill_between_word_and_answer ruling_5_thumb_taken_away_is_undo ruling_5_photo_and_report_in_one
		ruling_14_parts_shop_and_spare_hold_at_once ruling_9_busy_until_two_hours ruling_16_out_and_back_told_at_once late_and_double
		ruling_6_direct_words_are_the_speakers_company shop_asks_the_company ruling_15_three_of_a_kind`) {
		t.Run(name, func(t *testing.T) {
			played(t, name == "ruling_5_photo_and_report_in_one")
			script := storyOf(t, name+".story")
			want := plainRecords(onTerminal(t, script))
			synctest.Test(t, func(t *testing.T) {
				w := newSlackTown(t, beginOf(t, script), everywhere)
				w.start()
				if err := w.play(script.Steps); err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(want, plainRecords(w.end())); diff != "" {
					t.Errorf("on record is (-terminal +slack):\n%s", diff)
				}
			})
		})
	}
}

// TestSlack_gap: what was corrected while the bot was down is heard as it stands
// now; nobody will ever know what it was before.
func TestSlack_gap(t *testing.T) {
	for name, want := range map[string][]string{
		"deleted_while_down": nil,
		"edit_while_down":    {`reading E1 2026-11-25/C e1-pump.throttle ok  "4 ok" by Ravi Nandor ()`},
	} {
		t.Run(name, func(t *testing.T) {
			script := storyOf(t, name+".story")
			synctest.Test(t, func(t *testing.T) {
				w := newSlackTown(t, beginOf(t, script), everywhere)
				w.start()
				if err := w.play(script.Steps); err != nil {
					t.Fatal(err)
				}
				got := slices.DeleteFunc(plainRecords(w.end()), func(l string) bool { return strings.HasPrefix(l, "prompt ") })
				if !slices.Equal(got, want) {
					t.Errorf("on record is %q, want %q", got, want)
				}
			})
		})
	}
}

// TestSlack_storm: all through the morning requests of every kind go wrong in every
// way that passes, and now and then the bot is killed. On record is what would be
// on record on a quiet day, and every message stands there once.
func TestSlack_storm(t *testing.T) {
	script := storyOf(t, "morning.story")
	want := plainRecords(unsuperseded(onTerminal(t, script)))
	for seed := range uint64(storms) {
		t.Run(fmt.Sprint("seed_", seed), func(t *testing.T) {
			played(t, false)
			synctest.Test(t, func(t *testing.T) {
				dice := rand.New(rand.NewPCG(seed, 5))
				w := newSlackTown(t, beginOf(t, script), everywhere)
				w.storm = true
				w.start()
				for _, s := range w.acts(script.Steps) {
					w.brew(dice)
					if err := w.step(s); err != nil {
						t.Fatalf("line %d: %v", s.Line, err)
					}
					if dice.IntN(4) == 0 {
						w.kill()
						time.Sleep(70 * time.Second)
						w.start()
					}
				}
				w.settle()
				w.allSent()
				w.end()
				if diff := cmp.Diff(stateless(want), stateless(plainRecords(w.standing))); diff != "" {
					t.Errorf("on record is (-terminal +slack):\n%s", diff)
				}
			})
		})
	}
}

// unsuperseded are the records that stand: words heard in another order leave
// other ones behind.
func unsuperseded(records []bot.Record) []bot.Record {
	gone := map[string]bool{}
	for _, r := range records {
		gone[r.Supersedes] = true
	}
	return slices.DeleteFunc(slices.Clone(records), func(r bot.Record) bool { return gone[r.ID] })
}

// stateless are records without the stages of defects: the shop's words may be
// heard in another order than they were said, and "seen" after "repaired" is no
// stage. The pump's run is left out: it lasts as long as the storm.
func stateless(lines []string) []string {
	lines = slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return strings.Contains(l, "e1-pump.run") })
	for i, l := range lines {
		if strings.HasPrefix(l, "defect ") {
			_, words, _ := strings.Cut(l, `"`)
			lines[i] = "defect " + words
		}
	}
	slices.Sort(lines)
	return lines
}

// brew lets some of the next requests go wrong.
func (w *slackTown) brew(dice *rand.Rand) {
	methods := []string{"chat.postMessage", "chat.postMessage", "chat.update", "conversations.history", "conversations.replies", "users.info"}
	for range dice.IntN(4) {
		faults := []slackdouble.Fault{
			slackdouble.Drop(), slackdouble.CommitAndDrop(), slackdouble.CommitAndGarble(), slackdouble.Status(503), slackdouble.CommitAndStatus(500),
			slackdouble.Limit(time.Duration(1+dice.IntN(20)) * time.Second), slackdouble.LimitBare(), slackdouble.LimitOK(), slackdouble.Refuse("internal_error"),
			slackdouble.Slow(time.Duration(dice.IntN(90)) * time.Second),
		}
		w.Fail(methods[dice.IntN(len(methods))], faults[dice.IntN(len(faults))])
	}
}

// allSent holds that every message that the bot wanted to say was said.
func (w *slackTown) allSent() {
	w.t.Helper()
	shown := map[any]bool{}
	for _, m := range w.Posted() {
		shown[m.Payload["key"]] = true
	}
	sent, err := w.store.Outgoing(w.t.Context())
	if err != nil {
		w.t.Fatal(err)
	}
	for _, o := range sent {
		switch {
		case o.State == outbox.Overtaken:
		case o.State != outbox.Sent:
			w.t.Errorf("%s is %s: %s", o.Message.Key, o.State, o.Reason)
		case o.Message.Edits == "" && !shown[string(o.Message.Key)]:
			w.t.Errorf("%s was sent and does not stand there", o.Message.Key)
		}
	}
}

// TestSlack_archived: a channel that is archived under the bot keeps its own
// messages from being said, and no others; the day after it is back, so are its
// prompts.
func TestSlack_archived(t *testing.T) {
	script := storyOf(t, "morning.story")
	synctest.Test(t, func(t *testing.T) {
		w := newSlackTown(t, beginOf(t, script), everywhere)
		w.start()
		room, _ := w.setup.Dept.Room("room-st2")
		prompts := func() map[string]int {
			n := map[string]int{}
			for _, m := range w.Posted() {
				if key, _ := m.Payload["key"].(string); strings.HasPrefix(key, "prompt/") {
					n[strings.Split(key, "/")[1]]++
				}
			}
			return n
		}
		w.Archive(room.Address)
		w.until(w.clock.Add(time.Minute))
		if n := prompts(); n["E2"] != 0 || n["E1"] != 1 || n["R2"] != 1 {
			t.Errorf("prompts %v", n)
		}
		if refused, err := w.store.Outgoing(t.Context(), outbox.Refused); err != nil || len(refused) == 0 || !strings.Contains(refused[0].Reason, "unarchive it") {
			t.Errorf("refused are %+v, %v", refused, err)
		}
		w.Unarchive(room.Address)
		w.until(w.clock.Add(24 * time.Hour))
		if n := prompts(); n["E2"] != 1 || n["E1"] != 2 {
			t.Errorf("prompts %v", n)
		}
		w.end()
	})
}
