package chat

import "testing"

func TestSpoken(t *testing.T) {
	for name, c := range map[string]struct {
		fields []Filled
		rest   string
		want   string
	}{
		"as_typed":     {[]Filled{{1, "", "3/4"}, {2, "", "ok"}, {5, "min", "6"}}, "", "1 3/4, 2 ok, 5 6 min"},
		"in_order":     {[]Filled{{9, "", "ok"}, {2, "", "low"}}, "", "2 low, 9 ok"},
		"empty_open":   {[]Filled{{1, "", "  "}, {2, "", "ok"}, {3, "min", ""}}, " ", "2 ok"},
		"own_unit":     {[]Filled{{5, "min", "6m"}, {6, "psi", "300 bar"}, {7, "in", `1/4"`}}, "", `5 6m, 6 300 bar, 7 1/4"`},
		"clock_times":  {[]Filled{{5, "min", "7:02-7:10"}}, "", "5 7:02-7:10"},
		"rest_below":   {[]Filled{{1, "", "full"}}, "left hose has a nick", "1 full\nleft hose has a nick"},
		"rest_alone":   {nil, "left hose has a nick", "left hose has a nick"},
		"nothing":      {nil, "", ""},
		"lines_joined": {[]Filled{{4, "", "a\nb"}}, "", "4 a b"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := Spoken(c.fields, c.rest); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
