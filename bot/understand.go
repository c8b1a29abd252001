package bot

import (
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// asAnswer reads a message as the answer to what was asked or reminded of last,
// where it is no more than that.
func (d *decision) asAnswer(st *Standing, w *Watch) (reply.Reading, bool) {
	if read, ok := d.position(w); ok {
		return read, true
	}
	if read, ok := d.filled(w); ok {
		return read, true
	}
	return d.fixedIt(st, w)
}

// understand reads a message as it stands.
func (d *decision) understand(st *Standing, w *Watch) reply.Reading {
	ctx := d.context(st, w)
	return d.notDue(ctx, w, d.elsewhere(w, usedIt(ctx, reply.Read(ctx, d.ev.Text), d.ev.Text)))
}

// usedIt takes "used it on a call" for the use of the item that holds, not for
// going on a call now.
func usedIt(ctx reply.Context, read reply.Reading, text string) reply.Reading {
	if !read.Busy || !mentions(text, []string{"used it", "used them", "used that", "used both"}) || mentions(text, []string{"going", "headed", "responding", "another"}) {
		return read
	}
	read.Busy = false
	if ctx.Held != "" && len(read.Used) == 0 {
		read.Used, read.Held = []dept.ItemID{ctx.Held}, ctx.Held
	}
	return read
}

// elsewhere takes back results that only what was asked before made of the words,
// where these speak of another thing ("somebody broke the siren") or promise to
// look. A fault of another thing is a report on an item to be named.
func (d *decision) elsewhere(w *Watch, read reply.Reading) reply.Reading {
	other, later := d.otherThing(read), promises(d.ev.Text)
	if !other && !later {
		return read
	}
	var kept []reply.Result
	for _, r := range read.Results {
		switch {
		case !d.inDoubt(w, r.Ref) || d.names(r.Ref) || r.State == check.Unsure || !other && r.State != check.OK:
			kept = append(kept, r)
		case r.State == check.Fail:
			read.Reports = append(read.Reports, reply.Complaint{Words: d.ev.Text})
		}
	}
	read.Results = kept
	return read
}

// otherThing reports whether the words that were not understood are a thing: "the
// siren".
func (d *decision) otherThing(read reply.Reading) bool {
	text := " " + bare(d.ev.Text) + " "
	return slices.ContainsFunc(read.NotUnderstood, func(words string) bool {
		return slices.ContainsFunc([]string{" the ", " a ", " an ", " our ", " my "}, func(article string) bool {
			return strings.Contains(text, article+bare(words)+" ")
		})
	})
}

// promises reports whether the words put the looking off: "ok will look".
func promises(text string) bool {
	if words := strings.Fields(bare(text)); len(words) <= 3 && strings.HasSuffix(bare(text), "on it") {
		return true
	}
	return mentions(text, []string{"will look", "will check", "will do", "will see", "gonna look", "gonna check", "going to look", "going to check",
		"i'll look", "i'll check", "ill look", "ill check", "we'll look", "we'll check", "let me look", "let me check", "looking now", "checking now"})
}

// inDoubt reports whether the check was asked back about.
func (d *decision) inDoubt(w *Watch, ref check.Ref) bool {
	return slices.ContainsFunc(w.Doubts, func(doubt reply.Doubt) bool { return slices.Contains(doubt.Refs, ref) })
}

// names reports whether the message names the check or its item.
func (d *decision) names(ref check.Ref) bool {
	it, _ := d.Dept.Item(ref.Item)
	c, ok := d.Book.Of(d.Dept, ref)
	return ok && mentions(d.ev.Text, append(append([]string{c.Label}, c.Names...), reply.NamesOf(it, d.Book[it.Sheet])...))
}

// okToWhat takes a bare "ok" for no more than that a message of the bot's was
// heard, unless it answers what was asked back: it passes nothing, and what is open
// is named.
func (d *decision) okToWhat(st *Standing, w *Watch) bool {
	if !slices.Contains(heard, bare(d.ev.Text)) || w.Reminded.IsZero() && w.Told.IsZero() && len(w.Doubts) > 0 {
		return false
	}
	if !w.Told.IsZero() || d.busy(st) {
		return true // of the shop's news; or on a call, where nothing is asked
	}
	if open := d.openOnes(st); len(open) > 0 && w == st.Watch {
		d.sayHere(chat.Ask, st, wording.OkToWhat(open))
	}
	return true
}

// answersShop carries the answer to a question of the shop's to the defect's thread,
// and reports whether it is nothing but that. What it says of the item's checks is
// heard too.
func (d *decision) answersShop(st *Standing, w *Watch, read reply.Reading) bool {
	f := d.defect(w.ShopAsks)
	bareOK := slices.Contains(heard, bare(d.ev.Text))
	about := slices.ContainsFunc(read.Results, func(r reply.Result) bool { return f != nil && r.Ref.Item == f.Ref.Item })
	more := len(read.Starts)+len(read.Stops)+len(read.Used) > 0 || read.Undo || read.Busy || read.Back || read.Intent == reply.Question
	if f == nil || len(d.ev.Pics) > 0 || !bareOK && (more || len(read.Results) > 0 && !about) {
		return false
	}
	w.ShopAsks = ""
	d.step(f, "said", d.who(), d.ev.Text)
	d.underDefect(chat.Report, f, wording.CrewSays(d.who(), d.companyName(st.Company), d.ev.Text))
	if about && !bareOK {
		return false
	}
	d.sayHere(chat.Echo, st, wording.ShopTold())
	return true
}

// heard are the words that say no more than that a message arrived.
var heard = []string{"ok", "okay", "k", "kk", "okey", "ok thanks", "ok thx", "ok got it", "yes", "yep", "yup", "yeah", "ok ok", "fine", "good", "sure", "o k", "ok sir", "ok chief", "ok cap"}

// bare is a message without marks, in lower case.
func bare(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), apart), " ")
}

// notDue looks again at words about a fault that no asked check covers: the item
// may have a check for it that is not due today. Only a fault is taken so; a pass
// of what was not asked means nothing.
func (d *decision) notDue(ctx reply.Context, w *Watch, read reply.Reading) reply.Reading {
	kept := read.Reports[:0:0]
	for _, c := range read.Reports {
		r, ok := d.dormantFault(ctx, w, c)
		if !ok {
			kept = append(kept, c)
			continue
		}
		read.Intent = reply.Answer
		read.Results = append(read.Results, r)
		read.NotUnderstood = slices.DeleteFunc(read.NotUnderstood, func(words string) bool { return strings.Contains(c.Words, words) })
	}
	read.Reports = kept
	return read
}

// dormantFault is the one fault that a complaint says of the item's checks that
// were not asked in the shift.
func (d *decision) dormantFault(ctx reply.Context, w *Watch, c reply.Complaint) (reply.Result, bool) {
	it, _ := d.Dept.Item(c.Item)
	sheet := d.Book[it.Sheet]
	if sheet == nil {
		return reply.Result{}, false
	}
	rest := reply.Item{ID: it.ID, Names: reply.NamesOf(it, sheet)}
	for i, k := range sheet.Checks {
		if numberOf(w, check.Ref{Item: it.ID, Check: k.ID}) == 0 && mentions(d.ev.Text, append([]string{k.Label}, k.Names...)) {
			rest.Checks = append(rest.Checks, reply.Asked{Check: &sheet.Checks[i]})
		}
	}
	again := reply.Read(reply.Context{Items: []reply.Item{rest}, Now: ctx.Now, Held: it.ID}, d.ev.Text)
	faults := slices.DeleteFunc(again.Results, func(r reply.Result) bool { return r.State != check.Fail })
	if len(rest.Checks) == 0 || len(faults) != 1 {
		return reply.Result{}, false
	}
	return faults[0], true
}

// position reads the answer to whether the tool was closed when a low was read.
func (d *decision) position(w *Watch) (reply.Reading, bool) {
	i := slices.IndexFunc(w.Doubts, func(doubt reply.Doubt) bool { return doubt.Why == proviso && len(doubt.Refs) > 0 })
	said := closedOrOpen(d.ev.Text)
	if i < 0 || said == reply.Unknown {
		return reply.Reading{}, false
	}
	r := reply.Result{Ref: w.Doubts[i].Refs[0], State: check.Fail, Value: w.Doubts[i].Value, Position: said, Words: d.ev.Text}
	if r.Value.IsZero() {
		r.Value = check.Word("low")
	}
	return reply.Reading{Intent: reply.Answer, Results: []reply.Result{r}}, true
}

// fixedIt takes a bare "fixed" or "cleaned them" for the fault that the crew is to
// fix: the only one, or the one that the speaker told of just before.
func (d *decision) fixedIt(st *Standing, w *Watch) (reply.Reading, bool) {
	if !bareFix(d.ev.Text) {
		return reply.Reading{}, false
	}
	owed := crewOwes(st)
	if len(owed) > 1 {
		owed = slices.DeleteFunc(owed, func(ref check.Ref) bool { return !d.toldLast(w, ref) })
	}
	if len(owed) != 1 {
		return reply.Reading{}, false
	}
	r := reply.Result{Ref: owed[0], State: check.OK, Fixed: true, Words: d.ev.Text}
	return reply.Reading{Intent: reply.Answer, Results: []reply.Result{r}}, true
}

// crewOwes are the faults that the crew is to fix.
func crewOwes(st *Standing) []check.Ref {
	var owed []check.Ref
	for _, o := range st.Obligations {
		if o.Ladder == nag.CrewFix {
			owed = append(owed, check.Ref{Item: o.Item, Check: check.ID(o.Check)})
		}
	}
	return owed
}

// fixedWhat asks which of several faults was fixed.
func (d *decision) fixedWhat(st *Standing, w *Watch) bool {
	owed := crewOwes(st)
	if len(owed) < 2 || !bareFix(d.ev.Text) {
		return false
	}
	var lines []string
	for _, ref := range owed {
		lines = append(lines, d.numbered(Asked{N: numberOf(w, ref), Ref: ref}))
	}
	d.sayHere(chat.Ask, st, wording.FixedWhat(lines))
	return true
}

// toldLast reports whether the speaker's last words of the shift, a short while ago,
// told of the fault.
func (d *decision) toldLast(w *Watch, ref check.Ref) bool {
	for i := len(w.Statements) - 1; i >= 0; i-- {
		if s := w.Statements[i]; s.Author == d.author() && !s.Gone {
			return d.ev.Said.Sub(s.Said) <= heldFor && slices.ContainsFunc(s.Results, func(r reply.Result) bool { return r.Ref == ref && r.State == check.Fail })
		}
	}
	return false
}

var (
	fixes    = strings.Fields("fixed cleaned wiped greased lubed capped tightened adjusted snugged reset")
	fixWords = strings.Fields("it its it's them that they theyre all now both is are up down off the")
)

// bareFix reports whether the words say that something was put right, and not what.
func bareFix(text string) bool {
	words := strings.Fields(bare(text))
	return !strings.Contains(text, "?") && slices.ContainsFunc(words, func(w string) bool { return slices.Contains(fixes, w) }) &&
		!slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(fixes, w) && !slices.Contains(fixWords, w) })
}

// positionWords are all the words that an answer about the tool's position is made
// of. Any other word says something else, which must not be lost.
var positionWords = strings.Fields("it was is the tool tips were they we had yes yep yeah yup no nope not wasnt wasn t dunno open wide closed close shut nearly then i think")

func closedOrOpen(text string) reply.Position {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,.;:!?'", r) })
	for _, w := range words {
		if !slices.Contains(positionWords, w) {
			return reply.Unknown
		}
	}
	has := func(any ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(any, w) })
	}
	switch {
	case has("open", "no", "nope", "not", "wasnt", "wasn", "dunno", "wide", "think"):
		return reply.Unmet
	case has("closed", "close", "shut", "yes", "yep", "yeah", "yup"):
		return reply.Met
	}
	return reply.Unknown
}
