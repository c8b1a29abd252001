package wording

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/fluid"
)

// Why a question is asked back, as DoubtView.Why says it. The first ten have the
// words of the reading; the others arise when it is judged.
const (
	WhyWhichItem    = "which_item"
	WhyWhichCheck   = "which_check"
	WhyNoReading    = "no_reading"
	WhyStraddles    = "straddles"
	WhyNotChecked   = "not_checked"
	WhyHedged       = "hedged"
	WhyConflict     = "conflict"
	WhyLeftover     = "leftover"
	WhyToolOpen     = "tool_open"
	WhyAsking       = "asking"
	WhyProviso      = "proviso"
	WhyOffLate      = "off_late"
	WhyWhichCompany = "which_company"
	WhyPouredOpen   = "poured_open"
	WhyFuelHigher   = "fuel_higher"
	WhyFuelLower    = "fuel_lower"
	WhyFuelAgain    = "fuel_again"
)

// DoubtView is one question back. Check is nil where the doubt is about an item
// as a whole, or about which one.
type DoubtView struct {
	N       int
	Thing   Thing
	Check   *check.Check
	Why     string
	Choices []string
	Words   string
	// For a level that does not fit the one before: both, and the minutes run since.
	Now, Was check.Value
	WasAt    time.Time // local
	Ran      float64
	// Overfill is what the tools hold more when open than closed, nothing where it
	// is not known.
	Overfill fluid.Volume
	Closed   check.Value // the level with the tool closed, where it can be reckoned
}

// maxDoubts is how many questions one message asks.
const maxDoubts = 5

// Doubts asks back about everything that was not settled, in one message.
func Doubts(doubts []DoubtView) []chat.Block {
	var texts []string
	for i, d := range doubts {
		if i == maxDoubts {
			texts = append(texts, fmt.Sprintf("and %d more, see the prompt", len(doubts)-maxDoubts))
			break
		}
		texts = append(texts, question(d))
	}
	return blocks(block(chat.List, texts...))
}

// OkToWhat asks what a bare "ok" after a reminder was for; open are the numbers
// of the checks that are still open.
func OkToWhat(open []int) []chat.Block {
	left := ""
	if len(open) > 0 {
		left = "Open: " + ranges(open)
	}
	return say("Heard; nothing is recorded by that.", left, `Say what is ok: "all good", "1-4 ok", or each figure.`)
}

// FixedWhat asks which of several faults was fixed.
func FixedWhat(faults []string) []chat.Block {
	return blocks(block(chat.Body, `Which one is fixed? Say its number or name, as in "`+firstWord(faults)+` fixed".`), block(chat.List, faults...))
}

func firstWord(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	word, _, _ := strings.Cut(lines[0], " ")
	return word
}

func question(d DoubtView) string {
	choices := either(d.Choices)
	switch d.Why {
	case WhyWhichCompany:
		return join(" ", "Which company is this about?", choices)
	case WhyWhichItem:
		return join(" ", capital(join(": ", whichOf(d), "which one?")), choices)
	case WhyWhichCheck:
		return join(" ", about(d)+"what is wrong with it?", choices)
	}
	if d.Check != nil && listsAnswers(d.Check.Answer.Kind) {
		choices = ""
	}
	return join(" ", about(d)+wanted(d), within(choices))
}

// whichOf is what an item is wanted for: the words, or the check.
func whichOf(d DoubtView) string {
	if d.Words == "" && d.Check != nil {
		return d.Check.Label
	}
	return quote(d.Words, 40)
}

// listsAnswers reports whether the plain question of the kind names the answers.
func listsAnswers(k check.AnswerKind) bool {
	return k == check.Gauge || k == check.Choice || k == check.YesNo
}

// about names what a question is about, up to the colon.
func about(d DoubtView) string {
	label := ""
	if d.Check != nil {
		label = d.Check.Label
	}
	number := ""
	if d.N > 0 {
		number = fmt.Sprint(d.N)
	}
	what := tied(join(" ", number, label, within(d.Thing.String())))
	if label == "" {
		what = join(" ", number, d.Thing.first())
	}
	if what == "" {
		return ""
	}
	return what + ": "
}

// wanted is the question itself.
func wanted(d DoubtView) string {
	plain := asks(d.Check)
	switch d.Why {
	case WhyStraddles:
		return side(d.Check)
	case WhyNotChecked:
		return "not checked. Look, then say: " + plain
	case WhyHedged:
		return join(" ", "not sure?", quote(d.Words, 40), "Look again:", plain)
	case WhyConflict:
		return join(" ", "heard both ways.", plain)
	case WhyLeftover:
		if d.Words != "" {
			return quote(d.Words, 40) + ": does that mean this one? " + plain
		}
	case WhyToolOpen:
		return rereads(d)
	case WhyPouredOpen:
		return pouredOpen(d)
	case WhyProviso:
		if d.Check != nil && d.Check.Proviso != "" {
			return join(" ", capital(d.Check.Proviso), noFilling(d.Check))
		}
	case WhyFuelHigher:
		return fmt.Sprintf("%s now, %s on %s. Filled since? Yes, or look again.", figure1(d, d.Now), figure1(d, d.Was), moment(d.WasAt))
	case WhyFuelLower:
		return fmt.Sprintf("%s now, %s on %s, %s run since. Used or drained? Yes, or look for a leak and read again.",
			figure1(d, d.Now), figure1(d, d.Was), moment(d.WasAt), minutes(d.Ran))
	case WhyFuelAgain:
		return "look again. " + capital(plain)
	case WhyOffLate:
		return join(" ", "a long run.", quote(d.Words, 40), "How many minutes did it run?")
	}
	return plain
}

func figure1(d DoubtView, v check.Value) string {
	if d.Check == nil {
		return ""
	}
	return tied(Figure(d.Check, v))
}

// rereads asks for a second reading where the first was taken in the wrong
// position: with the tool open the oil stands in the tool, and filled up then it
// overflows when the tool closes.
func rereads(d DoubtView) string {
	c := d.Check
	if c == nil || c.Use == check.UseFluid {
		return join(" ", "read with the tool open.", closedLevel(d), holds(d.Overfill),
			"Close it until the tips are about 1/4 inch apart, read again. Add no fluid before.")
	}
	if c.Proviso == "" {
		return asks(c)
	}
	return join(" ", "read it again when this holds:", c.Proviso)
}

// closedLevel tells what the level would be with the tool closed: it is reckoned for
// a tool that is fully open, and is not recorded.
func closedLevel(d DoubtView) string {
	switch {
	case d.Closed.Number == nil:
		return ""
	case *d.Closed.Number > 1:
		return "Closed, it would stand over the upper mark."
	}
	return "Closed, it would stand near " + Level(*d.Closed.Number) + " at most."
}

// holds warns of filling up with the tool open, with the volume.
func holds(v fluid.Volume) string {
	if !(v.Amount > 0) {
		return ""
	}
	return "Open, the tool holds up to " + volume(v) + " more: filled up now, that much comes out at the cap when it closes."
}

func pouredOpen(d DoubtView) string {
	much := "what was too much"
	if d.Overfill.Amount > 0 {
		much = "up to " + volume(d.Overfill)
	}
	return "filled with the tool open: " + much + " comes out at the cap when it closes. That is no leak. Close it slowly, wipe up, read again."
}

func noFilling(c *check.Check) string {
	if c.Use == check.UseFluid {
		return "Add no fluid before."
	}
	return ""
}

// asks is the plain question of a check, by its kind of answer.
func asks(c *check.Check) string {
	if c == nil {
		return "ok, or what is wrong?"
	}
	switch c.Answer.Kind {
	case check.Level:
		return "how full? (like 3/4)"
	case check.Gauge:
		return "low, ok or over?"
	case check.Number:
		return join(" ", "what is the reading,", unitName(c.Answer.Unit)) + "?"
	case check.Run:
		return "how many minutes?"
	case check.Choice:
		return "which? " + either(optionNames(c.Answer.Choices))
	case check.DateAhead:
		return "what date is on it? (like 2027-03)"
	case check.Photo:
		return "send a photo."
	case check.Text:
		return "what do you read?"
	case check.YesNo:
		if c.Question != "" {
			return c.Question + " Yes or no"
		}
		return "yes or no?"
	case check.Condition:
	}
	return "ok, or what is wrong?"
}

func unitName(u check.Unit) string {
	if u == "" || u == "count" {
		return "as a number"
	}
	if u == "in" {
		return "in inches"
	}
	return withUnit("in", u)
}

func optionNames(options []check.Option) []string {
	var names []string
	for _, o := range options {
		names = append(names, o.Name)
	}
	return names
}

// side asks on which side of a limit a reading lies.
func side(c *check.Check) string {
	switch {
	case c == nil:
	case c.Answer.Min != nil && c.Answer.Max != nil:
	case c.Answer.Min != nil:
		return limits(c) + ", or under?"
	case c.Answer.Max != nil:
		return limits(c) + ", or over?"
	}
	return asks(c)
}

// PhotoOf asks what a photo shows, or which of the items that its caption may mean.
func PhotoOf(things []Thing, caption string) []chat.Block {
	switch len(things) {
	case 0:
		return Lines("Photo kept. What does it show?", []string{"Say the item and what is wrong with it."})
	case 1:
		return sayf("Photo kept. What is wrong with %s?", things[0])
	}
	var names []string
	for _, t := range things {
		names = append(names, t.String())
	}
	return say(join(" ", "Photo kept:", quote(caption, 40)), join(" ", "Which one?", either(names)))
}
