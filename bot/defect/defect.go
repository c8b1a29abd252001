// Package defect knows the life of a defect: reported, seen, waiting for parts or
// at the shop or a spare placed, repaired, back in service, confirmed by the next
// check. Whether a report joins an open defect, reopens one or starts anew is
// decided here, without looking at a store or a clock.
package defect

import (
	"slices"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// ID names a defect for ever: the check it is about and the shift's date.
type ID string

// Defect is one fault that the shop has to do with. Waiting for parts, at the
// shop and spare placed are separate facts that may hold together.
type Defect struct {
	ID       ID             `json:"id"`
	Ref      check.Ref      `json:"ref"`
	Kind     dept.KindID    `json:"kind"`
	Company  dept.CompanyID `json:"company"`
	Act      check.Act      `json:"act"` // the gravest so far
	Damage   string         `json:"damage,omitempty"`
	Reports  []Report       `json:"reports"`
	Reported time.Time      `json:"reported"`
	Seen     time.Time      `json:"seen,omitzero"`
	Parts    bool           `json:"parts,omitempty"`
	Until    time.Time      `json:"until,omitzero"` // end of the working day promised
	AtShop   bool           `json:"at_shop,omitempty"`
	Wanted   bool           `json:"wanted,omitempty"` // to be brought to the shop
	Spare    dept.ItemID    `json:"spare,omitempty"`
	Repaired time.Time      `json:"repaired,omitzero"`
	Returned time.Time      `json:"returned,omitzero"`
	Closed   time.Time      `json:"closed,omitzero"` // confirmed, or not a fault
	How      Ending         `json:"how,omitempty"`
	Reopened int            `json:"reopened,omitempty"`
	Fleet    bool           `json:"fleet,omitempty"` // the fleet matter was said
}

// Ending is how a defect ended.
type Ending string

// The endings.
const (
	Confirmed Ending = "confirmed"
	NotAFault Ending = "not_a_fault"
)

// Report is one person's word about the fault.
type Report struct {
	Event  string    `json:"event"` // of the message
	Who    string    `json:"who"`
	Words  string    `json:"words"`
	At     time.Time `json:"at"`
	Pics   int       `json:"pics,omitempty"`
	Undone bool      `json:"undone,omitempty"`
}

// State is the stage of a defect's life, as a word.
type State string

// The stages, in order.
const (
	Reported State = "reported"
	Seen     State = "seen"
	Repaired State = "repaired"
	Returned State = "returned"
	Closed   State = "closed"
)

// State is the stage that the defect has reached.
func (d Defect) State() State {
	switch {
	case !d.Closed.IsZero():
		return Closed
	case !d.Returned.IsZero():
		return Returned
	case !d.Repaired.IsZero():
		return Repaired
	case !d.Seen.IsZero():
		return Seen
	}
	return Reported
}

// Open reports whether the shop still has to do with it: until it is repaired.
func (d Defect) Open() bool {
	s := d.State()
	return s == Reported || s == Seen
}

// AwaitsCheck reports whether a repair waits for the next check to confirm it.
func (d Defect) AwaitsCheck() bool {
	s := d.State()
	return s == Repaired || s == Returned
}

// Said finds the report that r says again: the same message, edited, or the same
// words of the same person. It is -1 if r is new.
func (d Defect) Said(r Report) int {
	return slices.IndexFunc(d.Reports, func(have Report) bool {
		return have.Event == r.Event || have.Who == r.Who && strings.EqualFold(strings.TrimSpace(have.Words), strings.TrimSpace(r.Words))
	})
}

// ReopenDays is how long after a repair the same fault is the same defect,
// inclusive.
const ReopenDays = 30

// Fate is what becomes of a new report of a fault.
type Fate string

// The fates.
const (
	Begins  Fate = "begins"
	Joins   Fate = "joins"
	Reopens Fate = "reopens"
)

// days counts calendar days from a to b, in the zone of b.
func days(a, b time.Time) int {
	return dept.DateOf(b).DaysSince(dept.DateOf(a.In(b.Location())))
}

// Match finds the defect among known that a fault of ref, reported at t, belongs
// to. Same fault is same item and same check; days are those of t's zone.
func Match(known []*Defect, ref check.Ref, t time.Time) (Fate, *Defect) {
	var recent *Defect
	for _, d := range known {
		if d.Ref != ref {
			continue
		}
		if d.Open() {
			return Joins, d
		}
		if d.How == NotAFault || d.Repaired.IsZero() || days(d.Repaired, t) > ReopenDays {
			continue
		}
		if recent == nil || d.Repaired.After(recent.Repaired) {
			recent = d
		}
	}
	if recent != nil {
		return Reopens, recent
	}
	return Begins, nil
}

// Reopen takes a repaired defect back to the start of its life; what had been
// reported stays.
func (d *Defect) Reopen() {
	d.Reopened++
	d.Seen, d.Repaired, d.Returned, d.Closed = time.Time{}, time.Time{}, time.Time{}, time.Time{}
	d.Until, d.Parts, d.Wanted, d.AtShop, d.How = time.Time{}, false, false, false, ""
}

// FleetCount and FleetDays make a fleet matter: so many different items of a
// kind with the same check at fault within so many days.
const (
	FleetCount = 3
	FleetDays  = 30
)

// FleetItems lists the different items of the kind with a fault of the check
// reported since the start of the window that ends at t; withdrawn and unfounded
// reports do not count.
func FleetItems(known []*Defect, kind dept.KindID, id check.ID, t time.Time) []dept.ItemID {
	since := t.AddDate(0, 0, -FleetDays)
	seen := map[dept.ItemID]bool{}
	var items []dept.ItemID
	for _, d := range known {
		if d.Kind != kind || d.Ref.Check != id || d.How == NotAFault || d.Last().Before(since) || seen[d.Ref.Item] {
			continue
		}
		seen[d.Ref.Item] = true
		items = append(items, d.Ref.Item)
	}
	return items
}

// Last is when the fault was last reported.
func (d Defect) Last() time.Time {
	if n := len(d.Reports); n > 0 {
		return d.Reports[n-1].At
	}
	return d.Reported
}
