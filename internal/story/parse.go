package story

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"crosslay/internal/terminal"
)

// Verb is what a line of a story does.
type Verb string

// The verbs.
const (
	At      Verb = "at"
	Pass    Verb = "pass"
	Kill    Verb = "kill"
	Start   Verb = "start"
	Say     Verb = "say"
	Edit    Verb = "edit"
	Delete  Verb = "delete"
	React   Verb = "react"
	Unreact Verb = "unreact"
	Expect  Verb = "expect"
)

// Step is one line of a story.
type Step struct {
	Line  int
	Verb  Verb
	Who   string
	Place string // where it is said, or what is reacted to
	Text  string
	Photo bool
	N     int           // which of the person's own messages, from 1; 0 the last
	Clock string        // of At: "06:59"
	Date  string        // of At: "2026-11-25", or "" for the next time the clock shows it
	For   time.Duration // of Pass
	Want  Want          // of Expect
}

// Error is a mistake in a story, or a place where it did not go as it expects.
type Error struct {
	File string
	Line int
	Text string
}

func (e *Error) Error() string { return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.Text) }

var (
	sayLine     = regexp.MustCompile(`^(\S+) (?:in ([^:]+?)|(direct))( with photo)?: ?(.*)$`)
	editLine    = regexp.MustCompile(`^(\S+) edits (\d+|last): ?(.*)$`)
	deleteLine  = regexp.MustCompile(`^(\S+) deletes (\d+|last)$`)
	reactLine   = regexp.MustCompile(`^(\S+) reacts (\S+) (.+)$`)
	unreactLine = regexp.MustCompile(`^(\S+) unreacts$`)
	atLine      = regexp.MustCompile(`^at (?:(\d{4}-\d\d-\d\d) )?(\d\d?:\d\d)$`)
)

// Parse reads a story; name is what errors call it. The error is of type *Error.
func Parse(name, text string) ([]Step, error) {
	var steps []Step
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		step, err := parseLine(line)
		if err != nil {
			return nil, &Error{name, i + 1, err.Error()}
		}
		step.Line = i + 1
		steps = append(steps, step)
	}
	if len(steps) == 0 {
		return nil, &Error{name, 1, "the story is empty; begin it with a line like: at 2026-11-25 06:59"}
	}
	return steps, nil
}

func parseLine(line string) (Step, error) {
	word, rest, _ := strings.Cut(line, " ")
	switch {
	case line == "kill":
		return Step{Verb: Kill}, nil
	case line == "start":
		return Step{Verb: Start}, nil
	case word == "expect":
		want, err := parseWant(rest)
		return Step{Verb: Expect, Want: want}, err
	case line[0] == '+':
		d, err := terminal.Duration(line[1:])
		return Step{Verb: Pass, For: d}, err
	case word == "at":
		m := atLine.FindStringSubmatch(line)
		if m == nil {
			return Step{}, fmt.Errorf("%q is no time; write: at 2026-11-25 06:59, or: at 06:59", line)
		}
		return Step{Verb: At, Date: m[1], Clock: m[2]}, nil
	}
	return parsePerson(line)
}

func parsePerson(line string) (Step, error) {
	if m := editLine.FindStringSubmatch(line); m != nil {
		return Step{Verb: Edit, Who: m[1], N: ownNumber(m[2]), Text: unescape(m[3])}, nil
	}
	if m := deleteLine.FindStringSubmatch(line); m != nil {
		return Step{Verb: Delete, Who: m[1], N: ownNumber(m[2])}, nil
	}
	if m := reactLine.FindStringSubmatch(line); m != nil {
		return Step{Verb: React, Who: m[1], Text: m[2], Place: m[3]}, nil
	}
	if m := unreactLine.FindStringSubmatch(line); m != nil {
		return Step{Verb: Unreact, Who: m[1]}, nil
	}
	if m := sayLine.FindStringSubmatch(line); m != nil {
		return Step{Verb: Say, Who: m[1], Place: m[2] + m[3], Photo: m[4] != "", Text: unescape(m[5])}, nil
	}
	return Step{}, fmt.Errorf("%q is no line of a story; write like: ana in E1: all good", line)
}

func ownNumber(s string) int {
	n, _ := strconv.Atoi(s) // "last" is 0
	return n
}

// unescape lets a line say more than one line.
func unescape(s string) string { return strings.ReplaceAll(s, `\n`, "\n") }
