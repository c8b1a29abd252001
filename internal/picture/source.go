package picture

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/dept"
)

// Kind is what a picture shows.
type Kind string

// The kinds of pictures.
const (
	OfBoard Kind = "board"
	OfItem  Kind = "item"
	OfMonth Kind = "month"
)

// Source names a picture: draw:board/2026-11-25/A, draw:item/e1-pump/2026-11-25,
// draw:month/2026-11. An item's year ends with the month of its date; a month is
// named by a day in it.
type Source struct {
	Kind    Kind
	Date    dept.Date
	Platoon dept.Platoon // of a board
	Item    dept.ItemID  // of an item's year
}

const scheme = "draw:"

// String is the source as messages carry it.
func (s Source) String() string {
	switch s.Kind {
	case OfBoard:
		return fmt.Sprintf("%s%s/%s/%s", scheme, s.Kind, s.Date, s.Platoon)
	case OfItem:
		return fmt.Sprintf("%s%s/%s/%s", scheme, s.Kind, s.Item, s.Date)
	case OfMonth:
	}
	return fmt.Sprintf("%s%s/%.7s", scheme, s.Kind, s.Date)
}

// File is a name for the picture as a file.
func (s Source) File() string {
	return strings.ReplaceAll(strings.TrimPrefix(s.String(), scheme), "/", "-") + ".png"
}

// ParseSource reads what String wrote. Its error says what is wrong with it.
func ParseSource(text string) (Source, error) {
	rest, ok := strings.CutPrefix(text, scheme)
	parts := strings.Split(rest, "/")
	wrong := fmt.Errorf("%q names no picture; it is like draw:board/2026-11-25/A, draw:item/ID/2026-11-25 or draw:month/2026-11", text)
	if !ok || len(parts) < 2 {
		return Source{}, wrong
	}
	s := Source{Kind: Kind(parts[0])}
	date := parts[1]
	switch {
	case s.Kind == OfBoard && len(parts) == 3 && parts[2] != "":
		s.Platoon = dept.Platoon(parts[2])
	case s.Kind == OfItem && len(parts) == 3 && parts[1] != "":
		s.Item, date = dept.ItemID(parts[1]), parts[2]
	case s.Kind == OfMonth && len(parts) == 2:
		m, err := ParseMonth(date)
		s.Date = m
		return s, err
	default:
		return Source{}, wrong
	}
	var err error
	s.Date, err = dept.ParseDate(date)
	return s, err
}

// ParseMonth reads 2026-11 as its first day.
func ParseMonth(text string) (dept.Date, error) {
	t, err := time.Parse("2006-01", text)
	if err != nil {
		return dept.Date{}, fmt.Errorf("%q is not a month; write it like 2026-11", text)
	}
	return dept.DateOf(t), nil
}
