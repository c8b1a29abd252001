package reliability

// Report is what a chief asks of one item, or of a kind.
type Report struct {
	MTBF    MTBF
	Trend   Trend
	Now     PowerLaw   // MTBF now, worth telling where the trend is more than luck
	Fellows Comparison // with the other items of the kind
}

// Silent reports whether there is nothing worth telling.
func (r Report) Silent() bool { return r.MTBF.Silent != Spoken }

// Of reports on an item with the usual confidence. Fellows are the other items of
// its kind together, on the same clock; among is how many items were looked at
// to find this one, 1 if somebody asked about it by name.
func Of(h History, fellows Count, among int) Report {
	if s := h.Fits(); s != Spoken {
		return silent(s)
	}
	return Report{
		MTBF: MTBFOf(h.Count(), Usual), Trend: TrendOf(h), Now: FitModified(h),
		Fellows: Compare(h.Count(), fellows, among, Usual),
	}
}

func silent(s Silence) Report {
	return Report{MTBF: MTBF{Silent: s}, Trend: Trend{Silent: s}, Now: PowerLaw{Silent: s}, Fellows: Comparison{Silent: s}}
}

// OfKind reports on all items of a kind together: one rate, and one trend in which
// each item starts with its own watch. There are no fellows, and no one power law.
// An item that was never watched is left out.
func OfKind(items []History) Report {
	watched := make([]History, 0, len(items))
	all := Count{}
	for _, h := range items {
		if s := h.Fits(); s == Disorder {
			return silent(s)
		}
		if h.Hours > 0 {
			watched, all = append(watched, h), all.Plus(h.Count())
		}
	}
	return Report{MTBF: MTBFOf(all, Usual), Trend: TrendOf(watched...), Now: PowerLaw{Silent: Several}, Fellows: Comparison{Silent: NoFellows}}
}

// Worst is the index of the item with the highest rate of failures, with its
// comparison with all others; an item's place in the list breaks ties. It is -1
// where no item has failed.
func Worst(items []Count, confidence float64) (int, Comparison) {
	worst, all := -1, Count{}
	for i, c := range items {
		all = all.Plus(c)
		if c.watched() && c.Failures > 0 && (worst < 0 || c.rate() > items[worst].rate()) {
			worst = i
		}
	}
	if worst < 0 {
		return -1, Comparison{Silent: TooFew}
	}
	mine := items[worst]
	others := Count{all.Failures - mine.Failures, all.Hours - mine.Hours}
	return worst, Compare(mine, others, len(items), confidence)
}

func (c Count) rate() float64 { return float64(c.Failures) / c.Hours }
