package wording

import (
	"fmt"
	"math"
	"strconv"

	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"crosslay/bot/chat"
	"crosslay/bot/reliability"
)

// ByClock is the clock by which failures are counted, as it is spoken of.
type ByClock string

// A report's figures are hours of the one or of the other; calendar hours are
// said in days.
const (
	EngineHours ByClock = "engine hours"
	Days        ByClock = "days"
)

// ReliabilityView is what is said of how often something fails.
type ReliabilityView struct {
	Name      string // "power unit PU-07", or of a kind "all power units"
	Report    reliability.Report
	Available reliability.Availability // nothing watched: not said
	Clock     ByClock
}

// Reliability tells a chief how often something fails, how sure that is, whether
// it gets worse, and whether it is worse than its fellows. What the data do not
// carry is left out.
func Reliability(v ReliabilityView) []chat.Block {
	lines := []string{mtbf(v.Report.MTBF, v.Report.Trend.Luck, v.Clock), fellows(v.Report.Fellows, v.Clock), trend(v.Report, v.Clock), inService(v.Available)}
	return blocks(block(chat.Title, capital(v.Name)), block(chat.Body, lines...))
}

// mtbf leaves the bounds out where the rate changed: they hold for a constant one.
func mtbf(m reliability.MTBF, trend reliability.Luck, c ByClock) string {
	switch {
	case m.Silent == reliability.NoTime:
		return "Not watched long enough to tell how often it fails."
	case m.Silent != reliability.Spoken:
		return "How often it fails cannot be told: its failures are not all dated."
	case m.Sides == reliability.LowerOnly:
		return fmt.Sprintf("No failure in %s. That shows %s or better (%s).", c.span(m.Count.Hours), c.oneIn(m.Lower), sure(m.Confidence))
	}
	if trend == reliability.MoreThan {
		return fmt.Sprintf("%s in %s: %s over all that time.", times(m.Count.Failures), c.span(m.Count.Hours), c.oneIn(m.Point))
	}
	return fmt.Sprintf("%s in %s: %s, likely between %s and %s (%s).", times(m.Count.Failures), c.span(m.Count.Hours),
		c.oneIn(m.Point), c.oneIn(m.Lower), c.oneIn(m.Upper), sure(m.Confidence))
}

// sure says a confidence as people say odds.
func sure(confidence float64) string {
	if tenths := math.Round(confidence * 10); math.Abs(confidence*10-tenths) < 1e-9 {
		return tied(fmt.Sprintf("%.0f in 10 sure", tenths))
	}
	return tied(fmt.Sprintf("%.0f in 100 sure", confidence*100))
}

// fellows says a difference only with whether it could be luck.
func fellows(f reliability.Comparison, c ByClock) string {
	if f.Silent != reliability.Spoken {
		return ""
	}
	theirs := "none in " + c.span(f.Others.Hours)
	if f.Others.Failures > 0 {
		theirs = c.oneIn(f.Others.Hours / float64(f.Others.Failures))
	}
	switch f.Direction {
	case reliability.Worse:
		return fmt.Sprintf("WORSE than its fellows, more than luck: theirs %s.", theirs)
	case reliability.Better:
		return fmt.Sprintf("Better than its fellows, more than luck: theirs %s.", theirs)
	case reliability.Steady:
	}
	if f.Ratio > 1 {
		return fmt.Sprintf("More often than its fellows (theirs %s), but that could be luck.", theirs)
	}
	return fmt.Sprintf("Not worse than its fellows (theirs %s).", theirs)
}

func trend(r reliability.Report, c ByClock) string {
	if r.Trend.Silent != reliability.Spoken {
		return ""
	}
	switch r.Trend.Direction {
	case reliability.Worse:
		return "GETTING WORSE, more than luck" + now(r.Now, c) + "."
	case reliability.Better:
		return "Getting better, more than luck" + now(r.Now, c) + "."
	case reliability.Steady:
	}
	return "Getting neither better nor worse, as far as can be told."
}

// now is the rate that a trend has come to, for what a single item can be said of.
func now(p reliability.PowerLaw, c ByClock) string {
	if p.Silent != reliability.Spoken {
		return ""
	}
	b := p.Bounds(reliability.Usual)
	return fmt.Sprintf(": now about %s, likely between %s and %s (%s)", c.oneIn(p.MTBF), c.oneIn(b.Lower), c.oneIn(b.Upper), sure(reliability.Usual))
}

func inService(a reliability.Availability) string {
	share, ok := a.Share()
	if !ok {
		return ""
	}
	days := a.Watched.Hours() / 24
	if a.Times == 0 {
		return fmt.Sprintf("In service all of %s.", plural(days, "day", "days"))
	}
	return fmt.Sprintf("In service %s of %s, out %s.", percent(share), plural(days, "day", "days"), plural(float64(a.Times), "time", "times"))
}

// WorstView is which of a kind fails most.
type WorstView struct {
	Kind       string // "power units"
	Worst      string // "PU-03"; "" where none has failed
	Among      int
	Comparison reliability.Comparison
	Clock      ByClock
}

// WorstOf tells which of a kind fails most, and whether that means anything: the
// worst of many looks bad by luck alone.
func WorstOf(v WorstView) []chat.Block {
	c := v.Comparison
	if v.Worst == "" {
		return sayf("None of %d %s has failed while watched.", v.Among, v.Kind)
	}
	mine := fmt.Sprintf("%s in %s.", times(c.Mine.Failures), v.Clock.span(c.Mine.Hours))
	if c.Silent == reliability.NoFellows {
		return say(tied(v.Worst)+": "+mine, "There is no other to compare it with.")
	}
	most := fmt.Sprintf("Of %d %s %s fails most: %s", v.Among, v.Kind, tied(v.Worst), mine)
	others := fmt.Sprintf("The others together: %s in %s.", times(c.Others.Failures), v.Clock.span(c.Others.Hours))
	switch {
	case c.Silent != reliability.Spoken:
		return say(most, others, "Too few failures to tell it from the others.")
	case c.Luck == reliability.MoreThan:
		return say(most, others, "That is MORE THAN LUCK.")
	}
	return say(most, others, "That could be luck: one of them has to be last.")
}

// span is the time watched, in full: "2,100 engine hours", "365 days".
func (c ByClock) span(hours float64) string {
	if c == Days {
		return plural(hours/24, "day", "days")
	}
	return plural(hours, "engine hour", "engine hours")
}

// oneIn is a time between failures; bounds that are known to a tenth are not
// known to a hundredth.
func (c ByClock) oneIn(hours float64) string {
	if c == Days {
		hours /= 24
	}
	return tied("1 in " + approx(hours))
}

// english writes figures with commas for thousands.
var english = message.NewPrinter(language.AmericanEnglish)

// approx is a figure in two digits.
func approx(f float64) string {
	if math.IsInf(f, 1) {
		return "many"
	}
	if f < 10 {
		return trim(strconv.FormatFloat(f, 'f', 1, 64))
	}
	unit := math.Pow(10, math.Floor(math.Log10(f))-1)
	return english.Sprintf("%d", int64(math.Round(f/unit)*unit))
}

func times(n int) string { return plural(float64(n), "failure", "failures") }

func plural(n float64, one, many string) string {
	if s := english.Sprintf("%d", int64(math.Round(n))); s != "1" {
		return tied(s + " " + many)
	}
	return tied("1 " + one)
}

// percent is a share, never rounded up to all of it.
func percent(share float64) string {
	if p := math.Floor(share*1000) / 10; p >= 99 {
		return trim(strconv.FormatFloat(p, 'f', 1, 64)) + "%"
	}
	return strconv.FormatFloat(math.Floor(share*100), 'f', 0, 64) + "%"
}
