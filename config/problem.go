package config

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one mistake of a department file: where it stands, what is wrong,
// and what to write instead.
type Problem struct {
	File    string
	Line    int    // from 1; 0 where it concerns the file as a whole
	Key     string // path of the key: items.saw.company; "" for the file as a whole
	Text    string
	Instead string // a sentence, or "" where Text says it all
}

// String is the problem as one line: file:line: key: text. Instead.
func (p Problem) String() string {
	where := p.File
	if p.Line > 0 {
		where = fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	if p.Key != "" {
		where += ": " + p.Key
	}
	s := where + ": " + p.Text + "."
	if p.Instead != "" {
		s += " " + p.Instead
		if !strings.HasSuffix(s, "?") {
			s += "."
		}
	}
	return hideSecrets(s)
}

// Problems is every mistake of a file, in the order of its lines. It never
// quotes what looks like a secret.
type Problems []Problem

func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// maxProblems is as many as anybody reads; a file with more is as a rule not a
// department file at all.
const maxProblems = 200

// ordered is the problems by line, cut short where they are too many.
func (ps Problems) ordered() Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Key, b.Key))
	})
	if n := len(ps) - maxProblems; n > 0 {
		last := Problem{File: ps[0].File, Line: ps[maxProblems].Line, Text: fmt.Sprintf("%d more mistakes follow from here on", n)}
		return append(ps[:maxProblems:maxProblems], last)
	}
	return ps
}

// oneOf is the sentence that offers what may be written.
func oneOf[S ~string](known []S) string {
	words := make([]string, len(known))
	for i, k := range known {
		words[i] = string(k)
	}
	return "Write one of: " + strings.Join(words, ", ")
}

// suggest offers the known words nearest to what was written, or all of them
// where none is near and they are few.
func suggest[S ~string](written string, known []S) string {
	var near []string
	least := 1 + max(1, len(written)/3)
	for _, k := range known {
		switch d := distance(strings.ToLower(written), strings.ToLower(string(k))); {
		case d < least:
			near, least = []string{string(k)}, d
		case d == least && near != nil:
			near = append(near, string(k))
		}
	}
	switch {
	case len(near) > 0:
		return "Did you mean " + strings.Join(near[:min(3, len(near))], " or ") + "?"
	case len(known) == 0 || len(known) > 16:
		return ""
	}
	return oneOf(known)
}

// distance counts the letters to add, drop, change or swap with a neighbour to
// turn a into b. Words too long to be keys are far from everything.
func distance(a, b string) int {
	if len(a) > 60 || len(b) > 60 {
		return 60
	}
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
