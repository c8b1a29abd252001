package terminal

import (
	"slices"
	"strings"

	"crosslay/bot/chat"
)

// Posts lists what stands in the service, in order.
func (s *Service) Posts() []Post {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := make([]Post, len(s.posts))
	for i, p := range s.posts {
		all[i] = *p
	}
	return all
}

// Numbered is the post that is printed as n.
func (s *Service) Numbered(n int) (Post, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if n < 1 || n > len(s.posts) {
		return Post{}, false
	}
	return *s.posts[n-1], true
}

// Prompt is the latest prompt of a company: the message whose key is
// prompt/<company>/...
func (s *Service) Prompt(company string) (Post, bool) {
	return s.last(func(p *Post) bool {
		name, ok := p.company()
		return ok && strings.EqualFold(name, company)
	})
}

// Defects lists the roots of the defects' threads, in order.
func (s *Service) Defects() []Post {
	var roots []Post
	for _, p := range s.Posts() {
		if p.Kind == chat.Defect && p.Place.Thread == "" {
			roots = append(roots, p)
		}
	}
	return roots
}

// By lists what a person said, in order.
func (s *Service) By(author string) []Post {
	var own []Post
	for _, p := range s.Posts() {
		if p.Author == author {
			own = append(own, p)
		}
	}
	return own
}

func (s *Service) last(is func(*Post) bool) (Post, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, p := range slices.Backward(s.posts) {
		if is(p) {
			return *p, true
		}
	}
	return Post{}, false
}

// Thread is the place in which one answers to a post: its thread, or the one it
// stands in.
func (p Post) Thread() chat.Place {
	place := p.Place
	if place.Thread == "" && !place.Direct {
		place.Thread = p.Ref
	}
	return place
}
