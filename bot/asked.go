package bot

import (
	"regexp"
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// otherWays are ways to ask that mean what another way says.
var otherWays = []struct {
	said *regexp.Regexp
	as   string
}{
	{regexp.MustCompile(`^(who|what|which)('?s| is| are| companies are)? (not|n't) (ready|good to go|in service)( yet| today| now)?$`), "status"},
	{regexp.MustCompile(`^(who|what|which)('?s| is| are| companies are)? good to go$`), "status"},
	{regexp.MustCompile(`^how many( defects| faults)?( are)?( still)? open( defects| faults)?( now| do we have)?$`), "open defects"},
	{regexp.MustCompile(`^(is|are) (.+) good to go$`), "is $2 ready"},
}

// asked is a question in the way in which requests are read.
func asked(text string) string {
	plain := strings.ReplaceAll(strings.Trim(strings.ToLower(text), " ?.!"), "’", "'")
	for _, way := range otherWays {
		if way.said.MatchString(plain) {
			return way.said.ReplaceAllString(plain, way.as)
		}
	}
	return text
}

// rig is how companies are called: E9, engine 9.
var rig = regexp.MustCompile(`\b(?:(?:engine|truck|ladder|rescue|squad|quint|medic|battalion) \d+|[a-z]{1,2}\d{1,3})\b`)

// unknownCompany says that there is no company by the name that a request has, and
// which there are.
func (d *decision) unknownCompany() bool {
	words := bare(d.ev.Text)
	called := rig.FindString(words)
	if called == "" || d.companyNamed() || d.numberNamed() != "" || !d.ev.Place.Direct && !d.meansUs() {
		return false
	}
	known := names(d.Setup)
	if _, ok := known.Companies[called]; ok {
		return false
	}
	// With a company of theirs in its place it must be a request.
	if len(d.Dept.Companies) == 0 {
		return false
	}
	theirs := strings.Replace(words, called, strings.ToLower(d.Dept.Companies[0].Name), 1)
	if _, ok := reply.ReadRequest(asked(theirs), d.local(d.ev.Said), known); !ok {
		return false
	}
	var all []string
	for _, c := range d.Dept.Companies {
		all = append(all, c.Name)
	}
	d.say(chat.Ask, d.ev.Place, "", wording.NoSuchCompany(called, all))
	return true
}

// putOn takes "put HH-90 on E1", said in the shop's room, for the spare's place: in
// the one open defect of its kind there.
func (d *decision) putOn() bool {
	id := d.numberNamed()
	spare, ok := d.Dept.Item(id)
	first, _, _ := strings.Cut(bare(d.ev.Text), " ")
	if !ok || !spare.Spare || !d.Person.Has(dept.Shop) || strings.Contains(d.ev.Text, "?") ||
		!slices.Contains([]string{"put", "placed", "place", "gave", "give", "spare"}, first) {
		return false
	}
	var meant []*defect.Defect
	var lines []string
	for _, f := range d.Defects {
		c, _ := d.Dept.Company(f.Company)
		if f.Open() && f.Kind == spare.Kind && mentions(d.ev.Text, append([]string{c.Name, string(c.ID)}, c.Names...)) {
			meant, lines = append(meant, f), append(lines, d.defectLine(f))
		}
	}
	if len(meant) == 1 {
		f := meant[0]
		d.Thread.defect = f.ID
		d.shopSteps(f, reply.ShopWords{SparePlaced: true, Spare: id, Words: d.ev.Text})
		return true
	}
	if len(meant) == 0 {
		lines = []string{"no open defect of a " + d.thing(id).Name + " there"}
	}
	d.say(chat.Ask, d.ev.Place, string(id), wording.Lines("For which defect? Say it in its thread:", lines))
	return true
}

// fine are the ways in which a technician says that there was no fault. What is fine
// now was repaired.
var fine = regexp.MustCompile(`^(?:(?:it'?s|its|it is|was|is|it was|that'?s|thats) )?(?:fine|ok|good)? ?(?:just|only) (?:some |a bit of |a little )?(?:dirt|dirty|mud|dust|grease|soot)$`)

func fineAsItIs(text string) bool {
	return fine.MatchString(strings.ReplaceAll(bare(text), "’", "'"))
}
