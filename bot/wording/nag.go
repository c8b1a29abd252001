package wording

import (
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
	case nag.OnCall:
		return say(to(v, "away on a run")+since(v)+", checks still open.", missing(v), ourText(v, `Say "back" when you are.`))
	}
	return say(subject(v, string(v.Ladder)) + since(v) + ".")
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
