package story

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Want is what a story expects to have been said or recorded since its last
// step: `expect prompt in=E1`, `expect no ask`, `expect 2 echo text="ok"`,
// `expect record reading check=fuel state=ok`, `expect edited prompt`, `expect
// nothing`.
type Want struct {
	What  What
	Kind  string // "" for nothing at all
	Count int    // exactly so many; -1 for at least one
	Pairs []Pair
}

// Pair is a condition on a field. Text, words and note hold when they contain
// the value; all others when they are equal to it, or begin with it where the
// value ends in a star.
type Pair struct{ Name, Value string }

var pairs = regexp.MustCompile(`(\w+)=("[^"]*"|\S+)`)

func parseWant(rest string) (Want, error) {
	want := Want{What: WasSaid, Count: -1}
	words := strings.Fields(pairs.ReplaceAllString(rest, ""))
	for _, m := range pairs.FindAllStringSubmatch(rest, -1) {
		name, value := m[1], strings.Trim(m[2], `"`)
		if !slices.Contains(fields, name) {
			return want, fmt.Errorf("there is no field %q; there are: %s", name, strings.Join(fields, ", "))
		}
		want.Pairs = append(want.Pairs, Pair{name, value})
	}
	if len(words) > 0 && words[0] == "no" {
		want.Count, words = 0, words[1:]
	} else if n, err := strconv.Atoi(first(words)); err == nil {
		want.Count, words = n, words[1:]
	}
	switch first(words) {
	case "record":
		want.What, words = WasRecorded, words[1:]
	case "edited":
		want.What, words = WasEdited, words[1:]
	}
	if len(words) != 1 {
		return want, fmt.Errorf("say what is expected, like: expect prompt in=E1")
	}
	if want.Kind = words[0]; want.Kind == "nothing" {
		want.Kind, want.Count = "", 0
	}
	return want, nil
}

func first(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

var fields = []string{
	"room", "in", "thread", "key", "about", "who", "text",
	"state", "item", "check", "company", "words", "note", "value", "defect",
}

// field is a field of an entry, or of its record.
func (e Entry) field(name string) string {
	switch name {
	case "room":
		return e.Room
	case "in":
		return e.In
	case "thread":
		return e.Thread
	case "key":
		return e.Key
	case "about":
		return e.About
	case "who":
		return e.Who
	case "text":
		return e.Text
	}
	return e.recordField(name)
}

func (e Entry) recordField(name string) string {
	r := e.Record
	if r == nil {
		return ""
	}
	switch name {
	case "state":
		return r.State
	case "item":
		return string(r.Item)
	case "check":
		return string(r.Check)
	case "company":
		return string(r.Company)
	case "words":
		return r.Words
	case "note":
		return r.Note
	case "defect":
		return string(r.Defect)
	case "value":
		if r.Value.Number != nil {
			return strconv.FormatFloat(*r.Value.Number, 'g', 4, 64)
		}
		return r.Value.Word
	}
	return ""
}

// meets reports whether an entry is one of those expected.
func (want Want) meets(e Entry) bool {
	if e.What != want.What || want.What != WasRecorded && e.Who != "" {
		return false
	}
	if want.Kind != "" && e.Kind != want.Kind {
		return false
	}
	for _, p := range want.Pairs {
		if !p.holds(e.field(p.Name)) {
			return false
		}
	}
	return true
}

func (p Pair) holds(have string) bool {
	switch p.Name {
	case "text", "words", "note":
		return strings.Contains(unbroken(have), unbroken(p.Value))
	}
	if prefix, ok := strings.CutSuffix(p.Value, "*"); ok {
		return strings.HasPrefix(have, prefix)
	}
	return strings.EqualFold(have, p.Value)
}

// unbroken is a text in lower case without regard to where its lines are broken.
func unbroken(text string) string { return strings.Join(strings.Fields(strings.ToLower(text)), " ") }

// check says what is wrong with what was heard, "" if nothing.
func (want Want) check(heard []Entry) string {
	n := 0
	for _, e := range heard {
		if want.meets(e) {
			n++
		}
	}
	if n == want.Count || want.Count < 0 && n > 0 {
		return ""
	}
	return fmt.Sprintf("expected %s, found %d; since the last step there were:%s", want, n, listing(want, heard))
}

func (want Want) String() string {
	kind := want.Kind
	if kind == "" {
		kind = "message"
	}
	count := strconv.Itoa(want.Count)
	if want.Count < 0 {
		count = "a"
	}
	s := fmt.Sprintf("%s %s %s", count, want.What, kind)
	for _, p := range want.Pairs {
		s += fmt.Sprintf(" %s=%q", p.Name, p.Value)
	}
	return s
}

// listing shows what was heard of the sort that was expected.
func listing(want Want, heard []Entry) string {
	var b strings.Builder
	for _, e := range heard {
		if e.What != want.What || want.What != WasRecorded && e.Who != "" {
			continue
		}
		fmt.Fprintf(&b, "\n    %s in=%s about=%s key=%s", e.Kind, e.In, e.About, e.Key)
		if e.Record != nil {
			fmt.Fprintf(&b, " state=%s", e.Record.State)
		}
		if e.Text != "" {
			fmt.Fprintf(&b, "\n        %s", strings.ReplaceAll(e.Text, "\n", "\n        "))
		}
	}
	if b.Len() == 0 {
		return " none"
	}
	return b.String()
}
