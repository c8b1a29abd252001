package bot

import (
	"slices"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// Shot is a photo that no report has yet: it goes with the next words of its sender
// that make one.
type Shot struct {
	Pics  []chat.Picture `json:"pics,omitempty"`
	Text  string         `json:"text,omitempty"` // the caption
	Items []dept.ItemID  `json:"items,omitempty"`
	By    string         `json:"by,omitempty"`
	At    time.Time      `json:"at,omitzero"`
}

// shotFor is how long a photo waits for words.
const shotFor = 30 * time.Minute

// waits reports whether the photo waits for words of the author.
func (s Shot) waits(author string, at time.Time) bool {
	return len(s.Pics) > 0 && s.By == author && at.Sub(s.At) <= shotFor
}

// shownItems are the items of the shift that the message names.
func (d *decision) shownItems(w *Watch) []dept.ItemID {
	var named []dept.ItemID
	for _, a := range w.Asked {
		it, _ := d.Dept.Item(a.Ref.Item)
		if sheet := d.Book[it.Sheet]; sheet != nil && !slices.Contains(named, it.ID) && mentions(d.ev.Text, reply.NamesOf(it, sheet)) {
			named = append(named, it.ID)
		}
	}
	return named
}

// speaksOfAnother reports whether a caption is about another item than the defect's.
func (d *decision) speaksOfAnother(w *Watch, f *defect.Defect, read reply.Reading) bool {
	if slices.ContainsFunc(read.Results, func(r reply.Result) bool { return r.Ref == f.Ref }) {
		return false
	}
	named := d.shownItems(w)
	return len(named) > 0 && !slices.Contains(named, f.Ref.Item)
}

// holdShot keeps a photo for the words that will say what it shows, and asks for
// them where nothing else is asked.
func (d *decision) holdShot(st *Standing, w *Watch) {
	results := w.Statements[len(w.Statements)-1].Results
	if slices.ContainsFunc(results, func(r reply.Result) bool { return r.State != check.Unsure }) {
		return
	}
	w.Shot = Shot{Pics: d.ev.Pics, Text: short(d.ev.Text), Items: d.shownItems(w), By: d.author(), At: d.ev.Said}
	if len(results) > 0 {
		return
	}
	var things []wording.Thing
	for _, id := range w.Shot.Items {
		things = append(things, d.thing(id))
	}
	if len(things) == 1 {
		w.Held = Held{Item: w.Shot.Items[0], By: d.author(), At: d.ev.Said}
	}
	d.sayHere(chat.Ask, st, wording.PhotoOf(things, d.ev.Text))
}

// aboutShot reads an answer to which item a photo shows together with its caption:
// "left" after "hose leak". Nothing is made of it but a fault.
func (d *decision) aboutShot(st *Standing, w *Watch) (reply.Reading, bool) {
	if !w.Shot.waits(d.author(), d.ev.Said) || len(w.Shot.Items) == 0 || len(d.ev.Pics) > 0 || !saysWhat(d.ev.Text) {
		return reply.Reading{}, false
	}
	ctx := d.context(st, w)
	if alone := reply.Read(ctx, d.ev.Text); len(alone.Results)+len(alone.Reports) > 0 || alone.Undo || alone.Busy || alone.Back {
		return reply.Reading{}, false
	}
	for _, both := range []string{w.Shot.Text + ", " + d.ev.Text, d.ev.Text + " " + w.Shot.Text} {
		if read, ok := d.shotFault(ctx, w, both); ok {
			d.ev.Text = both
			return read, true
		}
	}
	return reply.Reading{}, false
}

// saysWhat reports whether the words can be the answer to what a photo shows.
func saysWhat(text string) bool {
	return len(strings.Fields(text)) <= 8 && !strings.Contains(text, "?") && !slices.Contains(heard, bare(text)) &&
		!mentions(text, []string{"nothing", "nevermind", "never mind", "no", "none", "nope", "just", "forget it", "undo"})
}

// shotFault is the fault that caption and answer together tell of, on one of the
// items that the caption may mean; where no check asks about it, the one they name.
func (d *decision) shotFault(ctx reply.Context, w *Watch, both string) (reply.Reading, bool) {
	read := reply.Read(ctx, both)
	read.Results = slices.DeleteFunc(read.Results, func(r reply.Result) bool {
		return r.State != check.Fail || !slices.Contains(w.Shot.Items, r.Ref.Item)
	})
	if len(read.Results)+len(read.Reports) > 0 {
		return read, true
	}
	id := d.pointedAt(w, both)
	return reply.Reading{Intent: reply.Report, Reports: []reply.Complaint{{Item: id, Words: both}}}, id != ""
}

// pointedAt is the one item of those that a caption may mean which the words name
// by what it does not share with the others.
func (d *decision) pointedAt(w *Watch, words string) dept.ItemID {
	best, most, ties := dept.ItemID(""), 0, false
	for _, id := range w.Shot.Items {
		it, _ := d.Dept.Item(id)
		n := 0
		for _, name := range reply.NamesOf(it, d.Book[it.Sheet]) {
			if mentions(words, []string{name}) {
				n++
			}
		}
		ties = n == most || ties && n < most
		if n > most {
			best, most = id, n
		}
	}
	if ties {
		return ""
	}
	return best
}

// takeShot has a photo that waits go with the fault that is told now.
func (d *decision) takeShot(w *Watch, read reply.Reading) {
	of := func(id dept.ItemID) bool { return len(w.Shot.Items) == 0 || slices.Contains(w.Shot.Items, id) }
	fault := slices.ContainsFunc(read.Reports, func(c reply.Complaint) bool { return of(c.Item) }) ||
		slices.ContainsFunc(read.Results, func(r reply.Result) bool { return r.State == check.Fail && of(r.Ref.Item) })
	if !fault || len(d.ev.Pics) > 0 || !w.Shot.waits(d.author(), d.ev.Said) {
		return
	}
	d.ev.Pics, w.Shot = w.Shot.Pics, Shot{}
}
