package sqlite_test

import (
	"path/filepath"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/sqlite"
)

func TestStore_Heard(t *testing.T) {
	s, err := sqlite.Open(filepath.Join(t.TempDir(), "crosslay.db"), sqlite.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	ev := chat.Event{Backend: "b", ID: "e1", Kind: chat.Reacted, Emoji: "👍", Target: "r", Said: time.Unix(1, 0).UTC()}
	if _, err := s.Receive(t.Context(), "b", chat.Batch{Events: []chat.Event{ev}}); err != nil {
		t.Fatal(err)
	}
	got, found, err := s.Heard(t.Context(), "b", "e1")
	if err != nil || !found || got.Emoji != "👍" || got.Target != "r" {
		t.Errorf("%+v %v %v, want the event", got, found, err)
	}
	for _, other := range [][2]string{{"b", "e2"}, {"c", "e1"}} {
		if _, found, err := s.Heard(t.Context(), other[0], other[1]); found || err != nil {
			t.Errorf("%v is found: %v %v", other, found, err)
		}
	}
}
