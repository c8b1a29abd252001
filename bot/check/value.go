package check

// State is what a reading comes to.
type State string

// OK passes; Fault needs somebody's attention; Unsure was not settled and is
// asked about. A check that nobody spoke of is Open.
const (
	Open   State = ""
	OK     State = "ok"
	Fail   State = "fault"
	Unsure State = "unsure"
)

// Value is the figure or word of a reading. At most one of Number and Word is
// given; dates are words (2027-03 or 2027-03-15), as are low and over, choices
// and texts. Number is in the check's own unit, a level is a fraction of full,
// a run is in minutes.
type Value struct {
	Number *float64 `json:"number,omitempty"`
	Word   string   `json:"word,omitempty"`
}

// Num makes the value of a figure.
func Num(f float64) Value { return Value{Number: &f} }

// Word makes the value of a word.
func Word(s string) Value { return Value{Word: s} }

// IsZero reports whether no value is given.
func (v Value) IsZero() bool { return v.Number == nil && v.Word == "" }

// Equal reports whether both are the same figure or word.
func (v Value) Equal(w Value) bool {
	if (v.Number == nil) != (w.Number == nil) || v.Word != w.Word {
		return false
	}
	return v.Number == nil || *v.Number == *w.Number
}

// Within judges a figure in the check's own unit against its limits: OK inside,
// with the word "low" or "over" outside. Limits themselves are inside. A run
// under its minimum is low.
func (a Answer) Within(f float64) (State, string) {
	const slack = 1e-9 // conversions leave crumbs
	if a.Min != nil && f < *a.Min-slack {
		return Fail, "low"
	}
	if a.Max != nil && f > *a.Max+slack {
		return Fail, "over"
	}
	return OK, ""
}
