package story

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/terminal"
)

// Guide is a first morning, made from the department as it stands: who speaks
// first and where, and what to type, line by line, with a tab before the reason.
type Guide struct {
	Who, Where string
	Lines      []string
}

// NewGuide writes the morning of the first company that has an item on which a
// nick goes to the shop, or of the first company at all.
func NewGuide(setup bot.Setup, begin time.Time) Guide {
	d := setup.Dept
	if len(d.Companies) == 0 {
		return Guide{}
	}
	shift := setup.Rota.At(begin.Add(time.Minute))
	company, damaged := nickable(setup)
	who := account(d, func(p dept.Person) bool { return p.Company == company.ID && p.Platoon == shift.Platoon })
	g := Guide{Who: who, Where: string(company.ID)}
	g.say("+1m", "shift change: "+company.Name+" is asked")
	due := dueOf(setup, company.ID, shift.Date)
	engine := g.runs(setup, due)
	g.say("all good", "passes all that needs no reading")
	if text := figures(setup, due); text != "" {
		g.say(text, "readings, by the numbers asked")
	}
	g.say(damaged, "a fault: see what the shop gets")
	if engine {
		g.say("+7m", "seven minutes pass")
		g.say("off", "the engine is shut down")
	}
	g.desk(d, begin)
	return g
}

// desk is what the shop and a chief do.
func (g *Guide) desk(d *dept.Department, begin time.Time) {
	shop := account(d, func(p dept.Person) bool { return p.Has(dept.Shop) })
	g.say("/as "+shop, "now you are the shop")
	g.say("/in defect", "the fault's thread in the shop's room")
	g.say("seen", "the company is told")
	g.say("repaired, covered the spot", "the next check confirms it")
	chief := account(d, func(p dept.Person) bool { return p.Has(dept.Chief) })
	if chief == "" {
		chief = account(d, func(p dept.Person) bool { return p.Has(dept.Officer) })
	}
	g.say("/as "+chief, "now you are a chief")
	g.say("/in #officers", "the officers' room")
	if r, ok := d.RoomFor(dept.ForOfficers); ok {
		g.Lines[len(g.Lines)-1] = "/in " + r.Address + "\tthe officers' room"
	}
	g.say("status", "what can go out, and what cannot")
}

func (g *Guide) say(typed, why string) { g.Lines = append(g.Lines, typed+"\t"+why) }

// runs has the first engine started, to be timed, and the runs of the others
// stated; it reports whether an engine was started.
func (g *Guide) runs(setup bot.Setup, due []Due) bool {
	var stated []string
	started := false
	for _, a := range due {
		switch {
		case a.Check.Answer.Kind != check.Run:
		case !started:
			started = true
			g.say("started the "+called(setup, a.Item), "an engine, timed while you go on")
		default:
			stated = append(stated, fmt.Sprintf("%d %s", a.N, a.Good()))
		}
	}
	if len(stated) > 0 {
		g.say(strings.Join(stated, ", "), "the other engines, run before")
	}
	return started
}

// figures are the readings of the checks that no blanket answers.
func figures(setup bot.Setup, due []Due) string {
	var said []string
	for _, a := range due {
		k := a.Check.Answer.Kind
		if k.WantsFigure() && k != check.Run && k != check.Photo {
			said = append(said, fmt.Sprintf("%d %s", a.N, a.Good()))
		}
	}
	return strings.Join(said, ", ")
}

// nickable finds an item with a check on which a nick goes to the shop, best a
// hose, and says it of the item.
func nickable(setup bot.Setup) (dept.Company, string) {
	d := setup.Dept
	company, words, best := d.Companies[0], "something is wrong with the tool", false
	for _, it := range d.Items {
		c, ok := d.Company(it.Company)
		sheet := setup.Book[it.Sheet]
		if !ok || sheet == nil {
			continue
		}
		for _, ch := range sheet.Checks {
			hose := strings.Contains(strings.ToLower(sheet.Name), "hose")
			if ch.Fault.ActFor("nick") != check.Shop || !named(ch, "nick") || best && !hose {
				continue
			}
			company, words, best = c, fmt.Sprintf("%s has a nick in the %s", called(setup, it), ch.Label), true
			if hose {
				return company, words
			}
		}
	}
	return company, words
}

func named(c check.Check, damage string) bool {
	for _, d := range c.Fault.Damages {
		if d.Name == damage {
			return true
		}
	}
	return false
}

// called is what a crew would call an item: by a name of its own, else by its
// sheet's where the company carries no other of the sheet, else by its number.
func called(setup bot.Setup, it dept.Item) string {
	if len(it.Names) > 0 {
		return longest(it.Names)
	}
	for _, other := range setup.Dept.Carried(it.Company) {
		if other.Sheet == it.Sheet && other.ID != it.ID {
			return it.Number
		}
	}
	if sheet := setup.Book[it.Sheet]; sheet != nil && len(sheet.Names) > 0 {
		return sheet.Names[0]
	}
	return it.Number
}

func longest(names []string) string {
	best := ""
	for _, n := range names {
		if len(n) > len(best) {
			best = n
		}
	}
	return best
}

func account(d *dept.Department, is func(dept.Person) bool) string {
	for _, p := range d.People {
		if is(p) && p.Accounts[terminal.Name] != "" {
			return p.Accounts[terminal.Name]
		}
	}
	return ""
}
