package wording

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestRanges(t *testing.T) {
	for _, tt := range []struct {
		in   []int
		want string
	}{
		{nil, ""}, {[]int{4}, "4"}, {[]int{1, 2, 3, 4}, "1-4"}, {[]int{4, 1, 2, 4}, "1-2, 4"}, {[]int{9, 7, 8, 1, 3}, "1, 3, 7-9"},
	} {
		if got := ranges(tt.in); got != tt.want {
			t.Errorf("ranges(%v) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func TestTiesHold(t *testing.T) {
	lines := wrap(strings.Repeat("x", 50) + " " + tied("Wed Nov 25 07:12"))
	if len(lines) != 2 || lines[1] != "Wed Nov 25 07:12" {
		t.Errorf("the date is torn: %q", lines)
	}
}

func FuzzWrap(f *testing.F) {
	for _, s := range []string{"", "saw S-01\nchain", strings.Repeat("é", 200), "a\u00a0b", "\u00a0", "\x00x\x00", strings.Repeat("ab ", 90)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !utf8.ValidString(s) {
			t.Skip("chat hands in valid text only")
		}
		lines := wrap(s)
		for _, line := range lines {
			if size(line) > Width || line == "" || line != strings.TrimSpace(line) {
				t.Errorf("not a line: %q", line)
			}
		}
		if bare, kept := letters(s), letters(strings.Join(lines, "")); bare != kept {
			t.Errorf("lost on the way: %q became %q", bare, kept)
		}
		if c := clip(s, 20); size(c) > 20 || strings.ContainsAny(c, "\n\r\t") {
			t.Errorf("clip left %q", c)
		}
	})
}

// letters is a text without all that lines are broken at.
func letters(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '\u00a0' || breaks(r) }), "")
}
