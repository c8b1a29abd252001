package bot

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
)

// Scopes are what ticks and wakes are planned for.
const (
	shopScope     = "shop"
	officersScope = "officers"
	companyScope  = "company/"
)

// shopDesk is the standing that holds what the shop owes.
const shopDesk dept.CompanyID = "@shop"

// Keys name the deed, so that doing it again is the same deed.

func promptKey(c dept.CompanyID, d dept.Date, p dept.Platoon) chat.Key {
	return chat.Key(fmt.Sprintf("prompt/%s/%s/%s", c, d, p))
}

func defectKey(id defect.ID) chat.Key { return chat.Key("defect/" + string(id)) }

// answerKey is the key of the bot's n-th message of a kind in answer to an event.
func answerKey(kind chat.MessageKind, ev chat.Event, n int) chat.Key {
	key := fmt.Sprintf("%s/%s/%s", kind, ev.Backend, ev.ID)
	if n > 0 {
		key += fmt.Sprintf("/%d", n)
	}
	return chat.Key(key)
}

// thread is what the root of a thread says about it.
type thread struct {
	company dept.CompanyID
	date    dept.Date
	platoon dept.Platoon
	defect  defect.ID
}

// threadOf reads a key back. Other keys than those of prompts and defects say
// nothing.
func threadOf(key chat.Key) thread {
	parts := strings.Split(string(key), "/")
	switch {
	case parts[0] == "defect" && len(parts) > 1:
		return thread{defect: defect.ID(strings.TrimPrefix(string(key), "defect/"))}
	case parts[0] == "prompt" && len(parts) >= 4:
		d, err := dept.ParseDate(parts[2])
		if err != nil {
			return thread{}
		}
		return thread{company: dept.CompanyID(parts[1]), date: d, platoon: dept.Platoon(parts[3])}
	}
	return thread{}
}

func eventID(ev chat.Event) string { return ev.Backend + "/" + ev.ID }

// defectID names a defect by what it is about and the second in which it was
// first reported, on the department's clock: another defect of the same check on
// the same day has another id, also when the first is closed and not loaded.
func defectID(ref check.Ref, reported time.Time) defect.ID {
	return defect.ID(fmt.Sprintf("%s-%s-%s", ref.Item, ref.Check, reported.Format("2006-01-02-150405")))
}
