package config

import (
	"fmt"
	"strconv"
	"strings"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// acts are the words of a file for who acts on a fault.
var acts = map[string]check.Act{"crew": check.Crew, "shop": check.Shop, "out of service": check.Out}

func (d *draft) readSheets() {
	known := []string{"kind", "id", "name", "names", "can", "service", "caution", "checks"}
	d.blocks("sheets", known, func(o object) {
		o.need("kind", "name", "checks")
		s := &check.Sheet{
			Kind: dept.KindID(o.id("kind")), ID: dept.SheetID(o.id("id")), Name: o.text("name"), Names: o.texts("names"),
			Can: o.texts("can"), Caution: o.text("caution"), Service: o.service(), Checks: o.checks(),
		}
		if !o.has("id") {
			s.ID = dept.SheetID(s.Kind)
		}
		if o.has("checks") && len(s.Checks) == 0 {
			o.wrong("checks", "the sheet has no checks", "List at least one")
		}
		d.sheets = append(d.sheets, s)
		d.sheetAt = append(d.sheetAt, o)
	})
}

func (o object) service() check.Service {
	b, ok := o.block("service", "months", "hours")
	if !ok {
		return check.Service{}
	}
	s := check.Service{Months: b.count("months", 1, 240)}
	if hours, ok := b.number("hours"); ok {
		s.Hours = hours
		if hours <= 0 {
			b.wrong("hours", "the hours between services must be above zero", "Write a number or take the key out")
		}
	}
	return s
}

var checkKeys = []string{"id", "label", "question", "method", "names", "answer", "min", "max", "unit", "step", "good", "choices",
	"when", "fault", "damages", "repeat", "proviso", "caution", "use", "turnover"}

// checks reads the checks of a sheet. Within one, nothing may answer to two
// names, or a reply could pass the wrong check.
func (o object) checks() []check.Check {
	var all []check.Check
	ids, taken := names{what: "check"}, names{what: "name of a check"}
	o.blocks("checks", checkKeys, func(c object) {
		c.need("id", "label", "answer")
		one := c.check()
		ids.add(c, "id", string(one.ID))
		taken.addAll(c, "label", "names", append([]string{one.Label}, one.Names...))
		c.free("label", one.Label)
		c.free("names", one.Names...)
		all = append(all, one)
	})
	return all
}

func (c object) check() check.Check {
	one := check.Check{
		ID: check.ID(c.id("id")), Label: c.text("label"), Question: c.text("question"), Method: c.text("method"), Names: c.texts("names"),
		When: c.when(), Proviso: c.text("proviso"), Caution: c.text("caution"),
		Use:      word(c, "use", check.UseFuel, check.UseFluid, check.UseRun, check.UseConnection),
		Turnover: c.count("turnover", 1, 1000),
	}
	if len(one.Label) > maxLabel {
		c.wrong("label", fmt.Sprintf("the label has more than %d characters, and would not fit a phone", maxLabel), "Keep it short; the question may be longer")
	}
	one.Answer = c.answer()
	one.Fault = c.fault(one.Answer.Kind)
	c.usable(one)
	return one
}

const maxLabel = 24

// fault demands to be told who acts: to leave it out would hide a fault from the
// shop. Texts and photos fail by nobody's limits and go to the shop.
func (c object) fault(kind check.AnswerKind) check.Fault {
	f := check.Fault{Default: check.Shop}
	if kind != check.Text && kind != check.Photo {
		c.need("fault")
	}
	if c.has("fault") {
		f.Default = c.act("fault")
	}
	taken := names{what: "damage"}
	c.blocks("damages", []string{"name", "names", "act"}, func(b object) {
		b.need("name", "act")
		damage := check.Damage{Name: b.text("name"), Names: b.texts("names"), Act: b.act("act")}
		taken.addAll(b, "name", "names", append([]string{damage.Name}, damage.Names...))
		b.free("name", damage.Name)
		b.free("names", damage.Names...)
		f.Damages = append(f.Damages, damage)
	})
	if b, ok := c.block("repeat", "times", "days"); ok {
		b.need("times", "days")
		f.Repeat = check.Repeat{Times: b.count("times", 2, 20), Days: b.count("days", 1, 365)}
		if f.Default != check.Crew && f.Default != "" {
			c.wrong("repeat", "this fault goes to the shop the first time", "Take repeat out, or write fault: crew")
		}
	}
	return f
}

func (o object) act(key string) check.Act {
	s := o.text(key)
	if s == "" {
		return ""
	}
	act, ok := acts[strings.ReplaceAll(s, "_", " ")]
	if !ok {
		o.wrong(key, fmt.Sprintf("%q does not say who acts", s), "Write one of: crew, shop, out of service")
	}
	return act
}

// usable checks what computing and provisos demand of the kind of answer.
func (c object) usable(one check.Check) {
	kind := one.Answer.Kind
	if kind == "" {
		return
	}
	fits := map[check.Use][]check.AnswerKind{
		check.UseFuel: {check.Level}, check.UseRun: {check.Run}, check.UseFluid: {check.Gauge, check.Level},
		check.UseConnection: {check.Condition, check.YesNo},
	}
	if one.Turnover > 0 && one.Use != check.UseFuel {
		c.wrong("turnover", "only fuel gets old in its tank", "Take turnover out, or write use: fuel")
	}
	if want, ok := fits[one.Use]; ok && !contains(want, kind) {
		c.wrong("use", fmt.Sprintf("%s cannot be computed from an answer of kind %s", one.Use, kind), fmt.Sprintf("Write answer: %s, or take use out", want[0]))
	}
	if one.Use == check.UseFluid && !c.has("proviso") {
		c.wrong("proviso", "a fluid check must say what a low reading hangs on", `Add a question, as in proviso: "Was the tool nearly closed?"`)
	}
	if one.Proviso != "" && !contains([]check.AnswerKind{check.Gauge, check.Level, check.Number}, kind) {
		c.wrong("proviso", fmt.Sprintf("an answer of kind %s is never low", kind), "Take proviso out")
	}
}

// when reads each shift, after use, monday, [monday, friday], day 1, day [1, 15].
func (c object) when() check.When {
	if !c.has("when") {
		return check.When{Every: check.EachShift}
	}
	words := c.texts("when")
	if len(words) == 1 {
		switch s := strings.ToLower(words[0]); {
		case s == "each shift":
			return check.When{Every: check.EachShift}
		case s == "after use":
			return check.When{Every: check.AfterUse}
		case strings.HasPrefix(s, "day "):
			return c.monthDays(strings.TrimPrefix(s, "day "))
		}
	}
	w := check.When{Every: check.OnWeekday}
	for _, s := range words {
		day, ok := weekday(s)
		if !ok {
			c.wrong("when", fmt.Sprintf("%q is not a time to check", s), whenInstead)
			continue
		}
		w.Weekdays = append(w.Weekdays, day)
	}
	return w
}

const whenInstead = "Write each shift, after use, monday, [monday, friday], day 1 or day [1, 15]"

func (c object) monthDays(s string) check.When {
	w := check.When{Every: check.OnMonthDay}
	for _, part := range strings.Split(strings.Trim(strings.TrimSpace(s), "[]"), ",") {
		day, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || day < 1 || day > 31 {
			c.wrong("when", fmt.Sprintf("%q is not a day of the month", strings.TrimSpace(part)), whenInstead)
			continue
		}
		w.Days = append(w.Days, day)
	}
	return w
}
