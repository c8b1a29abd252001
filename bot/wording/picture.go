package wording

import (
	"fmt"

	"crosslay/bot/dept"
)

// Board is the title of the picture of a shift.
func Board(date dept.Date, platoon dept.Platoon) string {
	return "Board, " + string(platoon) + " shift, " + DateWords(date)
}

// ItemYear is the title of the picture of an item.
func ItemYear(thing Thing) string { return thing.first() + ", the last twelve months" }

// Month is the title of the picture of a month.
func Month(d dept.Date) string { return fmt.Sprintf("%s %d", d.Month, d.Year) }
