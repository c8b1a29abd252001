package chat

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Form is for those who would rather tap than type, where a backend has
// dialogs. Filling it in is the same as typing what Spoken makes of it, in the
// message's thread.
type Form struct {
	Label  string  `json:"label"` // of the button that opens it
	Title  string  `json:"title"` // at most 24 characters
	Fields []Field `json:"fields"`
	Rest   string  `json:"rest"` // label of the open input at the end
}

// Field is one input of a form: a check that is still open.
type Field struct {
	N      int      `json:"n"`     // the check's number
	Label  string   `json:"label"` // "fuel"
	Under  string   `json:"under,omitempty"`
	Say    []string `json:"say,omitempty"` // the answers to choose from; none: it is typed
	Unit   string   `json:"unit,omitempty"`
	Filled string   `json:"filled,omitempty"` // what is known; never a guess
}

// Filled is what somebody put into one field.
type Filled struct {
	N    int
	Unit string
	Text string
}

// Spoken is a filled form as a crew types it: "1 3/4, 2 ok, 5 6 min". Fields left
// empty are not spoken of. The rest, in the crew's own words, has a line of its own.
func Spoken(fields []Filled, rest string) string {
	fields = slices.Clone(fields)
	slices.SortStableFunc(fields, func(a, b Filled) int { return a.N - b.N })
	var said []string
	for _, f := range fields {
		if text := strings.Join(strings.Fields(f.Text), " "); text != "" {
			said = append(said, strconv.Itoa(f.N)+" "+withUnit(text, f.Unit))
		}
	}
	lines := []string{strings.Join(said, ", ")}
	if rest = strings.TrimSpace(rest); rest != "" {
		lines = append(lines, rest)
	}
	return strings.TrimSpace(strings.Join(lines, "\n"))
}

// withUnit puts the unit behind a bare figure; words and figures with a unit of
// their own stay as they are.
func withUnit(text, unit string) string {
	if unit == "" || strings.IndexFunc(text, unicode.IsLetter) >= 0 || strings.ContainsAny(text, "\"″'%:") {
		return text
	}
	return text + " " + unit
}
