package wording

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/nag"
)

// NagView is what a reminder is about. Times are local.
type NagView struct {
	Ladder   nag.LadderID
	Rung     int
	Company  string
	Thing    Thing
	Also     []Thing // further engines that owe the same
	Label    string
	Missing  []string
	Since    time.Time
	Level    string
	Until    time.Time
	Audience nag.Audience
}

// Nag reminds those who owe something, or tells those above them.
func Nag(v NagView) []chat.Block {
	switch v.Ladder {
	case nag.Unanswered:
		return say(to(v, "checks still open, asked "+when(v)+"."), missing(v))
	case nag.WarmUp:
		return noRun(v)
	case nag.WarmUpTwice:
		return blocks(block(chat.Body, "NO RUN IN TWO SHIFTS: "+join(", ", things(v), v.Company)+"."),
			ours(v, block(chat.Body, `Start `+them(v)+` now, then say "started".`)), ours(v, outdoors()))
	case nag.LowFuel:
		return lowFuel(v)
	case nag.CrewFix:
		return say(subject(v, "fault"+since(v)+", not said fixed."), ourText(v, `Crew fixes it. Then say "fixed".`))
	case nag.Unseen:
		return say(subject(v, "reported "+when(v)+", not seen by the shop."), shopText(v, `Say "seen" in its thread.`))
	case nag.PartsOverdue:
		return say(subject(v, "parts were promised until "+day(v.Until)+"."), shopText(v, "Say a new day, or what became of it."))
	case nag.ServiceOverdue:
		return say(join(" ", "Service overdue: "+things(v)+"."), shopText(v, `When it is done, say "`+v.Thing.Number+` serviced".`))
	case nag.OnCall:
		return say(to(v, "away on a run")+since(v)+", checks still open.", missing(v), ourText(v, `Say "back" when you are.`))
	}
	return say(subject(v, string(v.Ladder)) + since(v) + ".")
}

// Escalations tells the officers what is owed at the same instant: one matter as
// it is, several as a list with a line for each company.
func Escalations(all []NagView, now time.Time) []chat.Block {
	if len(all) == 1 {
		return Nag(all[0])
	}
	var lines []string
	for _, group := range byDebt(all) {
		lines = append(lines, debt(group))
	}
	return blocks(block(chat.Title, "Not done by "+moment(now)), block(chat.List, lines...))
}

// byDebt groups what one company owes of one kind, in the order of first mention.
func byDebt(all []NagView) [][]NagView {
	type key struct {
		ladder  nag.LadderID
		company string
	}
	var groups [][]NagView
	at := map[key]int{}
	for _, v := range all {
		k := key{v.Ladder, v.Company}
		i, ok := at[k]
		if !ok {
			i = len(groups)
			at[k] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], v)
	}
	slices.SortStableFunc(groups, func(a, b []NagView) int {
		return slices.Index(nag.Ladders, a[0].Ladder) - slices.Index(nag.Ladders, b[0].Ladder)
	})
	return groups
}

// debt is what one company owes of one kind, in one line.
func debt(group []NagView) string {
	v := group[0]
	var numbers, texts []string
	for _, g := range group {
		numbers = append(numbers, g.Thing.Number)
		texts = append(texts, strings.Join(plain(Nag(g)), " "))
	}
	switch v.Ladder {
	case nag.Unanswered:
		return fmt.Sprintf("%s: %s open", v.Company, checks(len(v.Missing)))
	case nag.WarmUpTwice:
		return fmt.Sprintf("%s: NO RUN IN TWO SHIFTS: %s", v.Company, join(", ", numbers...))
	case nag.WarmUp:
		return fmt.Sprintf("%s: no run this shift: %s", v.Company, join(", ", numbers...))
	case nag.LowFuel, nag.CrewFix, nag.Unseen, nag.PartsOverdue, nag.ServiceOverdue, nag.OnCall:
	}
	return join(" ", texts...)
}

func checks(n int) string {
	if n == 1 {
		return "1 check"
	}
	return fmt.Sprintf("%d checks", n)
}

func plain(all []chat.Block) []string {
	var lines []string
	for _, b := range all {
		lines = append(lines, b.Lines...)
	}
	return lines
}

func noRun(v NagView) []chat.Block {
	return blocks(block(chat.Body, subject(v, "no run this shift yet")+".", ourText(v, `Start `+them(v)+`, then say "started".`)),
		ours(v, outdoors()))
}

// things names all engines of the reminder.
func things(v NagView) string {
	names := []string{tied(v.Thing.String())}
	for _, t := range v.Also {
		names = append(names, tied(t.String()))
	}
	return join(", ", names...)
}

func them(v NagView) string {
	if len(v.Also) > 0 {
		return "them"
	}
	return "it"
}

func lowFuel(v NagView) []chat.Block {
	low := "fuel low"
	if v.Level != "" {
		low = "fuel at " + v.Level
	}
	return blocks(block(chat.Body, subject(v, low+since(v)+", not topped off."), ourText(v, "Top off, then say the level.")),
		ours(v, block(chat.Safety, "Engine off and cool. No smoking.")))
}

func outdoors() chat.Block {
	return block(chat.Safety, "Outdoors, exhaust away from doors.")
}

// ours keeps a block for the company; others cannot act on it.
func ours(v NagView, b chat.Block) chat.Block {
	if v.Audience == nag.Company {
		return b
	}
	return chat.Block{}
}

func ourText(v NagView, text string) string {
	if v.Audience == nag.Company {
		return text
	}
	return ""
}

func shopText(v NagView, text string) string {
	if v.Audience == nag.ShopRoom {
		return text
	}
	return ""
}

// to starts with the company, which the company itself need not be told: but a
// station's room holds several.
func to(v NagView, text string) string { return join(": ", v.Company, text) }

// subject starts with the item, and with its company for those elsewhere.
func subject(v NagView, text string) string {
	company := v.Company
	if v.Audience == nag.Company {
		company = ""
	}
	label := v.Label
	if v.Ladder == nag.WarmUp || v.Ladder == nag.LowFuel {
		label = ""
	}
	return join(": ", capital(join(", ", things(v), label, tied(company))), text)
}

func since(v NagView) string {
	if v.Since.IsZero() {
		return ""
	}
	return " since " + when(v)
}

// when is the clock time for the crew on duty, with the day for others.
func when(v NagView) string {
	if v.Audience == nag.Company {
		return clock(v.Since)
	}
	return moment(v.Since)
}

// missing lists what is open; a long list is counted.
func missing(v NagView) string {
	const most = 8
	if len(v.Missing) == 0 {
		return ""
	}
	list, rest := v.Missing, ""
	if len(list) > most {
		list, rest = list[:most], more(len(v.Missing)-most)
	}
	names := make([]string, len(list))
	for i, name := range list {
		names[i] = tied(name)
	}
	return "Open: " + join(", ", names...) + rest
}
