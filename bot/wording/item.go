package wording

import (
	"fmt"
	"strings"

	"crosslay/bot/check"
)

// itemLines is one item of a prompt. An item whose checks all have a result
// shrinks to one line and its faults; packed puts several checks on a line and
// leaves the methods out.
func itemLines(it PromptItem, packed bool) []string {
	if settled(it) {
		return settledLines(it)
	}
	lines := []string{clip(header(it), Width)}
	if packed {
		return append(lines, pack(it.Checks)...)
	}
	for _, c := range it.Checks {
		lines = append(lines, clip(checkLine(c), Width))
	}
	return lines
}

// settled reports whether every check of the item passed or failed: nothing is
// open, nothing unsure.
func settled(it PromptItem) bool {
	for _, c := range it.Checks {
		if c.State != check.OK && c.State != check.Fail {
			return false
		}
	}
	return len(it.Checks) > 0
}

func settledLines(it PromptItem) []string {
	var ok, fixed []int
	var faults []string
	for _, c := range it.Checks {
		if c.State == check.Fail {
			faults = append(faults, clip(checkLine(c), Width))
			continue
		}
		ok = append(ok, c.N)
		if c.Fixed {
			fixed = append(fixed, c.N)
		}
	}
	said := ""
	if len(ok) > 0 {
		said = ranges(ok) + " ok"
	}
	if len(fixed) > 0 {
		said += ", fixed: " + ranges(fixed)
	}
	if said == "" {
		return append([]string{clip(header(it), Width)}, faults...)
	}
	return append(wrap(it.Thing.first()+": "+said), faults...)
}

// header is the item's own line: "Saw S-01 · officer side 2".
func header(it PromptItem) string {
	spare := ""
	if it.StandsIn != "" {
		spare = "stands in for " + it.StandsIn
	}
	return join(" · ", it.Thing.first(), spare, it.Thing.Place)
}

// checkLine is a numbered line: what to look at, or what was said.
func checkLine(c PromptCheck) string {
	said := result(c)
	if c.State == check.Open {
		said = asked(c)
	}
	return join(": ", fmt.Sprintf("%d %s", c.N, c.Check.Label), said)
}

func asked(c PromptCheck) string {
	how := c.Check.Method
	if how == "" {
		how = join("; ", form(c.Check), c.Check.Question)
	}
	if c.Check.Answer.Kind == check.Run {
		how = join("; ", limits(c.Check), how)
	}
	if c.Confirm {
		how = join("; ", "was repaired, look at it", how)
	}
	return how
}

// form is how a figure is written where no method says it: its unit and limits, or
// what a date looks like.
func form(c *check.Check) string {
	switch c.Answer.Kind {
	case check.Number:
		if l := limits(c); l != "" {
			return l
		}
		return unitName(c.Answer.Unit)
	case check.DateAhead:
		return "month and year, like 2027-03"
	case check.Condition, check.YesNo, check.Level, check.Gauge, check.Run, check.Choice, check.Text, check.Photo:
	}
	return ""
}

func result(c PromptCheck) string {
	switch c.State {
	case check.OK:
		return passed(c.Check, c.Value, c.Fixed)
	case check.Fail:
		return failed(c.Check, c.Value, c.Damage)
	case check.Unsure:
		return "? not settled, asked back"
	case check.Open:
	}
	return ""
}

// pack puts as many checks on a line as fit. Numbers and labels stay whole:
// they are what the crew answers to.
func pack(checks []PromptCheck) []string {
	var lines []string
	line := ""
	for _, c := range checks {
		entry := clip(strings.TrimSpace(join(": ", fmt.Sprintf("%d %s", c.N, c.Check.Label), short(c))), Width)
		if line != "" && size(line)+3+size(entry) <= Width {
			line += " · " + entry
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = entry
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

func short(c PromptCheck) string {
	switch {
	case c.State != check.Open:
		return result(c)
	case c.Confirm:
		return "was repaired"
	case c.Check.Answer.Kind == check.Run:
		return limits(c.Check)
	}
	return ""
}
