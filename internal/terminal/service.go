package terminal

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"crosslay/bot/chat"
)

// Name is the name of the backend in department files.
const Name = "terminal"

// Post is a message as the service keeps it, the bot's or a person's.
type Post struct {
	N      int // as printed on the screen, from 1
	Ref    chat.Ref
	Key    chat.Key         // "" for people
	Kind   chat.MessageKind // "" for people
	About  string
	Place  chat.Place
	At     time.Time
	Author string // account; "" for the bot
	Text   string
	Pics   int
	Gone   bool
}

// Change is what the service shows to whoever looks on: a new post, or one that
// was edited, deleted or reacted to.
type Change struct {
	Kind  chat.Kind // Said, Edited, Deleted, Reacted, Unreacted
	Post  Post
	By    chat.Key // for an edit of the bot's: the key of the edit
	Was   string   // for an edit: the text before
	Who   string   // for a reaction: the account
	Emoji string
	At    time.Time
}

// Service is a chat service in memory. It outlives the bots that talk through
// it. The reference of a bot's message is its key, so that a key posted again is
// the same message even to a service that was started anew.
type Service struct {
	mu      sync.Mutex
	now     func() time.Time
	session string
	events  int
	posts   []*Post
	byRef   map[chat.Ref]*Post
	prompts map[string]*Post // by company in lower case: the latest
	defects []*Post          // the roots of their threads
	edits   map[chat.Key]bool
	emoji   map[string]reaction // the last reaction of each account
	watch   []func(Change)
	fresh   []Change // not shown yet
}

type reaction struct {
	ref   chat.Ref
	emoji string
}

// NewService makes an empty service. Session sets the names of its events apart
// from those of every other run against the same database.
func NewService(session string, now func() time.Time) *Service {
	return &Service{
		now: now, session: session, byRef: map[chat.Ref]*Post{}, prompts: map[string]*Post{},
		edits: map[chat.Key]bool{}, emoji: map[string]reaction{},
	}
}

// Watch calls f, too, for every change from now on, in the goroutine that made it.
func (s *Service) Watch(f func(Change)) {
	s.mu.Lock()
	defer s.release()
	s.watch = append(s.watch, f)
}

func (s *Service) changed(c Change) { s.fresh = append(s.fresh, c) }

// release unlocks and then shows what changed, so that whoever looks on may ask
// the service back.
func (s *Service) release() {
	fresh, watch := s.fresh, s.watch
	s.fresh = nil
	s.mu.Unlock()
	for _, c := range fresh {
		for _, f := range watch {
			f(c)
		}
	}
}

// Say puts a person's words into a place.
func (s *Service) Say(author string, place chat.Place, text string, pics ...chat.Picture) chat.Event {
	s.mu.Lock()
	defer s.release()
	place.Backend = Name
	ev := s.event(chat.Said, author)
	ev.Place, ev.Ref, ev.Text, ev.Pics = place, chat.Ref(ev.ID), text, pics
	p := s.add(Post{Ref: ev.Ref, Place: place, Author: author, Text: text, Pics: len(pics)})
	s.changed(Change{Kind: chat.Said, Post: *p, At: ev.Said})
	return ev
}

// Edit replaces the text of a person's own message.
func (s *Service) Edit(author string, ref chat.Ref, text string) (chat.Event, error) {
	s.mu.Lock()
	defer s.release()
	p, err := s.own(author, ref)
	if err != nil {
		return chat.Event{}, err
	}
	was := p.Text
	p.Text = text
	ev := s.about(chat.Edited, author, p)
	ev.Text = text
	s.changed(Change{Kind: chat.Edited, Post: *p, Was: was, At: ev.Said})
	return ev, nil
}

// Delete takes a person's own message away.
func (s *Service) Delete(author string, ref chat.Ref) (chat.Event, error) {
	s.mu.Lock()
	defer s.release()
	p, err := s.own(author, ref)
	if err != nil {
		return chat.Event{}, err
	}
	p.Gone = true
	ev := s.about(chat.Deleted, author, p)
	s.changed(Change{Kind: chat.Deleted, Post: *p, At: ev.Said})
	return ev, nil
}

// React puts an emoji on any message.
func (s *Service) React(author string, ref chat.Ref, emoji string) (chat.Event, error) {
	s.mu.Lock()
	defer s.release()
	p, ok := s.byRef[ref]
	if !ok {
		return chat.Event{}, errNoMessage
	}
	ev := s.about(chat.Reacted, author, p)
	ev.Emoji = emoji
	s.emoji[author] = reaction{ref, emoji}
	s.changed(Change{Kind: chat.Reacted, Post: *p, Who: author, Emoji: emoji, At: ev.Said})
	return ev, nil
}

// Unreact takes back the last reaction of a person.
func (s *Service) Unreact(author string) (chat.Event, error) {
	s.mu.Lock()
	defer s.release()
	last, ok := s.emoji[author]
	if !ok {
		return chat.Event{}, fmt.Errorf("%s has not reacted to anything", author)
	}
	delete(s.emoji, author)
	p := s.byRef[last.ref]
	ev := s.about(chat.Unreacted, author, p)
	ev.Emoji = last.emoji
	s.changed(Change{Kind: chat.Unreacted, Post: *p, Who: author, Emoji: last.emoji, At: ev.Said})
	return ev, nil
}

var errNoMessage = errors.New("there is no such message")

func (s *Service) own(author string, ref chat.Ref) (*Post, error) {
	p, ok := s.byRef[ref]
	switch {
	case !ok || p.Gone:
		return nil, errNoMessage
	case p.Author != author:
		return nil, fmt.Errorf("message %d is not %s's own", p.N, author)
	}
	return p, nil
}

func (s *Service) event(kind chat.Kind, author string) chat.Event {
	s.events++
	now := s.now()
	return chat.Event{
		Backend: Name, ID: fmt.Sprintf("%s%d", s.session, s.events), Kind: kind,
		Said: now, Arrived: now, Author: author, Name: author,
	}
}

func (s *Service) about(kind chat.Kind, author string, p *Post) chat.Event {
	ev := s.event(kind, author)
	ev.Place, ev.Target = p.Place, p.Ref
	return ev
}

// add keeps a post and gives it its number.
func (s *Service) add(p Post) *Post {
	p.N, p.At = len(s.posts)+1, s.now()
	s.posts = append(s.posts, &p)
	s.byRef[p.Ref] = &p
	if company, ok := p.company(); ok {
		s.prompts[strings.ToLower(company)] = &p
	}
	if p.Kind == chat.Defect && p.Place.Thread == "" {
		s.defects = append(s.defects, &p)
	}
	return &p
}

// Post shows a message of the bot's. The same key a second time is the same
// message.
func (s *Service) Post(_ context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	s.mu.Lock()
	defer s.release()
	if target != "" {
		return s.revise(m, place, target), nil
	}
	ref := chat.Ref(m.Key)
	if _, ok := s.byRef[ref]; ok {
		return ref, nil
	}
	p := s.add(Post{
		Ref: ref, Key: m.Key, Kind: m.Kind, About: m.About, Place: place,
		Text: Show(m), Pics: len(m.Pics),
	})
	s.changed(Change{Kind: chat.Said, Post: *p, At: p.At})
	return ref, nil
}

// Restore puts back a message that the bot sent in an earlier run.
func (s *Service) Restore(m chat.Message, thread, ref chat.Ref, at time.Time) {
	s.mu.Lock()
	defer s.release()
	if p, ok := s.byRef[ref]; ok {
		p.Text = Show(m)
		return
	}
	place := m.Place
	if thread != "" {
		place.Thread = thread
	}
	p := s.add(Post{Ref: ref, Key: m.Key, Kind: m.Kind, About: m.About, Place: place, Text: Show(m)})
	p.At = at
}

// Keyed says that posting again with the same key is harmless.
func (s *Service) Keyed() bool { return true }

func (s *Service) revise(m chat.Message, place chat.Place, target chat.Ref) chat.Ref {
	p, ok := s.byRef[target]
	if !ok { // said to a service that was started anew since
		p = s.add(Post{Ref: target, Key: m.Edits, Kind: m.Kind, About: m.About, Place: place})
	}
	if s.edits[m.Key] {
		return target
	}
	s.edits[m.Key] = true
	was := p.Text
	p.Text = Show(m)
	s.changed(Change{Kind: chat.Edited, Post: *p, By: m.Key, Was: was, At: s.now()})
	return target
}

// Show is a message as the terminal shows it: its lines, what its pictures show,
// and what can be typed where other services have buttons.
func Show(m chat.Message) string {
	text := m.Plain()
	for _, p := range m.Pics {
		text += "\n[picture] " + cmp.Or(p.Alt, p.Name, p.Source)
	}
	text = strings.TrimPrefix(text, "\n")
	if len(m.Choices) == 0 {
		return text
	}
	says := make([]string, len(m.Choices))
	for i, c := range m.Choices {
		says[i] = c.Say
	}
	return text + "\n[" + strings.Join(says, "] [") + "]"
}
