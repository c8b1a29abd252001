// Package nag is the one mechanism of reminders. An obligation is something that
// somebody owes since an instant; a ladder says after how long which audience is
// reminded; Due says, for an instant, which rungs have come and what becomes of
// them. What has been sent is not asked: rungs count from the opening alone, so
// a restart cannot move the ladder.
package nag

import (
	"fmt"
	"time"

	"crosslay/bot/dept"
)

// LadderID names a ladder. The set is closed: each is opened by code of its own.
type LadderID string

// The ladders of a department.
const (
	Unanswered     LadderID = "unanswered"      // checks of a shift that nobody answered
	WarmUp         LadderID = "warm_up"         // an engine without its run this shift
	WarmUpTwice    LadderID = "warm_up_twice"   // none in two shifts in a row
	LowFuel        LadderID = "low_fuel"        // reported low, not topped off
	CrewFix        LadderID = "crew_fix"        // a fault the crew is to fix, not said fixed
	Unseen         LadderID = "unseen"          // a defect that the shop has not seen
	PartsOverdue   LadderID = "parts_overdue"   // the promised day has passed
	ServiceOverdue LadderID = "service_overdue" // the day of an item's service has passed
	OnCall         LadderID = "on_call"         // "on a run", and never came back to it
)

// Ladders lists every ladder, in the order in which files and help show them.
var Ladders = []LadderID{Unanswered, WarmUp, WarmUpTwice, LowFuel, CrewFix, Unseen, PartsOverdue, ServiceOverdue, OnCall}

// InShopTime reports whether the ladder runs in the shop's working time.
func (l LadderID) InShopTime() bool { return l == Unseen || l == PartsOverdue || l == ServiceOverdue }

// Audience is who is reminded.
type Audience string

// The audiences that a rung may have.
const (
	Company  Audience = "company"
	Officers Audience = "officers"
	ShopRoom Audience = "shop"
)

// Rung is one step: After the opening, To an audience.
type Rung struct {
	After time.Duration
	To    Audience
}

// Ladder is rungs in rising order of After.
type Ladder []Rung

// Book is the ladders of a department.
type Book map[LadderID]Ladder

// Obligation is what somebody owes. Key names it for ever and is part of the key
// of each of its reminders.
type Obligation struct {
	Key     string         `json:"key"` // warm_up/e21-pump/2026-03-08/A
	Ladder  LadderID       `json:"ladder"`
	Company dept.CompanyID `json:"company,omitempty"`
	Item    dept.ItemID    `json:"item,omitempty"`
	Check   string         `json:"check,omitempty"`
	Defect  string         `json:"defect,omitempty"`
	Opened  time.Time      `json:"opened"`
	Climbed int            `json:"climbed,omitempty"` // rungs that have been dealt with
}

// Mute is why a rung that was due was not sent.
type Mute string

// The reasons to keep silent.
const (
	Sent         Mute = "" // not muted
	Overtaken    Mute = "overtaken"
	OutOfService Mute = "out_of_service"
	Busy         Mute = "busy"
	QuietHours   Mute = "quiet_hours"
)

// Step is what becomes of one rung.
type Step struct {
	Rung int // from 1
	To   Audience
	Due  time.Time
	Mute Mute
}

// Passing tells the instant at which d has passed since t, on whatever clock the
// ladder runs by.
type Passing func(t time.Time, d time.Duration) time.Time

// Due lists the rungs of the ladder that have come by now and were not dealt
// with before. All but the highest are overtaken; the highest is sent unless
// muted says why not. The caller marks them dealt with by Climb.
func (l Ladder) Due(o Obligation, now time.Time, pass Passing, muted func(Rung) Mute) []Step {
	var steps []Step
	for i := o.Climbed; i < len(l); i++ {
		due := pass(o.Opened, l[i].After)
		if due.After(now) {
			break
		}
		if n := len(steps); n > 0 {
			steps[n-1].Mute = Overtaken
		}
		steps = append(steps, Step{Rung: i + 1, To: l[i].To, Due: due})
	}
	if n := len(steps); n > 0 {
		steps[n-1].Mute = muted(l[steps[n-1].Rung-1])
	}
	return steps
}

// Next is when the next rung comes, if one is left.
func (l Ladder) Next(o Obligation, pass Passing) (time.Time, bool) {
	if o.Climbed >= len(l) {
		return time.Time{}, false
	}
	return pass(o.Opened, l[o.Climbed].After), true
}

// RungKey is the key of a rung's reminder.
func (o Obligation) RungKey(rung int) string { return fmt.Sprintf("nag/%s/%d", o.Key, rung) }

// WallClock is the Passing of ladders that run day and night.
func WallClock(t time.Time, d time.Duration) time.Time { return t.Add(d) }

// Defaults are the ladders of a department whose file names none.
func Defaults() Book {
	return Book{
		Unanswered:     {{45 * time.Minute, Company}, {90 * time.Minute, Company}, {3 * time.Hour, Officers}},
		WarmUp:         {{2 * time.Hour, Company}, {4 * time.Hour, Company}},
		WarmUpTwice:    {{3 * time.Hour, Officers}},
		LowFuel:        {{time.Hour, Company}, {3 * time.Hour, Officers}},
		CrewFix:        {{2 * time.Hour, Company}, {8 * time.Hour, Officers}},
		Unseen:         {{2 * time.Hour, ShopRoom}, {8 * time.Hour, Officers}},
		PartsOverdue:   {{0, ShopRoom}, {8 * time.Hour, Officers}},
		ServiceOverdue: {{0, ShopRoom}, {40 * time.Hour, ShopRoom}, {80 * time.Hour, Officers}},
		OnCall:         {{2 * time.Hour, Company}, {2*time.Hour + 75*time.Minute, Officers}},
	}
}
