package wording

import (
	"fmt"

	"crosslay/bot/chat"
)

// ShopSays tells a company, in its thread, what the shop said of its defect.
func ShopSays(kind string, s Step) []chat.Block {
	what := capital(part(s.Thing, s.Label))
	by := within(s.Who)
	switch kind {
	case "seen":
		return say(join(" ", what+": the shop has seen it", by))
	case "parts":
		return say(join(" ", what+": "+parts(s), by))
	case "wanted":
		return say(join(" ", s.Thing.first()+": the shop wants it brought in", by), quote(s.Words, 200))
	case "at_shop":
		return say(join(" ", s.Thing.first()+" is at the shop, out of service", by))
	case "spare":
		return sayf("Spare %s stands in for %s. Its checks are yours from now.", s.Spare, s.Thing)
	case "repaired":
		return say(join(" ", what+": repaired", by), "Look at it in the next check: that confirms the repair.")
	case "returned":
		return say(join(" ", s.Thing.first()+" is back in service", by), "Look at it in the next check: that confirms the repair.")
	case "not_a_fault":
		again := ""
		if s.Again {
			again = "Look at it again: it is open in your checks."
		}
		return say(join(" ", what+": the shop finds no fault", by), again)
	case "out_of_service":
		return blocks(block(chat.Body, join(" ", s.Thing.first()+" is OUT OF SERVICE", by)),
			block(chat.Safety, "Tag it. Do not use or test it."))
	}
	return say(what + ": " + kind)
}

func parts(s Step) string {
	if s.Until.IsZero() {
		return "waiting for parts, no day yet"
	}
	return "waiting for parts until " + day(s.Until)
}

// ShopDone says back to the shop, in the defect's thread, what was noted.
func ShopDone(kinds []string, s Step) []chat.Block {
	tail := "."
	if s.Company != "" {
		tail = "; " + tied(s.Company+" is told.")
	}
	var steps []string
	for _, kind := range kinds {
		steps = append(steps, done(kind, s))
	}
	return sayf("Noted: %s, %s%s", part(s.Thing, s.Label), join("; ", steps...), tail)
}

func done(kind string, s Step) string {
	switch kind {
	case "parts":
		return parts(s)
	case "wanted":
		return "to be brought in"
	case "at_shop":
		return "at the shop, out of service"
	case "spare":
		return fmt.Sprintf("spare %s stands in", s.Spare)
	case "returned":
		return "back in service"
	case "not_a_fault":
		return "not a fault"
	case "out_of_service":
		return "out of service"
	}
	return kind
}

// ShopHelp is the words that a technician may use; spare is the number of one that
// fits, "" for none.
func ShopHelp(spare string) []chat.Block {
	if spare != "" {
		spare = fmt.Sprintf(`"spare %s",`, spare)
	}
	return blocks(block(chat.Hint,
		`In the defect's thread: "seen", "parts until Friday",`,
		join(" ", `"need it here", "at the shop",`, spare, `"repaired",`),
		`"returned", "not a fault", "out of service".`,
	))
}

// Confirmed tells the shop that the next check found the repair good.
func Confirmed(s Step) []chat.Block {
	who := join(", ", s.Company, s.Who)
	return say(join(" ", "Confirmed by the next check: "+part(s.Thing, s.Label), within(who)))
}

// OutNow tells the officers that an item went out of service, and who covers.
func OutNow(thing Thing, company, why, who string, cover string) []chat.Block {
	covers := ""
	if cover != "" {
		covers = "Cover: " + cover
	}
	return say(join(" ", "OUT OF SERVICE: "+join(": ", join(", ", thing.String(), company), why), within(who)), covers)
}

// BackNow tells the officers that an item is back in service.
func BackNow(thing Thing, company, who string) []chat.Block {
	return say(join(" ", "Back in service: "+join(", ", thing.String(), company), within(who)))
}

// Fleet says, once, that several items of a kind have the same fault.
func Fleet(name string, label string, things []Thing, days int) []chat.Block {
	var numbers []string
	for _, t := range things {
		numbers = append(numbers, t.Number)
	}
	return blocks(
		block(chat.Title, "FLEET MATTER: "+join(", ", name, label)),
		block(chat.Body, fmt.Sprintf("Same fault on %d items within %d days: %s", len(things), days, join(", ", numbers...))),
	)
}
