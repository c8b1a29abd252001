package wording

import (
	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// PromptForm is the prompt for those who would rather tap: one input for each
// check that is open or unsure. What is filled in beforehand was said in this
// shift; nothing is ever filled in as good. Nil when nothing is left.
func PromptForm(v PromptView) *chat.Form {
	form := &chat.Form{Label: "Fill in the form", Title: clip(v.Company, 24), Rest: "Anything else: what is wrong, on which item"}
	for _, it := range v.Items {
		for _, c := range it.Checks {
			if (c.State == check.Open || c.State == check.Unsure) && c.Check.Answer.Kind != check.Photo {
				form.Fields = append(form.Fields, field(it.Thing, c))
			}
		}
	}
	if len(form.Fields) == 0 {
		return nil
	}
	return form
}

func field(t Thing, c PromptCheck) chat.Field {
	f := chat.Field{N: c.N, Label: c.Check.Label, Under: t.first(), Say: answers(c.Check.Answer)}
	if c.State == check.Unsure && (c.Value.Number != nil || c.Value.Word != "") {
		f.Filled = Figure(c.Check, c.Value)
	}
	switch c.Check.Answer.Kind {
	case check.Run:
		f.Unit = "min"
	case check.Number:
		f.Unit = string(c.Check.Answer.Unit)
	case check.Condition, check.YesNo, check.Level, check.Gauge, check.Choice, check.DateAhead, check.Text, check.Photo:
	}
	return f
}

// answers are what can be tapped, in the words that a crew would type; none where
// only they know the figure.
func answers(a check.Answer) []string {
	switch a.Kind {
	case check.Condition:
		return []string{"ok", "not ok"}
	case check.YesNo:
		return []string{"yes", "no"}
	case check.Gauge:
		return []string{"ok", "low", "over"}
	case check.Level:
		return []string{"full", "7/8", "3/4", "5/8", "1/2", "3/8", "1/4", "1/8", "empty"}
	case check.Choice:
		return optionNames(a.Choices)
	case check.Number, check.Run, check.DateAhead, check.Text, check.Photo:
	}
	return nil
}

// PromptChoices are what a crew answers a prompt with in one tap.
func PromptChoices() []chat.Choice {
	return []chat.Choice{
		{Label: "All good", Say: "all good"},
		{Label: "Report a fault", Say: "report a fault", Ask: "Which item, and what is wrong with it?"},
		{Label: "On a call", Say: "on a call"},
	}
}

// DefectChoices are the shop's steps in the life of a defect, in their order.
func DefectChoices() []chat.Choice {
	return []chat.Choice{
		{Label: "Seen", Say: "seen"}, {Label: "Waiting for parts", Say: "waiting for parts"}, {Label: "Need it here", Say: "need it at the shop"},
		{Label: "Spare placed", Say: "spare placed"}, {Label: "Repaired", Say: "repaired"}, {Label: "Back in service", Say: "back in service"},
		{Label: "Not a fault", Say: "not a fault"},
	}
}
