package bot

import (
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// openRoom takes a message in a channel outside a thread for the company that it
// names, else for the speaker's own, and never guesses.
func (d *decision) openRoom() {
	if d.Room.ID == "" && !d.ev.Place.Direct {
		return
	}
	if d.ev.Place.Direct && !d.Known {
		d.say(chat.Refusal, d.ev.Place, "", wording.Refusal("unknown_person"))
		return
	}
	if slices.Contains(heard, bare(d.ev.Text)) && !d.ev.Place.Direct {
		return // talk among people
	}
	if c, ok := d.speaksFor(); ok {
		if st := d.Standings[c]; st.Watch != nil && !d.onlyAsks(st) {
			d.crewWords(st, d.watchAt(st))
		}
		return
	}
	if !d.speaksOfChecks() && (!d.ev.Place.Direct || d.numberNamed() == "") {
		return
	}
	var names []string
	for _, c := range d.Dept.CompaniesIn(d.Room.ID) {
		names = append(names, c.Name)
	}
	d.say(chat.Ask, d.ev.Place, "", wording.WhichCompany(names))
}

// onlyAsks reports whether the words ask the others in an open room something
// about checks and say nothing of any: no word of the bot is wanted then.
func (d *decision) onlyAsks(st *Standing) bool {
	if d.ev.Place.Direct || !strings.HasSuffix(strings.TrimSpace(d.ev.Text), "?") {
		return false
	}
	r := reply.Read(d.context(st, st.Watch), d.ev.Text)
	return r.Intent == reply.Answer && len(r.Starts)+len(r.Stops)+len(r.Reports) == 0 && !r.Busy && !r.Back &&
		!slices.ContainsFunc(r.Results, func(r reply.Result) bool { return r.State != check.Unsure })
}

// speaksOfChecks reports whether the words would mean something to any company of
// the room, or to the speaker's own: all else in an open room is talk among people.
func (d *decision) speaksOfChecks() bool {
	for _, c := range d.Dept.CompaniesIn(d.Room.ID) {
		st := d.Standings[c.ID]
		if st == nil || st.Watch == nil {
			continue
		}
		if says(d.context(st, st.Watch), d.ev.Text) {
			return true
		}
	}
	own := d.Person.Company
	return own != "" && says(reply.Context{Now: d.local(d.ev.Said), Items: reply.Full(d.Dept, d.Book, own)}, d.ev.Text)
}

func says(ctx reply.Context, text string) bool {
	r := reply.Read(ctx, text)
	return r.Intent != reply.Chatter && r.Intent != reply.Question
}

// watchAt is the shift in which the event was said.
func (d *decision) watchAt(st *Standing) *Watch {
	if st.Watch != nil && !d.onDuty(st) && !d.ev.Said.Before(st.Watch.End) {
		d.touch(st.Company)
		d.turn(st, d.Rota.At(d.now)) // the words came before the tick of the change
	}
	if p := st.Prior; p != nil && st.Watch != nil && d.ev.Said.Before(st.Watch.Start) {
		return p
	}
	return st.Watch
}

// withoutCompany is a message without the name that says whose it is: "E1" is no
// empty tank.
func (d *decision) withoutCompany(text string, c dept.CompanyID) string {
	company, _ := d.Dept.Company(c)
	for _, name := range append([]string{company.Name, string(company.ID)}, company.Names...) {
		rest, ok := cutFold(text, name)
		if ok && (rest == "" || apart(rune(rest[0]))) {
			return strings.TrimLeft(rest, " ,.;:")
		}
	}
	return text
}

func cutFold(text, prefix string) (string, bool) {
	if len(text) < len(prefix) || !strings.EqualFold(text[:len(prefix)], prefix) {
		return text, false
	}
	return text[len(prefix):], true
}

func (d *decision) speaksFor() (dept.CompanyID, bool) {
	var named []dept.CompanyID
	for _, c := range d.Dept.Companies {
		if d.Standings[c.ID] != nil && mentions(d.ev.Text, append([]string{c.Name, string(c.ID)}, c.Names...)) {
			named = append(named, c.ID)
		}
	}
	if len(named) == 1 {
		return named[0], true
	}
	own := d.Person.Company
	if len(named) > 1 || own == "" || d.Standings[own] == nil {
		return "", false
	}
	return own, d.carriesNamed(own)
}

// carriesNamed reports whether no item that the message names is carried by
// others only: by its number anywhere, by its kind's names in the same room.
func (d *decision) carriesNamed(own dept.CompanyID) bool {
	if _, foreign := d.foreign(d.Standings[own]); foreign {
		return false
	}
	for _, it := range d.Dept.Items {
		sheet := d.Book[it.Sheet]
		if d.Standings[it.Company] == nil || it.Company == own || sheet == nil {
			continue
		}
		if called := reply.NamesOf(it, sheet); mentions(d.ev.Text, called) && !d.answersTo(own) {
			return false
		}
	}
	return true
}

// answersTo reports whether a company carries something by a name that the
// message has.
func (d *decision) answersTo(c dept.CompanyID) bool {
	for _, it := range d.Dept.Carried(c) {
		if sheet := d.Book[it.Sheet]; sheet != nil && mentions(d.ev.Text, reply.NamesOf(it, sheet)) {
			return true
		}
	}
	return false
}

// mentions reports whether the text has one of the names as whole words. Names of
// a figure alone are too easily something else.
func mentions(text string, names []string) bool {
	padded := " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), apart), " ") + " "
	for _, n := range names {
		n = strings.ToLower(n)
		if strings.Trim(n, "0123456789") != "" && strings.Contains(padded, " "+n+" ") {
			return true
		}
	}
	return false
}
