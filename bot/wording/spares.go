package wording

import (
	"fmt"
	"math"
	"strconv"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
)

// SparesView is where the spares of a kind do most good.
type SparesView struct {
	Kind   string // "power unit"
	Plan   cover.Plan
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
			rest, rough = append(rest, v.help(h)), rough || h.Rough
		}
	}
	return blocks(block(chat.Body, "Spare "+v.Kind+v.to()+".", v.why()), block(chat.List, rest...), estimate(len(rest), rough))
}

func (v SparesView) to() string {
	if len(v.Plan.At) == 1 {
		return " to " + tied(v.Name(v.Plan.At[0]))
	}
	var each []string
	for _, id := range v.Plan.At {
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

func (v SparesView) help(h cover.Help) string {
	if h.By == "" {
		return v.Name(h.Company) + ": nobody"
	}
	rough := ""
	if h.Rough {
		rough = ", rough"
	}
	return fmt.Sprintf("%s: %s in %s%s", v.Name(h.Company), tied(v.Name(h.By)), drive(h.Minutes), rough)
}

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
