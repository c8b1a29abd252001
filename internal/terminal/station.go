package terminal

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"golang.org/x/term"

	"crosslay/bot/chat"
)

// Station is the screen at which one person speaks as anybody.
type Station struct {
	Hall *Hall
	Zone *time.Location
	Now  func() time.Time
	// Send hands an event to the bot and returns when it was taken in.
	Send func(chat.Event) error
	// Pass lets time pass; nil where the clock is the real one.
	Pass func(time.Duration) error
	// Restart kills the bot and starts it again; nil where that cannot be done.
	Restart func() error
	// Welcome is shown first.
	Welcome []string
	// Who speaks first, and where.
	Who, Where string

	mu    sync.Mutex // guards Who, Where and what follows; changes come from other goroutines
	lines lines
	scr   screen
	seen  map[chat.Ref]bool
}

// errLeave ends the station.
var errLeave = errors.New("leave")

// Run reads lines until the person leaves. It returns nil then.
func (st *Station) Run(in io.Reader, out io.Writer) error {
	l, err := open(in, out)
	if err != nil {
		return err
	}
	defer l.close()
	st.begin(l, colours(out))
	for _, w := range st.Welcome {
		st.scr.line("%s", st.welcome(w))
	}
	for {
		line, err := l.next(st.prompt())
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil && !errors.Is(err, term.ErrPasteIndicator) {
			return err
		}
		if err := st.do(line); errors.Is(err, errLeave) {
			return nil
		} else if err != nil {
			st.scr.note(err.Error())
		}
	}
}

func (st *Station) begin(l lines, colour bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.lines = l
	st.scr = screen{out: l, colour: colour, zone: st.Zone}
	st.seen = map[chat.Ref]bool{}
	for _, p := range st.Hall.Posts() { // of an earlier run
		st.seen[p.Ref] = true
	}
	st.Hall.Watch(st.show)
}

// Note shows a word that is nobody's: trouble with the bot itself.
func (st *Station) Note(text string) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.lines != nil {
		st.scr.note(clean(text))
	}
}

// attended reports whether a person sits at a terminal.
func (st *Station) attended() bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	_, ok := st.lines.(*edited)
	return ok
}

// restore gives the terminal back as it was, while Run still waits for a line.
func (st *Station) restore() {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.lines != nil {
		st.lines.close()
	}
}

// welcome sets what is to be typed off from what explains it.
func (st *Station) welcome(line string) string {
	typed, why, ok := strings.Cut(line, "\t")
	if !ok {
		return line
	}
	return fmt.Sprintf("  %s %s", st.scr.paint(bold, fmt.Sprintf("%-34s", typed)), st.scr.paint(dim, why))
}

// prompt shows the clock, who speaks and where.
func (st *Station) prompt() string {
	return fmt.Sprintf("%s %s in %s> ", st.Now().In(st.Zone).Format("Mon 15:04"), st.Who, st.Where)
}

// place is where the person at the station is. A company without a prompt yet
// stands for its room.
func (st *Station) place() (chat.Place, error) {
	place, err := st.Hall.Find(st.Who, st.Where)
	if none := (NoPromptError{}); errors.As(err, &none) {
		return chat.Place{Backend: Name, Room: none.Company.Room}, nil
	}
	return place, err
}

// say puts words into the place where the person is.
func (st *Station) say(text string, pics ...chat.Picture) error {
	place, err := st.place()
	if err != nil {
		return err
	}
	return st.Send(st.Hall.Say(st.Who, place, text, pics...))
}

// show is called for every change at the service.
func (st *Station) show(c Change) {
	st.mu.Lock()
	defer st.mu.Unlock()
	p := c.Post
	label := st.Hall.labelOf(p)
	near := st.near(p)
	switch {
	case c.Kind == chat.Edited && p.Key != "":
		if near {
			st.scr.changed(p, c.Was, label)
		}
	case c.Kind == chat.Reacted, c.Kind == chat.Unreacted:
		st.scr.line("[%d] %s %s: %s", p.N, c.Who, verbs[c.Kind], c.Emoji)
	case c.Kind != chat.Said:
		st.scr.line("[%d] %s %s", p.N, p.Author, verbs[c.Kind])
	case p.Author == st.Who:
		st.seen[p.Ref] = true
		st.scr.own(p, label)
	case near:
		st.seen[p.Ref] = true
		st.scr.post(p, label)
	default:
		st.scr.teaser(p, label)
	}
}

var verbs = map[chat.Kind]string{
	chat.Edited: "edited it", chat.Deleted: "deleted it", chat.Reacted: "reacted", chat.Unreacted: "took back",
}

// near reports whether a post is shown in full: it stands in the room or thread
// that the person looks at, or speaks to the person alone.
func (st *Station) near(p Post) bool {
	if p.Place.Direct {
		return p.Place.Room == st.Who
	}
	if company, ok := p.company(); ok && strings.EqualFold(company, st.companyHere()) {
		return true
	}
	here, err := st.place()
	if err != nil || here.Direct {
		return false
	}
	if here.Thread == "" {
		return p.Place.Room == here.Room && st.companyHere() == ""
	}
	return p.Ref == here.Thread || p.Place.Room == here.Room && p.Place.Thread == here.Thread
}

// companyHere is the company in whose thread the person is, "" if in none.
func (st *Station) companyHere() string {
	if c, ok := st.Hall.company(st.Where); ok {
		return c.ID
	}
	return ""
}

// labelOf names the place of a post; of a thread's root, the room it opens in.
func (h *Hall) labelOf(p Post) string {
	label := h.Label(p.Place)
	if p.Place.Thread == "" || label == p.Place.Room {
		return label
	}
	return label + ", " + p.Place.Room
}
