package wording

import (
	"fmt"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// Hint tells in full how a check is done: the question, the method, what is in
// limits, and its caution.
func Hint(thing Thing, c *check.Check) []chat.Block {
	in := ""
	if l := limits(c); l != "" {
		in = "In limits: " + l
	}
	how := ""
	if c.Method != "" {
		how = "How: " + c.Method
	}
	return blocks(
		block(chat.Title, join(": ", capital(part(thing, c.Label)), c.Question)),
		block(chat.Hint, how, in),
		block(chat.Safety, c.Caution),
	)
}

// HowTo is the help for a crew: engine is the name of one that it runs, level the
// label of a level that it reads, "" for none.
func HowTo(engine, level string) []chat.Block {
	started, reading := "", ""
	if engine != "" {
		started = fmt.Sprintf(`"started %s", "off",`, engine)
	}
	if level != "" {
		reading = fmt.Sprintf(`, "%s 3/4"`, level)
	}
	return blocks(block(chat.Hint,
		`By number or name: "1-4 ok", "6 low"`+reading+".",
		`"All good" passes no reading: give each figure.`,
		join(" ", started, `"on a run", "back", "undo", "how 4".`),
	))
}

// Nudge tells a crew that an engine has run long enough, and how it is shut down.
func Nudge(thing Thing, ran, limit float64) []chat.Block {
	first := fmt.Sprintf("%s has run %s: shut it down.", thing.first(), minutes(ran))
	if ran < limit {
		first = fmt.Sprintf("%s has run %s, %s at most: shut it down.", thing.first(), minutes(ran), minutes(limit))
	}
	return blocks(
		block(chat.Body, first, "Fuel valve, if any, closed; 15 to 20 seconds; switch off.", `Then say "off".`),
		block(chat.Safety, "Let it cool before topping off."),
	)
}

// LateRun asks about a run whose end came so late that it may have been
// forgotten.
func LateRun(thing Thing, ran float64) []chat.Block {
	return sayf("%s: off after %s? Say how long it ran.", thing.first(), minutes(ran))
}
