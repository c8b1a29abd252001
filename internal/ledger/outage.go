package ledger

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/dept"
)

// Outage is a span in which an item was out of service. To is zero while it
// lasts. From is zero where the records begin after it.
type Outage struct {
	Item     dept.ItemID
	From, To time.Time
	Why      string // with the check that it is about, if the records tell
	By, Back string // who took it out, who put it back
	message  string // that took it out
}

// Holds reports whether the item was out at t.
func (o Outage) Holds(t time.Time) bool {
	return !t.Before(o.From) && (o.To.IsZero() || t.Before(o.To))
}

// Meets reports whether the outage and the span from, to have an instant in
// common.
func (o Outage) Meets(from, to time.Time) bool {
	return o.From.Before(to) && (o.To.IsZero() || o.To.After(from))
}

// Within is how much of the span from, to the outage takes up.
func (o Outage) Within(from, to time.Time) time.Duration {
	if o.From.After(from) {
		from = o.From
	}
	if !o.To.IsZero() && o.To.Before(to) {
		to = o.To
	}
	return max(to.Sub(from), 0)
}

func outages(lines []Line) []Outage {
	var list []Outage
	open := map[dept.ItemID]int{}
	for _, l := range lines {
		if l.Kind != bot.OnService {
			continue
		}
		i, out := open[l.Item]
		switch {
		case l.State == "out_of_service" && !out:
			open[l.Item] = len(list)
			list = append(list, Outage{Item: l.Item, From: l.At, Why: l.Note, By: l.Who, message: l.Message})
		case l.State == "in_service" && out:
			list[i].To, list[i].Back = l.At, l.Who
			delete(open, l.Item)
		case l.State == "in_service":
			list = append(list, Outage{Item: l.Item, To: l.At, Back: l.Who})
		}
	}
	slices.SortStableFunc(list, func(a, b Outage) int { return a.From.Compare(b.From) })
	return list
}

// OutAt finds the outage that holds of an item at t.
func (b *Book) OutAt(id dept.ItemID, t time.Time) (Outage, bool) {
	i := slices.IndexFunc(b.Outages, func(o Outage) bool { return o.Item == id && o.Holds(t) })
	if i < 0 {
		return Outage{}, false
	}
	return b.Outages[i], true
}

// StandIn is a spare in the place of an item. To is zero while it lasts.
type StandIn struct {
	Spare, For dept.ItemID
	Company    dept.CompanyID
	From, To   time.Time
}

func standIns(lines []Line) []StandIn {
	var list []StandIn
	end := func(at time.Time, match func(StandIn) bool) {
		for i := range list {
			if list[i].To.IsZero() && match(list[i]) {
				list[i].To = at
			}
		}
	}
	for _, l := range lines {
		item, placed := strings.CutPrefix(l.Note, "for ")
		switch {
		case l.Kind != bot.OnService:
		case l.State == "placed" && placed:
			target := dept.ItemID(item)
			end(l.At, func(s StandIn) bool { return s.Spare == l.Item || s.For == target })
			list = append(list, StandIn{Spare: l.Item, For: target, Company: l.Company, From: l.At})
		case l.State == "taken_back":
			end(l.At, func(s StandIn) bool { return s.Spare == l.Item })
		}
	}
	return list
}

// CarriedAt lists what a company carries at t: its items by the file, and behind
// each the spare that stands in for it.
func (b *Book) CarriedAt(c dept.CompanyID, t time.Time) []dept.ItemID {
	var ids []dept.ItemID
	for _, it := range b.Setup.Dept.Carried(c) {
		ids = append(ids, it.ID)
		for _, s := range b.Spares {
			if s.For == it.ID && !t.Before(s.From) && (s.To.IsZero() || t.Before(s.To)) {
				ids = append(ids, s.Spare)
			}
		}
	}
	return ids
}

// Days writes how long something was: in days with a tenth, which every picture
// and record has alike; in hours below a tenth.
func Days(d time.Duration) string {
	days := d.Hours() / 24
	switch text := strconv.FormatFloat(days, 'f', 1, 64); {
	case days > 0 && days < 0.1:
		return fmt.Sprintf("%.1f hours", d.Hours())
	case text == "1.0":
		return "1.0 day"
	default:
		return text + " days"
	}
}
