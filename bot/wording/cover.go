package wording

import (
	"fmt"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
)

// CoverLine is who comes for something that a company cannot, or would be
// missed for.
type CoverLine struct {
	Can     []string // cut, spread
	Here    bool     // the company can it itself now
	Company string   // "" for nobody
	Same    bool     // the same station
	Way     cover.Way
}

// Covers tells who covers for a company.
func Covers(company string, all []CoverLine, units dept.Units) []chat.Block {
	if len(all) == 0 {
		return say("Nothing that " + company + " carries has to be covered: its sheets name nothing that it can do.")
	}
	var lines []string
	hint := ""
	for _, l := range all {
		if l.Company != "" && !l.Same {
			hint = "Drives are estimates, no promise."
		}
		self := " (" + tied(company+" can itself") + ")"
		if !l.Here {
			self = " (" + tied(company+" CANNOT") + ")"
		}
		lines = append(lines, join(", ", l.Can...)+self+": "+l.who(units))
	}
	return blocks(block(chat.Title, "Cover for "+company), block(chat.List, lines...), block(chat.Hint, hint))
}

// Cannot tells what a company cannot do now that it could with all it carries, and
// who covers, a line for each coverer.
func Cannot(all []CoverLine, units dept.Units) []string {
	var lines []string
	for _, l := range all {
		if !l.Here {
			lines = append(lines, "CANNOT "+join(", ", l.Can...)+"; cover: "+l.who(units))
		}
	}
	return lines
}

func (l CoverLine) who(units dept.Units) string {
	switch {
	case l.Company == "":
		return "NOBODY ELSE"
	case l.Same:
		return tied(l.Company) + ", same station"
	}
	rough := ""
	if l.Way.Rough {
		rough = ", rough"
	}
	return fmt.Sprintf("%s, %s, about %s%s", tied(l.Company), Distance(l.Way.Km, units), drive(l.Way.Minutes), rough)
}

// Distance is a way in the department's units.
func Distance(km float64, units dept.Units) string {
	if units == dept.Metric {
		return tied(fmt.Sprintf("%.1f km", km))
	}
	return tied(fmt.Sprintf("%.1f miles", cover.Way{Km: km}.Miles()))
}
