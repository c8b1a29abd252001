package wording

import (
	"fmt"
	"time"

	"crosslay/bot/chat"
)

// Refusal says why something is not done, and who can.
func Refusal(kind string) []chat.Block {
	switch kind {
	case "shop_only":
		return say("Only the shop repairs, and returns to service.")
	case "officer_only":
		return say("Only an officer or the shop takes an item out of service.", "Report the fault: the sheet decides the rest.")
	case "chief_own_order":
		return say("A chief can undo only their own order, and only while", "no defect is open on the item. The shop returns it.")
	case "unknown_person":
		return say("I do not know you. Whoever keeps the department file", "can add your account. Nothing was recorded.")
	case "unknown_room":
		return say("This room is not in the department file.", "Nothing was recorded.")
	}
	return say("That is not yours to do. Nothing was recorded.")
}

// WhichCompany asks whom a message speaks for.
func WhichCompany(names []string) []chat.Block {
	return say(join(" ", "Which company is this about?", either(names)))
}

// NotCarried asks about an item that the company does not carry.
func NotCarried(company, item string) []chat.Block {
	return sayf("%s does not carry %s. Which item is meant?", company, item)
}

// Withdrawn says that a message was taken back.
func Withdrawn() []chat.Block { return say("Taken back. Those checks stand as before.") }

// NothingToUndo says that there is nothing of theirs to take back.
func NothingToUndo() []chat.Block { return say("Nothing of yours to take back in this shift.") }

// BusyNoted says until when a crew on a call is left alone.
func BusyNoted(until time.Time) []chat.Block {
	return sayf(`On a run: noted. No reminders until %s, or "back".`, clock(until))
}

// BackNoted welcomes nobody: it says what is still open.
func BackNoted(missing int) []chat.Block {
	switch missing {
	case 0:
		return say("Back: noted. All checks are answered.")
	case 1:
		return say("Back: noted. 1 check is open.")
	}
	return sayf("Back: noted. %d checks are open.", missing)
}

// AskElsewhere tells a crew where officers' questions are answered.
func AskElsewhere() []chat.Block {
	return say("Officers ask that in their room, or me alone. Nothing was recorded.")
}

// FirstStart tells the operator that the bot waits for the next shift change.
func FirstStart(next time.Time) []chat.Block {
	return say("First start, in mid-shift.", fmt.Sprintf("The first prompts come %s.", moment(next)))
}

// Reloaded says what became of a changed department file.
func Reloaded(text string) []chat.Block { return say(join(" ", "Department file:", text)) }

// CouldNotRead says that a message came which could not be read.
func CouldNotRead(at time.Time) []chat.Block {
	return sayf("A message at %s could not be read. Please send it again; nothing of it was recorded.", clock(at))
}

// NoSuchCompany answers a request about a company that is not in the department.
func NoSuchCompany(called string, companies []string) []chat.Block {
	return say(fmt.Sprintf("There is no %s.", capital(called)), "Companies: "+join(", ", companies...))
}
