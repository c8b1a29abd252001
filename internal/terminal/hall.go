package terminal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"crosslay/bot/chat"
)

// Hall is a service with the rooms and people of a department: whoever names a
// person or a place by what people call them is understood here.
type Hall struct {
	*Service
	Rooms     []Room
	People    []Person
	Companies []Company
}

// Room is a room by its address, with whom it is for.
type Room struct{ Address, About string }

// Person is somebody who may speak.
type Person struct{ Account, Name, About string }

// Company is a company with its room's address.
type Company struct {
	ID, Name string
	Names    []string
	Room     string
}

// UnknownError says that nothing goes by a name, and what does.
type UnknownError struct {
	What string // "person", "place"
	Name string
	Have []string
}

func (e UnknownError) Error() string {
	return fmt.Sprintf("no %s goes by %q; there are: %s", e.What, e.Name, strings.Join(e.Have, ", "))
}

// Account finds a person by account or name.
func (h *Hall) Account(name string) (string, error) {
	var have []string
	for _, p := range h.People {
		if strings.EqualFold(p.Account, name) || strings.EqualFold(p.Name, name) {
			return p.Account, nil
		}
		have = append(have, p.Account)
	}
	return "", UnknownError{"person", name, have}
}

// Find is the place that a person means: a room (#shop), a company's thread (E1),
// a defect's thread (defect 2; alone, the latest), the thread of the message
// printed as a number, or "direct", alone with the bot.
func (h *Hall) Find(author, name string) (chat.Place, error) {
	name = strings.TrimSpace(name)
	if strings.EqualFold(name, "direct") {
		return chat.Place{Backend: Name, Room: author, Direct: true}, nil
	}
	if room, ok := h.room(name); ok {
		return chat.Place{Backend: Name, Room: room}, nil
	}
	p, err := h.Message(name)
	if err != nil {
		return chat.Place{}, err
	}
	return p.Thread(), nil
}

// Message is the message that starts a thread: a company's prompt, a defect, or
// whatever is printed as a number.
func (h *Hall) Message(name string) (Post, error) {
	if n, err := strconv.Atoi(name); err == nil {
		if p, ok := h.Numbered(n); ok {
			return p, nil
		}
		return Post{}, fmt.Errorf("there is no message %d yet", n)
	}
	if rest, ok := strings.CutPrefix(strings.ToLower(name), "defect"); ok {
		return h.defect(strings.TrimSpace(rest))
	}
	if c, ok := h.company(name); ok {
		if p, ok := h.Prompt(c.ID); ok {
			return p, nil
		}
		return Post{}, NoPromptError{c}
	}
	return Post{}, UnknownError{"place", name, h.places()}
}

// NoPromptError says that a company has no thread yet.
type NoPromptError struct{ Company Company }

func (e NoPromptError) Error() string {
	return fmt.Sprintf("%s has no thread before its first prompt; its room is %s", e.Company.Name, e.Company.Room)
}

func (h *Hall) defect(n string) (Post, error) {
	roots := h.Defects()
	i := len(roots)
	if n != "" {
		var err error
		if i, err = strconv.Atoi(n); err != nil {
			return Post{}, fmt.Errorf("%q is not the number of a defect; write defect 1 for the first", n)
		}
	}
	if i < 1 || i > len(roots) {
		return Post{}, fmt.Errorf("there is no such defect; %d have been reported", len(roots))
	}
	return roots[i-1], nil
}

func (h *Hall) room(name string) (string, bool) {
	for _, r := range h.Rooms {
		if strings.EqualFold(r.Address, name) || strings.EqualFold(r.Address, "#"+name) {
			return r.Address, true
		}
	}
	return "", false
}

func (h *Hall) company(name string) (Company, bool) {
	for _, c := range h.Companies {
		same := func(n string) bool { return strings.EqualFold(n, name) }
		if same(c.ID) || same(c.Name) || slices.ContainsFunc(c.Names, same) {
			return c, true
		}
	}
	return Company{}, false
}

func (h *Hall) places() []string {
	var have []string
	for _, r := range h.Rooms {
		have = append(have, r.Address)
	}
	for _, c := range h.Companies {
		have = append(have, c.ID)
	}
	return append(have, "defect N", "a message's number", "direct")
}

// Label is a place in a few characters: "#shop", "E1", "defect 2", "direct".
func (h *Hall) Label(place chat.Place) string {
	switch {
	case place.Direct:
		return "direct"
	case place.Thread == "":
		return place.Room
	}
	root, ok := h.Root(place.Thread)
	if !ok {
		return place.Room + " thread"
	}
	if company, ok := root.company(); ok {
		return company
	}
	if n := h.defectNumber(place.Thread); n > 0 {
		return fmt.Sprintf("defect %d", n)
	}
	return fmt.Sprintf("thread %d", root.N)
}

// company is the company whose prompt the post is.
func (p Post) company() (string, bool) {
	rest, ok := strings.CutPrefix(string(p.Key), "prompt/")
	name, _, _ := strings.Cut(rest, "/")
	return name, ok && p.Kind == chat.Prompt
}
