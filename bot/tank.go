package bot

import (
	"slices"
	"strings"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/fuel"
	"crosslay/bot/reply"
)

// Doubts about a level that does not fit the one before it.
const (
	fuelHigher reply.Why = "fuel_higher" // it rose, and nobody said that it was filled
	fuelLower  reply.Why = "fuel_lower"  // it fell by more than the runs explain
	fuelAgain  reply.Why = "fuel_again"  // neither filled nor run: to be read again
)

// plausible sets the fuel levels of a message against the last reading of the
// shifts before. One that does not fit is asked about once a shift and is not
// recorded meanwhile; what is said of it then stands.
func (d *decision) plausible(st *Standing, w *Watch, results []reply.Result) {
	if w != st.Watch {
		return
	}
	for i := range results {
		r := &results[i]
		if why := d.fuelChange(w, *r, results); why != "" {
			claimed := reply.Doubt{Why: why, Refs: []check.Ref{r.Ref}, State: r.State, Value: r.Value}
			r.State, r.Value, r.Doubt = check.Unsure, check.Value{}, claimed
		}
	}
}

// fuelChange is what is odd about a level, "" if nothing is.
func (d *decision) fuelChange(w *Watch, r reply.Result, all []reply.Result) reply.Why {
	c, ok := d.Book.Of(d.Dept, r.Ref)
	item := d.Items[r.Ref.Item]
	if !ok || item == nil || c.Use != check.UseFuel || r.Value.Number == nil || r.State == check.Unsure || d.doubted(w, r.Ref) {
		return ""
	}
	last, known := item.Last[r.Ref.Check]
	if !known || last.Value.Number == nil || !last.At.Before(w.Start) || last.State == check.Fail && *r.Value.Number > *last.Value.Number {
		return "" // nothing to compare with; or low, and the crew was told to fill it
	}
	it, _ := d.Dept.Item(r.Ref.Item)
	q := fuel.Levels{
		Before: *last.Value.Number, Now: *r.Value.Number, Ran: item.Burned + minutesRun(all, r.Ref), Step: resolution(c),
		Filled: r.Fixed || r.Poured || item.Filled.After(last.At), Endurance: it.Figures.TankEndurance,
	}.Ask()
	switch {
	case q.Change == fuel.Higher:
		return fuelHigher
	case q.Change == fuel.Lower && item.Used.Before(last.At):
		return fuelLower
	}
	return ""
}

// resolution is how finely a gauge is read: as the sheet says, else in quarters.
func resolution(c *check.Check) float64 {
	if c.Answer.Step > 0 {
		return c.Answer.Step
	}
	return 0.25
}

// minutesRun are the minutes of the item's runs that the same message tells.
func minutesRun(results []reply.Result, ref check.Ref) float64 {
	sum := 0.0
	for _, r := range results {
		if r.Ref.Item == ref.Item && r.Ran && r.Value.Number != nil {
			sum += *r.Value.Number
		}
	}
	return sum
}

// doubted reports whether the level of the check was asked about in the shift.
func (d *decision) doubted(w *Watch, ref check.Ref) bool {
	return !w.Put[string(fuelHigher)+"/"+ref.String()].IsZero() || !w.Put[string(fuelLower)+"/"+ref.String()].IsZero()
}

// filled reads the answer to why levels do not fit: they were filled or run, then
// the levels stand; or not, then they are read again. Without a name it answers
// for all that were asked about.
func (d *decision) filled(w *Watch) (reply.Reading, bool) {
	said, read := "", reply.Reading{Intent: reply.Answer}
	for _, doubt := range w.Doubts {
		if doubt.Why != fuelHigher && doubt.Why != fuelLower {
			continue
		}
		if said = explained(d.ev.Text, d.itemWords(doubt.Refs[0].Item)); said == "" {
			continue
		}
		r := reply.Result{Ref: doubt.Refs[0], State: doubt.State, Value: doubt.Value, Words: d.ev.Text, Poured: doubt.Why == fuelHigher}
		if said == "no" {
			r.State, r.Value, r.Poured = check.Unsure, check.Value{}, false
			r.Doubt = reply.Doubt{Why: fuelAgain, Refs: doubt.Refs}
		}
		read.Results = append(read.Results, r)
	}
	return read, len(read.Results) > 0
}

// itemWords are the words by which an item is called.
func (d *decision) itemWords(id dept.ItemID) []string {
	it, _ := d.Dept.Item(id)
	if sheet := d.Book[it.Sheet]; sheet != nil {
		return strings.Fields(strings.ToLower(strings.Join(reply.NamesOf(it, sheet), " ")))
	}
	return nil
}

// fillWords are all the words that an answer about a fill or a run is made of. Any
// other word says something else, which must not be lost.
var fillWords = strings.Fields("yes yep yeah yup y no nope nobody not n it was is we i they he she the both all tank gas fuel filled filled up full topped top off refilled fueled " +
	"gassed this morning last night shift b a c yesterday after before call on used ran run drained someone somebody and wasn wasnt t")

// explained is "yes", "no", or "" where the words say something else. Own are the
// words that name what was asked about.
func explained(text string, own []string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,.;:!?'’", r) })
	has := func(any ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(any, w) })
	}
	switch {
	case slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(fillWords, w) && !slices.Contains(own, w) }):
		return ""
	case has("no", "nope", "nobody", "not", "wasn", "wasnt", "n"):
		return "no"
	case has("yes", "yep", "yeah", "yup", "y", "filled", "topped", "refilled", "fueled", "gassed", "used", "ran", "drained"):
		return "yes"
	}
	return ""
}
