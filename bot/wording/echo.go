package wording

import (
	"fmt"
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// Echo says back what was understood, in one line where it fits: passes as
// ranges, figures and faults by name, a fault with who acts. Then come the extra
// lines, and what was not understood.
func Echo(told []Told, extra []string, notUnderstood []string) []chat.Block {
	var items []string
	for _, group := range byThing(told) {
		items = append(items, echoItem(group))
	}
	var texts []string
	if s := join("; ", items...); s != "" {
		texts = append(texts, "Got it: "+s)
	}
	texts = append(texts, extra...)
	for _, words := range notUnderstood {
		if q := quote(words, 400); q != "" {
			texts = append(texts, "Not understood, kept: "+q)
		}
	}
	return blocks(block(chat.Body, texts...), block(chat.Safety, dangers(told)...))
}

// StillOpen tells which checks of the shift are still open, by number.
func StillOpen(numbers []int) string {
	if len(numbers) == 0 {
		return "All answered."
	}
	return "Open: " + ranges(numbers)
}

// dangers are the cautions of the checks that failed, each once, and what to do
// with an item that just went out of service.
func dangers(told []Told) []string {
	var texts []string
	tag := false
	for _, t := range told {
		if t.State != check.Fail {
			continue
		}
		c := t.Check.Caution
		tag = tag || t.Act == check.Out && !saysTag(c)
		if c != "" && !slices.Contains(texts, c) {
			texts = append(texts, c)
		}
	}
	if tag {
		texts = append(texts, "Tag it. Do not use or test it.")
	}
	return texts
}

// saysTag reports whether a sheet's own caution already has an item tagged and
// not tested.
func saysTag(caution string) bool {
	caution = strings.ToLower(caution)
	return strings.Contains(caution, "tag it") && strings.Contains(caution, "not test")
}

// byThing groups results by their item, in the order of first mention.
func byThing(told []Told) [][]Told {
	var groups [][]Told
	at := map[string]int{}
	for _, t := range told {
		key := t.Thing.String()
		i, ok := at[key]
		if !ok {
			i = len(groups)
			at[key] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], t)
	}
	return groups
}

func echoItem(told []Told) string {
	var plain []int
	var named []string
	for _, t := range told {
		if t.N > 0 && t.State == check.OK && !t.Fixed && !showsFigure(t) {
			plain = append(plain, t.N)
			continue
		}
		named = append(named, tied(echoOne(t)))
	}
	ok := ""
	if len(plain) > 0 {
		ok = tied(ranges(plain) + " ok")
	}
	return tied(told[0].Thing.String()) + " " + join(", ", append([]string{ok}, named...)...)
}

// showsFigure reports whether the pass carries a reading that is worth saying
// back.
func showsFigure(t Told) bool { return t.Check.Answer.Kind.WantsFigure() && !t.Value.IsZero() }

func echoOne(t Told) string {
	switch t.State {
	case check.OK:
		if t.Fixed {
			return join(" ", t.Check.Label, passed(t.Check, t.Value, false), "(fixed)")
		}
		return t.Check.Label + " " + passed(t.Check, t.Value, false)
	case check.Fail:
		return join(" ", t.Check.Label, failed(t.Check, t.Value, t.Damage), faultWords(t), within(acts(t)))
	case check.Unsure:
		return t.Check.Label + " not settled"
	case check.Open:
	}
	return t.Check.Label + " still to check"
}

// faultWords are the crew's own, where the result alone says too little.
func faultWords(t Told) string {
	if t.Damage != "" || !t.Value.IsZero() {
		return ""
	}
	return quote(t.Words, 30)
}

// acts says who acts on a fault. A run over its range needs nobody.
func acts(t Told) string {
	if t.Check.Answer.Kind == check.Run && failed(t.Check, t.Value, "") != "FAULT" {
		return runActs(t)
	}
	switch t.Act {
	case check.Crew:
		return "crew"
	case check.Shop:
		return "to the shop"
	case check.Out:
		return "out of service, to the shop"
	}
	return ""
}

func runActs(t Told) string {
	if t.Value.Word == "over" {
		return ""
	}
	if t.Value.Number != nil {
		if _, side := t.Check.Answer.Within(*t.Value.Number); side != "low" {
			return ""
		}
	}
	if t.Check.Answer.Min == nil {
		return "crew"
	}
	return fmt.Sprintf("run it %s", minutes(*t.Check.Answer.Min))
}
