package nag_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/dept"
	"crosslay/bot/nag"
)

var opened = time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC) // a Monday

func loud(nag.Rung) nag.Mute { return nag.Sent }

// climb deals with the steps as the caller must: they do not come again.
func climb(o nag.Obligation, steps []nag.Step) nag.Obligation {
	for _, s := range steps {
		o.Climbed = max(o.Climbed, s.Rung)
	}
	return o
}

// rungs is what went out, by number.
func rungs(steps []nag.Step) (sent, overtaken []int) {
	for _, s := range steps {
		switch s.Mute {
		case nag.Sent:
			sent = append(sent, s.Rung)
		case nag.Overtaken:
			overtaken = append(overtaken, s.Rung)
		case nag.OutOfService, nag.Busy, nag.QuietHours:
		}
	}
	return sent, overtaken
}

func TestDue(t *testing.T) {
	l := nag.Ladder{{After: 45 * time.Minute, To: nag.Company}, {After: 90 * time.Minute, To: nag.Company}, {After: 3 * time.Hour, To: nag.Officers}}
	tests := []struct {
		name            string
		after           time.Duration
		climbed         int
		sent, overtaken []int
	}{
		{"before_the_first", 44 * time.Minute, 0, nil, nil},
		{"at_the_first", 45 * time.Minute, 0, []int{1}, nil},
		{"again_a_minute_later", 46 * time.Minute, 1, nil, nil},
		{"at_the_second", 90 * time.Minute, 1, []int{2}, nil},
		{"at_the_last", 3 * time.Hour, 2, []int{3}, nil},
		{"after_the_last", 30 * time.Hour, 3, nil, nil},
		{"outage_over_two", 2 * time.Hour, 0, []int{2}, []int{1}},
		{"outage_over_all", 30 * time.Hour, 0, []int{3}, []int{1, 2}},
		{"outage_after_the_first", 30 * time.Hour, 1, []int{3}, []int{2}},
		{"clock_set_back", -time.Hour, 0, nil, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := nag.Obligation{Opened: opened, Climbed: tt.climbed}
			sent, overtaken := rungs(l.Due(o, opened.Add(tt.after), nag.WallClock, loud))
			if !slices.Equal(sent, tt.sent) || !slices.Equal(overtaken, tt.overtaken) {
				t.Errorf("sent %v, overtaken %v; want %v, %v", sent, overtaken, tt.sent, tt.overtaken)
			}
		})
	}
}

func TestStepTellsItsRung(t *testing.T) {
	l := nag.Defaults()[nag.Unanswered]
	steps := l.Due(nag.Obligation{Opened: opened}, opened.Add(4*time.Hour), nag.WallClock, loud)
	last := steps[len(steps)-1]
	if last.To != nag.Officers || !last.Due.Equal(opened.Add(3*time.Hour)) || last.Rung != 3 {
		t.Errorf("%+v", last)
	}
}

// A muted rung is dealt with, with its reason; an overtaken one stays overtaken
// whatever mutes. The mute is asked about the highest alone.
func TestMuted(t *testing.T) {
	l := nag.Defaults()[nag.Unanswered]
	for _, why := range []nag.Mute{nag.OutOfService, nag.Busy, nag.QuietHours} {
		var asked []nag.Rung
		steps := l.Due(nag.Obligation{Opened: opened}, opened.Add(2*time.Hour), nag.WallClock, func(r nag.Rung) nag.Mute {
			asked = append(asked, r)
			return why
		})
		if len(steps) != 2 || steps[0].Mute != nag.Overtaken || steps[1].Mute != why {
			t.Errorf("%s: %+v", why, steps)
		}
		if len(asked) != 1 || asked[0] != l[1] {
			t.Errorf("%s: asked about %v", why, asked)
		}
	}
}

func drawLadder(r *rapid.T) nag.Ladder {
	var l nag.Ladder
	after := time.Duration(0)
	for range rapid.IntRange(0, 6).Draw(r, "rungs") {
		after += time.Duration(rapid.IntRange(0, 300).Draw(r, "gap")) * time.Minute
		l = append(l, nag.Rung{After: after, To: rapid.SampledFrom([]nag.Audience{nag.Company, nag.Officers, nag.ShopRoom}).Draw(r, "to")})
	}
	return l
}

// However ticks fall, with outages between them and mutes at whim: no rung comes
// twice, none comes early or out of order, at most one goes out a tick, and it is
// the highest that is due. In the end every rung was dealt with.
func TestNoRungTwice(t *testing.T) {
	hours := dept.Hours{
		Days: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday},
		Span: dept.Span{From: 7 * 60, To: 16 * 60},
	}
	shop := func(t time.Time, d time.Duration) time.Time { return hours.Add(t, d, time.UTC) }
	rapid.Check(t, func(r *rapid.T) {
		l := drawLadder(r)
		pass := rapid.SampledFrom([]nag.Passing{nag.WallClock, shop}).Draw(r, "passing")
		o := nag.Obligation{Opened: opened}
		seen := 0
		now := opened
		tick := func() {
			steps := l.Due(o, now, pass, func(nag.Rung) nag.Mute {
				return rapid.SampledFrom([]nag.Mute{nag.Sent, nag.Sent, nag.Busy, nag.QuietHours}).Draw(r, "mute")
			})
			for i, s := range steps {
				seen++
				if s.Rung != seen {
					r.Fatalf("rung %d came where %d was next", s.Rung, seen)
				}
				if s.Due.After(now) {
					r.Fatalf("rung %d, due %v, came at %v", s.Rung, s.Due, now)
				}
				if last := i == len(steps)-1; (s.Mute == nag.Overtaken) == last {
					r.Fatalf("%+v of %d steps", s, len(steps))
				}
			}
			if seen < len(l) && !pass(opened, l[seen].After).After(now) {
				r.Fatalf("rung %d is due at %v and did not come", seen+1, now)
			}
			o = climb(o, steps)
		}
		for range rapid.IntRange(0, 12).Draw(r, "ticks") {
			now = now.Add(time.Duration(rapid.IntRange(0, 600).Draw(r, "wait")) * time.Minute)
			tick()
		}
		now = now.Add(90 * 24 * time.Hour)
		tick()
		if seen != len(l) {
			r.Fatalf("%d of %d rungs came", seen, len(l))
		}
	})
}

// A restart is a second asking with what was stored; it may not move the ladder.
func TestRestartMovesNothing(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		l := drawLadder(r)
		now := opened.Add(time.Duration(rapid.IntRange(0, 3000).Draw(r, "now")) * time.Minute)
		o := nag.Obligation{Opened: opened}
		first, second := l.Due(o, now, nag.WallClock, loud), l.Due(o, now, nag.WallClock, loud)
		if !slices.Equal(first, second) {
			r.Fatalf("%+v, after a restart %+v", first, second)
		}
		o = climb(o, first)
		if again := l.Due(o, now, nag.WallClock, loud); len(again) != 0 {
			r.Fatalf("came again: %+v", again)
		}
		if at, left := l.Next(o, nag.WallClock); left != (o.Climbed < len(l)) || left && !at.Equal(opened.Add(l[o.Climbed].After)) {
			r.Fatalf("next at %v, %v", at, left)
		}
	})
}

// The shop's ladders run in its working time: reported Friday at 15:00, two
// hours have passed on Monday at 08:00, clocks changed in between or not.
func TestShopHours(t *testing.T) {
	z, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	hours := dept.Hours{
		Days: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday},
		Span: dept.Span{From: 7 * 60, To: 16 * 60},
	}
	pass := func(t time.Time, d time.Duration) time.Time { return hours.Add(t, d, z) }
	l := nag.Defaults()[nag.Unseen]
	o := nag.Obligation{Ladder: nag.Unseen, Opened: time.Date(2026, 3, 6, 15, 0, 0, 0, z)}
	for _, tt := range []struct {
		at   time.Time
		want int
	}{
		{time.Date(2026, 3, 6, 23, 0, 0, 0, z), 0},
		{time.Date(2026, 3, 8, 12, 0, 0, 0, z), 0},
		{time.Date(2026, 3, 9, 7, 59, 0, 0, z), 0},
		{time.Date(2026, 3, 9, 8, 0, 0, 0, z), 1},
		{time.Date(2026, 3, 9, 13, 59, 0, 0, z), 1},
		{time.Date(2026, 3, 9, 14, 0, 0, 0, z), 2},
	} {
		if got := len(l.Due(o, tt.at, pass, loud)); got != tt.want {
			t.Errorf("%v: %d rungs, want %d", tt.at, got, tt.want)
		}
	}
	for _, id := range nag.Ladders {
		if want := id == nag.Unseen || id == nag.PartsOverdue || id == nag.ServiceOverdue; id.InShopTime() != want {
			t.Errorf("%s in shop time: %v", id, id.InShopTime())
		}
	}
}

// The default ladders are whole: one for each id, rungs in rising order, and
// the figures that the rulings fix.
func TestDefaults(t *testing.T) {
	book := nag.Defaults()
	if len(book) != len(nag.Ladders) {
		t.Errorf("%d ladders, want %d", len(book), len(nag.Ladders))
	}
	for _, id := range nag.Ladders {
		l := book[id]
		if len(l) == 0 {
			t.Errorf("%s has no rung", id)
		}
		if !slices.IsSortedFunc(l, func(a, b nag.Rung) int { return int(a.After - b.After) }) {
			t.Errorf("%s does not rise: %v", id, l)
		}
	}
	call := book[nag.OnCall]
	if len(call) != 2 || call[0] != (nag.Rung{After: 2 * time.Hour, To: nag.Company}) || call[1] != (nag.Rung{After: 195 * time.Minute, To: nag.Officers}) {
		t.Errorf("on a call: the company after two hours, the officers 75 minutes later; got %v", call)
	}
	if twice := book[nag.WarmUpTwice]; twice[0].After != 3*time.Hour {
		t.Errorf("two shifts in a row are judged three hours into the second, not %v", twice[0].After)
	}
}

// The form of a reminder's key is stored for years and must not change.
func TestRungKey(t *testing.T) {
	o := nag.Obligation{Key: "warm_up/e21-pump/2026-03-08/A"}
	if got := o.RungKey(2); got != "nag/warm_up/e21-pump/2026-03-08/A/2" {
		t.Errorf("the key is %s", got)
	}
}
