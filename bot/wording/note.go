package wording

import (
	"fmt"

	"crosslay/bot/chat"
)

// notes is what the shift before passes on, and what is left out.
func (p *page) notes() chat.Block {
	lines := listed("Missed last shift: ", p.v.Missed, p.rows)
	var out, open []string
	for _, o := range p.v.Out {
		out = append(out, leftOut(o))
	}
	for _, o := range p.v.PassOn {
		open = append(open, passOn(o))
	}
	lines = append(lines, capped(out, p.rows)...)
	lines = append(lines, capped(open, p.rows)...)
	lines = append(lines, capped(p.v.Notes, p.rows)...)
	return chat.Text(chat.Body, lines...)
}

func leftOut(o OutLine) string {
	spare := ""
	if o.Spare != "" {
		spare = "spare " + o.Spare + " stands in"
	}
	return "Left out: " + join("; ", join(", ", o.Thing.String(), o.Why), spare)
}

// passOn is an open defect on one line. Where that gets long the number alone
// names the item, so that the state is not cut off.
func passOn(o Open) string {
	name := o.Thing.String()
	if o.Thing.Number != "" && size("Pass-on: "+join(": ", name+", "+o.Label, o.State)) > Width {
		name = o.Thing.Number
	}
	return "Pass-on: " + join(": ", join(", ", name, o.Label), join(" ", o.State, quote(o.Words, Width)))
}

// listed writes names behind a lead in at most rows lines; those that do not fit
// are counted.
func listed(lead string, names []string, rows int) []string {
	whole := make([]string, len(names))
	for i, name := range names {
		whole[i] = tied(name)
	}
	for n := len(names); n > 0; n-- {
		text := lead + join(", ", whole[:n]...)
		if n < len(names) {
			text += more(len(names) - n)
		}
		if lines := wrap(text); len(lines) <= rows {
			return lines
		}
	}
	if len(names) == 0 {
		return nil
	}
	return capped(append([]string{lead + names[0]}, names[1:]...), 1)
}

// capped keeps at most rows entries of one line each and counts the others.
func capped(entries []string, rows int) []string {
	var lines []string
	for i, e := range entries {
		if i == rows-1 && len(entries) > rows {
			rest := more(len(entries) - rows)
			return append(lines, clip(e, Width-size(rest))+rest)
		}
		lines = append(lines, clip(e, Width))
	}
	return lines
}

func more(n int) string { return fmt.Sprintf(" and %d more", n) }
