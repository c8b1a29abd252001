package wording

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/chat"
)

// DefectView is what the shop is told about a defect when its thread opens.
type DefectView struct {
	Thing        Thing
	Company      string
	Station      string
	Label        string
	Damage       string
	Words        string
	Who          string
	At           time.Time // local
	Pics         int
	Out          bool
	LastReadings []string
	History      []string // at most three are shown
	Reopened     int
	Fate         string // begins, joins, reopens
	Caution      string
	Loss         string // of fluid, see Loss
}

// DefectRoot opens a defect's thread in the shop's room.
func DefectRoot(v DefectView) []chat.Block {
	out, tag := "", ""
	if v.Out {
		out = "OUT OF SERVICE."
		if !saysTag(v.Caution) {
			tag = "Tag it. Do not test it."
		}
	}
	history := v.History[:min(3, len(v.History))]
	return blocks(
		block(chat.Title, join(" · ", "Defect: "+part(v.Thing, v.Label), tied(v.Company), tied(v.Station))),
		block(chat.Body, join(": ", strings.ToUpper(v.Damage), quote(v.Words, 300)),
			join(", ", tied(v.Who), moment(v.At), photos(v.Pics)), v.Loss, out, again(v)),
		block(chat.List, prefixed("Last reading: ", v.LastReadings)...),
		block(chat.List, prefixed("Before: ", history)...),
		block(chat.Safety, join(" ", tag, v.Caution)),
	)
}

func again(v DefectView) string {
	switch {
	case v.Reopened > 1:
		return fmt.Sprintf("REOPENED, %d times now: back within 30 days of a repair.", v.Reopened)
	case v.Reopened == 1 || v.Fate == "reopens":
		return "REOPENED: same fault within 30 days of the repair."
	}
	return ""
}

func photos(n int) string {
	switch {
	case n == 1:
		return "1 photo"
	case n > 1:
		return fmt.Sprintf("%d photos", n)
	}
	return ""
}

func prefixed(lead string, texts []string) []string {
	var out []string
	for _, t := range texts {
		if t != "" {
			out = append(out, lead+t)
		}
	}
	return out
}

// DefectJoin adds a second report to a thread that is open.
func DefectJoin(step Step, words string, at time.Time) []chat.Block {
	return say(join(": ", "Reported again, "+join(", ", tied(step.Who), tied(step.Company), moment(at)), quote(words, 300)))
}

// DefectWithdrawn says that the report was taken back; the defect stays.
func DefectWithdrawn(step Step, words string) []chat.Block {
	return say(join(" ", "Withdrawn by the reporter"+comma(step.Who)+".", quote(words, 300)),
		"The defect stays open: the shop decides.")
}

// DefectRaised says that a worse word came and the item is now out of service.
func DefectRaised(step Step, damage string) []chat.Block {
	return blocks(
		block(chat.Body, join(" ", "Worse now: "+join(" ", step.Label, strings.ToUpper(damage)), within(step.Who)),
			step.Thing.first()+" is out of service."),
		block(chat.Safety, "Tag it. Do not test it."),
	)
}

// comma adds a name behind a comma, if there is one.
func comma(name string) string {
	if name == "" {
		return ""
	}
	return ", " + tied(name)
}

// CrewSays carries words of a crew to the shop.
func CrewSays(who, company, words string) []chat.Block {
	return say(join(" ", tied(company+" says:"), quote(words, 300), within(tied(who))))
}

// Mended answers a crew that did something about a fault which is the shop's.
func Mended(thing Thing, label string) string {
	return tied(part(thing, label)+":") + " noted for the shop; it stays a fault until they look."
}

// ToShop tells a crew that a fault which no check asks about went to the shop.
func ToShop(thing Thing, words string) string {
	return join(" ", tied(thing.String()), "to the shop:", quote(words, 60))
}

// ShopTold tells a crew that its words went to the shop, and nothing else.
func ShopTold() []chat.Block { return say("The shop is told. No check is changed by that.") }
