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
	s.mu.Lock()
	defer s.mu.Unlock()
	return found(s.prompts[strings.ToLower(company)])
}

// Root is the post that started a thread.
func (s *Service) Root(thread chat.Ref) (Post, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return found(s.byRef[thread])
}

func found(p *Post) (Post, bool) {
	if p == nil {
		return Post{}, false
	}
	return *p, true
}

// Defects lists the roots of the defects' threads, in order.
func (s *Service) Defects() []Post {
	s.mu.Lock()
	defer s.mu.Unlock()
	roots := make([]Post, len(s.defects))
	for i, p := range s.defects {
		roots[i] = *p
	}
	return roots
}

// defectNumber is the place of a thread among those of the defects, from 1; 0 if
// it is none of them.
func (s *Service) defectNumber(thread chat.Ref) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return 1 + slices.IndexFunc(s.defects, func(p *Post) bool { return p.Ref == thread })
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

// Thread is the place in which one answers to a post: its thread, or the one it
// stands in.
func (p Post) Thread() chat.Place {
	place := p.Place
	if place.Thread == "" && !place.Direct {
		place.Thread = p.Ref
	}
	return place
}
