package bot

import (
	"slices"
	"strconv"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// shopByCrew answers crew members who say what only the shop or an officer may.
func (d *decision) shopByCrew(st *Standing) bool {
	if slices.Contains(remains, strings.Trim(strings.ToLower(d.ev.Text), " ?.!")) {
		d.sayHere(chat.Status, st, wording.Lines("Still open:", d.remaining(st)))
		return true
	}
	if d.howTo(st) {
		return true
	}
	if strings.Contains(strings.ToLower(d.ev.Text), "service") && d.serviceWords(st) {
		return true
	}
	if !asksSomething(d.ev.Text) {
		return false
	}
	req, ok := reply.ReadRequest(d.ev.Text, d.local(d.ev.Said), names(d.Setup))
	if !ok {
		return false
	}
	switch req.Kind {
	case reply.RequestTakeOut, reply.RequestPutBack:
		d.order(req)
		return true
	case reply.RequestHelp:
		d.sayHere(chat.Answer, st, d.crewHelp(st))
		return true
	case reply.RequestStatus:
		if req.Company == "" && req.Station == "" && req.Item == "" || req.Company == st.Company {
			d.sayHere(chat.Status, st, wording.Lines("Status of "+d.companyName(st.Company), d.companyLines(st.Company)))
			return true
		}
	case reply.RequestCover, reply.RequestSpares, reply.RequestBoard, reply.RequestPicture, reply.RequestMonth, reply.RequestService,
		reply.RequestServiced, reply.RequestReliability, reply.RequestRuns:
		d.sayHere(chat.Answer, st, wording.AskElsewhere())
		return true
	case reply.RequestOutOfService, reply.RequestNotChecked, reply.RequestOpenDefects, reply.RequestFuel,
		reply.RequestHistory, reply.RequestWhy, reply.RequestSummary:
	}
	return false
}

// asksSomething is a quick look for the words of a crew's requests: nearly every
// message is an answer and need not be read as a request.
func asksSomething(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc([]string{"?", "status", "help", "service", "oos", "how", "can ", "state", "ready", "cover", "board", "picture", "week ahead", "worst"},
		func(word string) bool { return strings.Contains(text, word) })
}

// howTo shows the method of a check that is asked for by its number: "how 4".
func (d *decision) howTo(st *Standing) bool {
	words := strings.Fields(strings.Trim(strings.ToLower(d.ev.Text), " ?.!"))
	if len(words) < 2 || words[0] != "how" || st.Watch == nil {
		return false
	}
	n, err := strconv.Atoi(strings.TrimPrefix(words[len(words)-1], "#"))
	if err != nil || len(words) > 5 {
		return false
	}
	for _, a := range st.Watch.Asked {
		if c, ok := d.Book.Of(d.Dept, a.Ref); ok && a.N == n {
			d.sayHere(chat.Answer, st, wording.Hint(d.thing(a.Ref.Item), c))
			return true
		}
	}
	return false
}

// remains are the ways to ask what is still to be done.
var remains = []string{"what's left", "whats left", "what is left", "anything left", "what's open", "whats open", "what is open",
	"anything open", "what's missing", "whats missing", "what else", "anything else", "are we done", "did we miss anything", "done"}

// remaining lists what is still open in a shift, runs included.
func (d *decision) remaining(st *Standing) []string {
	var lines []string
	for _, a := range d.left(st) {
		lines = append(lines, d.numbered(a))
	}
	if len(lines) == 0 {
		return []string{"nothing: all answered"}
	}
	return lines
}

// handedOver carries word that the crew took an item to the shop to the threads of
// its open defects: the shop says when it is there.
func (d *decision) handedOver(st *Standing, read reply.Reading) bool {
	named := d.namedBy(st)
	if slices.ContainsFunc(read.Results, func(r reply.Result) bool { return r.Damage != "" || r.Ref.Item != named || r.State == check.OK }) {
		return false // it says more than that
	}
	if named == "" || !mentions(d.ev.Text, []string{"to the shop", "at the shop", "to shop", "at shop"}) ||
		!mentions(d.ev.Text, []string{"dropped", "took", "brought", "left", "delivered", "sent", "dropped off", "is", "its", "it's"}) {
		return false
	}
	told := false
	for _, f := range d.Defects {
		if f.Ref.Item == named && f.Open() {
			d.step(f, "said", d.who(), d.ev.Text)
			d.underDefect(chat.Report, f, wording.CrewSays(d.who(), d.companyName(st.Company), d.ev.Text))
			told = true
		}
	}
	if told {
		d.sayHere(chat.Echo, st, wording.ShopTold())
	}
	return told
}

// serviceWords are about out of service and back, said in a company's thread: of
// one of its items, by any of the names it answers to.
func (d *decision) serviceWords(st *Standing) bool {
	now, named := d.local(d.ev.Said), d.namedBy(st)
	if reply.ReadShop(d.ev.Text, now, nil).Returned && !d.Person.Has(dept.Shop, dept.Chief) {
		d.say(chat.Refusal, d.ev.Place, string(named), wording.Refusal("shop_only"))
		return true
	}
	req, ok := reply.ReadRequest(d.ev.Text, now, reply.Names{Items: d.called(st)})
	switch {
	case ok && (req.Kind == reply.RequestTakeOut || req.Kind == reply.RequestPutBack):
		d.order(req)
		return true
	case named != "" && reply.ReadShop(d.ev.Text, now, nil).OutOfService:
		d.order(reply.Request{Kind: reply.RequestTakeOut, Item: named})
		return true
	}
	return false
}

// called are the names by which just one item of the company is known.
func (d *decision) called(st *Standing) map[string]dept.ItemID {
	items := map[string]dept.ItemID{}
	for _, id := range d.carried(st.Company) {
		it, _ := d.Dept.Item(id)
		sheet := d.Book[it.Sheet]
		if sheet == nil {
			continue
		}
		for _, name := range reply.NamesOf(it, sheet) {
			name = strings.ToLower(name)
			if other, taken := items[name]; taken && other != id {
				items[name] = ""
				continue
			}
			items[name] = id
		}
	}
	for name, id := range items {
		if id == "" {
			delete(items, name)
		}
	}
	return items
}

// namedBy is the one item of the company that the message names, "" for none or
// several.
func (d *decision) namedBy(st *Standing) dept.ItemID {
	var named []dept.ItemID
	for name, id := range d.called(st) {
		if mentions(d.ev.Text, []string{name}) && !slices.Contains(named, id) {
			named = append(named, id)
		}
	}
	if len(named) != 1 {
		return ""
	}
	return named[0]
}

// pictured is the photo check that a picture answers: the one whose number the
// message has, else the only one that is open.
func (d *decision) pictured(w *Watch) []reply.Result {
	var open []Asked
	for _, a := range w.Asked {
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if ok && c.Answer.Kind == check.Photo && w.Recorded[a.Ref.String()].State != check.OK {
			open = append(open, a)
		}
	}
	if len(d.ev.Pics) == 0 || len(open) == 0 {
		return nil
	}
	i := slices.IndexFunc(open, func(a Asked) bool { return slices.Contains(strings.Fields(d.ev.Text), strconv.Itoa(a.N)) })
	if i < 0 && len(open) > 1 {
		return nil
	}
	return []reply.Result{{Ref: open[max(i, 0)].Ref, State: check.OK, Value: check.Word("photo"), Words: orElse(d.ev.Text, "photo")}}
}
