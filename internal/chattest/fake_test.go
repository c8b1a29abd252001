package chattest_test

import (
	"testing"

	"crosslay/internal/chattest"
	"crosslay/internal/outbox"
)

var (
	_ outbox.Poster = chattest.Blind{}
	_ outbox.Keyed  = chattest.ByKey{}
	_ outbox.Finder = chattest.Searchable{}
)

func TestFakePassesTheSuite(t *testing.T) {
	kinds := map[string]func(*chattest.Service) chattest.Poster{
		"blind":      func(s *chattest.Service) chattest.Poster { return chattest.Blind{Service: s} },
		"keyed":      func(s *chattest.Service) chattest.Poster { return chattest.ByKey{Service: s} },
		"searchable": func(s *chattest.Service) chattest.Poster { return chattest.Searchable{Service: s} },
	}
	for name, poster := range kinds {
		t.Run(name, func(t *testing.T) {
			chattest.Suite(t, func(*testing.T) chattest.Bench {
				s := &chattest.Service{Rooms: map[string]bool{"#st1": true}}
				return chattest.Bench{Name: "fake", Room: "#st1", Post: poster(s), Shown: s.Shown, Plain: true}
			})
		})
	}
}
