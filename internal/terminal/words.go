package terminal

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"crosslay/bot/chat"
)

// Help is how the station is used, in three lines.
var Help = []string{
	"Type what a crew would type.  +15m lets time pass (also +2h, +1d).",
	"/as ana  speak as ana    /in #shop, /in E1, /in 7  go to a room, a thread",
	"/who  /rooms  /look  /edit N text  /delete N  /react N  /unreact  /photo  /quit",
}

// do takes one line that was typed.
func (st *Station) do(line string) error {
	text := strings.TrimSpace(line)
	switch {
	case text == "":
		return nil
	case text[0] == '+' && len(text) > 1 && text[1] >= '0' && text[1] <= '9':
		return st.pass(text)
	case text == "?":
		return st.command("help", "")
	case text[0] != '/':
		return st.say(text)
	}
	name, rest, _ := strings.Cut(text[1:], " ")
	return st.command(strings.ToLower(name), strings.TrimSpace(rest))
}

func (st *Station) command(name, rest string) error {
	switch name {
	case "as":
		return st.as(rest)
	case "in":
		return st.in(rest)
	case "look":
		return st.look(rest)
	case "who":
		return st.who()
	case "rooms":
		return st.rooms()
	case "edit", "delete", "react":
		return st.touch(name, rest)
	case "unreact":
		return st.hand(st.Hall.Unreact(st.Who))
	case "photo":
		return st.say(rest, chat.Picture{Name: "photo.jpg", Type: "image/jpeg", Source: "station"})
	case "kill":
		return st.restart()
	case "quit", "exit", "q":
		return errLeave
	case "help", "h":
		for _, l := range Help {
			st.scr.line("%s", l)
		}
		return nil
	}
	return fmt.Errorf("there is no /%s; /help lists what there is", name)
}

func (st *Station) pass(text string) error {
	if st.Pass == nil {
		return fmt.Errorf("the clock is the real one here; time passes by itself")
	}
	d, err := Duration(text[1:])
	if err != nil {
		return err
	}
	return st.Pass(d)
}

// Duration reads 15m, 2h, 1d, 1h30m.
func Duration(s string) (time.Duration, error) {
	days, rest := time.Duration(0), s
	if before, after, ok := strings.Cut(s, "d"); ok {
		n, err := strconv.Atoi(before)
		if err != nil {
			return 0, fmt.Errorf("%q is no length of time; write +15m, +2h or +1d", s)
		}
		days, rest = time.Duration(n)*24*time.Hour, after
	}
	if rest == "" {
		return days, nil
	}
	d, err := time.ParseDuration(rest)
	if err != nil || d < 0 {
		return 0, fmt.Errorf("%q is no length of time; write +15m, +2h or +1d", s)
	}
	return days + d, nil
}

func (st *Station) as(name string) error {
	account, err := st.Hall.Account(name)
	if err != nil {
		return err
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	st.Who = account
	return nil
}

// in goes to a place and shows what was not shown in full yet.
func (st *Station) in(name string) error {
	place, err := st.Hall.Find(st.Who, name)
	if _, known := st.Hall.company(name); err != nil && !known {
		return err
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	st.Where = name
	if err != nil {
		return err
	}
	if _, company := st.Hall.company(name); !company {
		st.Where = st.Hall.Label(place)
	}
	st.scr.rule(st.heading(place))
	st.list(place, func(p Post) bool { return !st.seen[p.Ref] })
	return nil
}

// look shows all of the place, or one message.
func (st *Station) look(name string) error {
	st.mu.Lock()
	defer st.mu.Unlock()
	if n, err := strconv.Atoi(name); err == nil {
		p, ok := st.Hall.Numbered(n)
		if !ok {
			return fmt.Errorf("there is no message %d yet", n)
		}
		st.scr.post(p, st.Hall.labelOf(p))
		return nil
	}
	place, err := st.place()
	if err != nil {
		return err
	}
	st.scr.rule(st.heading(place))
	st.list(place, func(Post) bool { return true })
	return nil
}

func (st *Station) heading(place chat.Place) string {
	label := st.Hall.Label(place)
	if place.Thread == "" {
		return label
	}
	return label + ", a thread in " + place.Room
}

func (st *Station) list(place chat.Place, want func(Post) bool) {
	for _, p := range st.Hall.Posts() {
		if p.Gone || !holds(place, p) || !want(p) {
			continue
		}
		st.seen[p.Ref] = true
		st.scr.post(p, st.Hall.labelOf(p))
	}
}

// holds reports whether a post stands in a place: a room holds what is in its
// threads too, a thread its root.
func holds(place chat.Place, p Post) bool {
	if place.Direct != p.Place.Direct || place.Room != p.Place.Room {
		return false
	}
	return place.Thread == "" || place.Thread == p.Place.Thread || place.Thread == p.Ref
}

func (st *Station) who() error {
	for _, p := range st.Hall.People {
		st.scr.line("%s", cut(fmt.Sprintf("  %-12s %s, %s", p.Account, p.Name, p.About), width))
	}
	return nil
}

func (st *Station) rooms() error {
	for _, r := range st.Hall.Rooms {
		st.scr.line("%s", cut(fmt.Sprintf("  %-16s %s", r.Address, r.About), width))
	}
	for i, d := range st.Hall.Defects() {
		first, _, _ := strings.Cut(clean(d.Text), "\n")
		st.scr.line("%s", cut(fmt.Sprintf("  %-16s [%d] %s", fmt.Sprintf("defect %d", i+1), d.N, first), width))
	}
	return nil
}

// touch edits, deletes or reacts to the message printed as a number.
func (st *Station) touch(name, rest string) error {
	number, text, _ := strings.Cut(rest, " ")
	n, err := strconv.Atoi(number)
	p, ok := st.Hall.Numbered(n)
	if err != nil || !ok {
		return fmt.Errorf("write /%s and the number of a message, as printed in [ ]", name)
	}
	switch name {
	case "edit":
		if text == "" {
			return fmt.Errorf("write the new text after the number: /edit %d text", n)
		}
		return st.hand(st.Hall.Edit(st.Who, p.Ref, text))
	case "delete":
		return st.hand(st.Hall.Delete(st.Who, p.Ref))
	}
	if text == "" {
		text = "👍"
	}
	return st.hand(st.Hall.React(st.Who, p.Ref, text))
}

func (st *Station) hand(ev chat.Event, err error) error {
	if err != nil {
		return err
	}
	return st.Send(ev)
}

func (st *Station) restart() error {
	if st.Restart == nil {
		return fmt.Errorf("the bot cannot be restarted from here")
	}
	if err := st.Restart(); err != nil {
		return err
	}
	st.scr.note("the bot was killed and started again")
	return nil
}
