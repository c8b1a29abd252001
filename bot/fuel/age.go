package fuel

// Age is how old the fuel in a tank is, on average and well mixed, and since when
// that is known. It is kept in place of the fills: each one changes it.
type Age struct {
	Days  float64
	Known bool // false before the first fill was told
}

// Wait is the age after days in which nothing was filled; what burns is as old
// as the rest, so runs do not change it.
func (a Age) Wait(days float64) Age {
	if a.Known {
		a.Days += max(0, days)
	}
	return a
}

// Fill is the age after filling from one fraction to another with fresh fuel. A
// tank of unknown age is known from a fill onwards: what was in it counts as
// begun that day, so that a new bot does not cry wolf; it is older, never newer.
func (a Age) Fill(before, after float64) Age {
	before, after = clamp(before), clamp(after)
	if !(after > before) {
		return a
	}
	return Age{Days: a.Days * before / after, Known: true}
}

// Turnover is whether the fuel in a tank is renewed often enough.
type Turnover string

// Stale fuel is named; a limit of 0 asks for nothing.
const (
	Fresh      Turnover = "fresh"
	Stale      Turnover = "stale"
	NotWatched Turnover = "not watched"
)

// Turned sets the age against the file's limit in days.
func (a Age) Turned(limit float64) Turnover {
	switch {
	case !a.Known || !(limit > 0):
		return NotWatched
	case a.Days > limit:
		return Stale
	}
	return Fresh
}
