package wording

import (
	"fmt"
	"math"

	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/bot/service"
)

// ServiceView is when an item falls due at the shop.
type ServiceView struct {
	Thing   Thing
	Company string
	Due     service.Due
	When    service.When
}

// WeekAhead is the shop's list of what is overdue and falls due in the days to
// come.
func WeekAhead(all []ServiceView) []chat.Block {
	var lines []string
	for _, v := range all {
		lines = append(lines, dueLine(v))
	}
	if len(lines) == 0 {
		return say("No service is overdue or falls due within a week.")
	}
	return blocks(block(chat.Title, "Service: overdue and due within a week"), block(chat.List, lines...),
		block(chat.Hint, `When it is done: "`+all[0].Thing.Number+` serviced".`))
}

func dueLine(v ServiceView) string {
	what := join(", ", tied(v.Thing.String()), tied(v.Company))
	switch v.When {
	case service.Overdue:
		return fmt.Sprintf("OVERDUE %s: %s %s", plural(float64(v.Due.Overdue), "day", "days"), what, within(by(v.Due)))
	case service.Maybe:
		return fmt.Sprintf("%s, perhaps from %s: %s %s", DateWords(v.Due.Date), DateWords(v.Due.Early), what, within(by(v.Due)))
	case service.Today, service.ThisWeek, service.Later, service.Unknown:
	}
	return fmt.Sprintf("%s: %s %s", DateWords(v.Due.Date), what, within(by(v.Due)))
}

// by is what an item is due by, with the hours that are left.
func by(d service.Due) string {
	if d.By != service.Hours {
		return "by calendar"
	}
	if d.HoursLeft <= 0 {
		return "engine hours used up"
	}
	return figureOf(d.HoursLeft) + " engine hours left"
}

func figureOf(f float64) string { return trim(fmt.Sprintf("%.1f", f)) }

// NextService is one line about an item's service; "" where its sheet asks for
// none.
func NextService(d service.Due) string {
	switch d.Silent {
	case service.NoRule:
		return ""
	case service.Spoken:
	case service.NoStart, service.LittleUse, service.Unused:
		left := ""
		if !math.IsNaN(d.HoursLeft) {
			left = ", " + figureOf(d.HoursLeft) + " engine hours left"
		}
		return "Service: no day can be told, " + string(d.Silent) + left
	}
	if d.Overdue > 0 {
		return fmt.Sprintf("Service OVERDUE since %s %s", DateWords(d.Date), within(by(d)))
	}
	if d.Certain() {
		return join(", ", fmt.Sprintf("Service due %s %s", DateWords(d.Date), within(by(d))), lacks(d))
	}
	between := "not before " + DateWords(d.Early)
	if !d.Late.IsZero() {
		between = "between " + DateWords(d.Early) + " and " + DateWords(d.Late)
	}
	return fmt.Sprintf("Service likely %s, %s %s", DateWords(d.Date), between, within(by(d)))
}

// LateService is an item under a title that says it is overdue.
func LateService(thing Thing, d service.Due) string {
	return fmt.Sprintf("%s, since %s %s", thing, DateWords(d.Date), within(by(d)))
}

// lacks says that it may fall due sooner by a rule that could not be reckoned with.
func lacks(d service.Due) string {
	if d.Lacks == service.Spoken || math.IsNaN(d.HoursLeft) {
		return ""
	}
	return "or sooner by hours: " + figureOf(d.HoursLeft) + " left"
}

// DateWords is a day with its year: services lie far ahead.
func DateWords(d dept.Date) string {
	return tied(fmt.Sprintf("%s %d, %d", d.Month.String()[:3], d.Day, d.Year))
}

// WhenServiced asks for words about a service that can be recorded.
func WhenServiced(thing Thing) []chat.Block {
	return say("Nothing is recorded of "+thing.String()+".", `When its service is done: "`+thing.Number+` serviced", or "`+thing.Number+` serviced yesterday".`)
}

// Serviced says back that an item has had its service.
func Serviced(thing Thing, hours float64, engine bool, next service.Due) []chat.Block {
	at := ""
	if engine {
		at = " at " + figureOf(hours) + " engine hours"
	}
	return say("Noted: "+thing.String()+" serviced"+at+".", NextService(next))
}
