package wording

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
)

// SparesView is where the spares of a kind do most good.
type SparesView struct {
	Kind   string // "power unit"
	Plan   cover.Plan
	Else   cover.Plan // by the other goal, if it was asked for
	Silent cover.Silence
	Name   func(dept.CompanyID) string
}

// Spares tells where the spares go, why in one line, and who then helps whom.
func Spares(v SparesView) []chat.Block {
	switch v.Silent {
	case cover.NoneOut:
		return say("No company is without its " + v.Kind + ". No spare is needed.")
	case cover.NoSpares:
		return say("No spare " + v.Kind + " is free.")
	case cover.Unplaced:
		return say("A company that is out has no station in the department file.")
	case cover.Spoken:
	}
	var rest []string
	rough := false
	for _, h := range v.Plan.Help {
		if h.By != h.Company {
			rest, rough = append(rest, v.help(h)), rough || roughly(h)
		}
	}
	return blocks(block(chat.Body, "Spare "+v.Kind+v.to(v.Plan.At)+".", v.why(), v.instead()), block(chat.List, rest...), estimate(len(rest), rough))
}

func (v SparesView) to(at []dept.CompanyID) string {
	if len(at) == 1 {
		return " to " + tied(v.Name(at[0]))
	}
	var each []string
	for _, id := range at {
		each = append(each, tied("one to "+v.Name(id)))
	}
	return ": " + join(", ", each...)
}

// why is the reason in one line: what the placement does to the drives.
func (v SparesView) why() string {
	before, after := v.Plan.Before, v.Plan.After
	switch {
	case after.Longest == 0:
		return "Then no company is without."
	case math.IsInf(before.Longest, 1):
		return fmt.Sprintf("Nobody else has one: help is then %s away at most (%s).", drive(after.Longest), tied(v.Name(after.Farthest)))
	case v.Plan.Goal == cover.Farthest:
		return fmt.Sprintf("The longest drive of help falls from %s to %s (%s).", minute(before.Longest), drive(after.Longest), tied(v.Name(after.Farthest)))
	}
	return fmt.Sprintf("Help to those without is then %s away on average, was %s; at most %s (%s), was %s.",
		drive(after.Mean), minute(before.Mean), minute(after.Longest), tied(v.Name(after.Farthest)), minute(before.Longest))
}

// instead tells of the other placement, where the choice is not the same.
func (v SparesView) instead() string {
	e := v.Else
	if len(e.At) == 0 || slices.Equal(e.At, v.Plan.At) {
		return ""
	}
	to := strings.TrimPrefix(v.to(e.At), ":")
	if e.Goal == cover.Farthest {
		return fmt.Sprintf("Sent%s instead, the longest drive would be %s (%s).", to, drive(e.After.Longest), tied(v.Name(e.After.Farthest)))
	}
	return fmt.Sprintf("Sent%s instead, the average drive would be %s.", to, drive(e.After.Mean))
}

func (v SparesView) help(h cover.Help) string {
	switch {
	case h.By == "":
		return v.Name(h.Company) + ": nobody"
	case h.Way.Km == 0:
		return fmt.Sprintf("%s: %s, same station", v.Name(h.Company), tied(v.Name(h.By)))
	case roughly(h):
		return fmt.Sprintf("%s: %s in %s, rough", v.Name(h.Company), tied(v.Name(h.By)), drive(h.Minutes))
	}
	return fmt.Sprintf("%s: %s in %s", v.Name(h.Company), tied(v.Name(h.By)), drive(h.Minutes))
}

// roughly leaves out those under one roof, who need no formula.
func roughly(h cover.Help) bool { return h.Way.Rough && h.Way.Km > 0 }

func estimate(drives int, rough bool) chat.Block {
	switch {
	case drives == 0:
		return chat.Block{}
	case rough:
		return block(chat.Hint, "Drives are estimates, no promise; rough where shorter or longer than the formula was tried for.")
	}
	return block(chat.Hint, "Drives are estimates, no promise.")
}

// minute is minutes to the tenth, as the published formula gives them.
func minute(minutes float64) string { return strconv.FormatFloat(minutes, 'f', 1, 64) }

func drive(minutes float64) string { return tied(minute(minutes) + " min") }
