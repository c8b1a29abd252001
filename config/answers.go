package config

import (
	"fmt"

	"crosslay/bot/check"
)

var kinds = []check.AnswerKind{check.Condition, check.YesNo, check.Level, check.Gauge, check.Number, check.Run, check.Choice,
	check.DateAhead, check.Text, check.Photo}

// answerKeys are the keys that some kinds of answer take, with the kinds.
var answerKeys = []struct {
	key   string
	kinds []check.AnswerKind
}{
	{"min", []check.AnswerKind{check.Level, check.Number, check.Run}},
	{"max", []check.AnswerKind{check.Level, check.Number, check.Run}},
	{"unit", []check.AnswerKind{check.Number}},
	{"step", []check.AnswerKind{check.Level, check.Number}},
	{"good", []check.AnswerKind{check.YesNo}},
	{"choices", []check.AnswerKind{check.Choice}},
}

// answer reads the kind of answer and its limits.
func (c object) answer() check.Answer {
	a := check.Answer{Kind: word(c, "answer", kinds...)}
	if a.Kind == "" {
		return a
	}
	for _, k := range answerKeys {
		if c.has(k.key) && !contains(k.kinds, a.Kind) {
			c.wrong(k.key, fmt.Sprintf("an answer of kind %s takes no %s", a.Kind, k.key), "Take it out, or write another kind of answer")
		}
	}
	switch a.Kind {
	case check.Level:
		c.level(&a)
	case check.Number:
		c.numeric(&a)
	case check.Run:
		c.run(&a)
	case check.YesNo:
		c.need("good")
		a.Good = map[bool]string{true: "yes", false: "no"}[c.yes("good")]
	case check.Choice:
		a.Choices = c.choices()
	case check.Condition, check.Gauge, check.DateAhead, check.Text, check.Photo:
	}
	if a.Min != nil && a.Max != nil && *a.Min > *a.Max {
		c.wrong("min", "the lower limit lies above the upper one", "Swap min and max")
	}
	return a
}

// level demands a floor: without one an empty tank would pass.
func (c object) level(a *check.Answer) {
	c.need("min")
	a.Min = given(c.fraction("min"))
	a.Max = given(c.fraction("max"))
	a.Step, _ = c.fraction("step")
}

func (c object) numeric(a *check.Answer) {
	c.need("unit")
	name := c.text("unit")
	if name == "" {
		return
	}
	unit, ok := check.ParseUnit(name)
	if !ok {
		c.wrong("unit", fmt.Sprintf("%q is not a unit", name), "Write a usual sign, as in psi, bar, in, mm, V, %, fl oz, gal, min or count")
		return
	}
	a.Unit = unit
	a.Min = given(c.measure("min", unit, unit))
	a.Max = given(c.measure("max", unit, unit))
	a.Step, _ = c.measure("step", unit, unit)
	if a.Step < 0 {
		c.wrong("step", "the resolution of a gauge is above zero", "Write the distance between two of its marks")
	}
	if a.Min == nil && a.Max == nil {
		c.wrong("min", "a number without limits would pass whatever it is", "Add min: or max:")
	}
}

// run demands both ends of the range, in minutes.
func (c object) run(a *check.Answer) {
	if !c.has("min") || !c.has("max") {
		c.wrong("min", "a run needs its range in minutes", "Add min: and max:, as in min: 5 and max: 10")
	}
	a.Min = given(c.measure("min", "min", "min"))
	a.Max = given(c.measure("max", "min", "min"))
	if a.Min != nil && *a.Min <= 0 {
		c.wrong("min", "a run lasts longer than zero minutes", "Write the least minutes that count")
	}
}

func given(f float64, ok bool) *float64 {
	if !ok {
		return nil
	}
	return &f
}

// choices demands a good one and a bad one: a list that cannot fail, or cannot
// pass, checks nothing.
func (c object) choices() []check.Option {
	c.need("choices")
	var options []check.Option
	good := 0
	taken := names{what: "choice"}
	c.blocks("choices", []string{"name", "names", "good"}, func(b object) {
		b.need("name")
		o := check.Option{Name: b.text("name"), Names: b.texts("names"), Good: b.yes("good")}
		if o.Good {
			good++
		}
		taken.addAll(b, "name", "names", append([]string{o.Name}, o.Names...))
		options = append(options, o)
	})
	if c.has("choices") && (good == 0 || good == len(options)) {
		c.wrong("choices", "of the choices some must be good and some not", "Write good: true beside those that pass")
	}
	return options
}
