package outbox_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// keeping is a poster that keeps what it was to show.
type keeping struct{ shown []chat.Message }

func (k *keeping) Post(_ context.Context, m chat.Message, _ chat.Place, _ chat.Ref) (chat.Ref, error) {
	k.shown = append(k.shown, m)
	return "r", nil
}

func TestPaintedRightBeforeSending(t *testing.T) {
	board := chat.Picture{Name: "board.png", Type: "image/png", Data: []byte("png"), Alt: "All checked.", Source: "draw:board"}
	photo := chat.Picture{Name: "nick.jpg", Source: "F123"}
	file := chat.Picture{Name: "kept.png", Source: "draw:kept", Data: []byte("there already")}
	cases := map[string]struct {
		pics   []chat.Picture
		paint  outbox.Painter
		names  string
		says   string // the last line
		report string
	}{
		"drawn": {[]chat.Picture{{Source: "draw:board/2026-11-25/A"}},
			func(_ context.Context, source string) (chat.Picture, error) { return board, nil }, "board.png", "body", ""},
		"others_are_left_alone": {[]chat.Picture{photo, {Source: "draw:board"}, file},
			func(context.Context, string) (chat.Picture, error) { return board, nil }, "nick.jpg board.png kept.png", "body", ""},
		"cannot_be_drawn": {[]chat.Picture{photo, {Source: "draw:item/x"}},
			func(context.Context, string) (chat.Picture, error) {
				return chat.Picture{}, errors.New("no item x")
			}, "nick.jpg", "could not be drawn", "draw draw:item/x for k: no item x"},
		"came_out_empty": {[]chat.Picture{{Source: "draw:board"}},
			func(context.Context, string) (chat.Picture, error) { return chat.Picture{Name: "b"}, nil }, "", "could not be drawn", "empty"},
		"nothing_draws": {[]chat.Picture{{Source: "draw:board"}}, nil, "", "could not be drawn", "nothing that draws"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			m := message("k", "#a")
			m.Pics, m.Blocks = c.pics, []chat.Block{chat.Text(chat.Body, "body")}
			s, k := queued(t, m), &keeping{}
			var heard []string
			sender := outbox.New(s, map[string]outbox.Poster{"fake": k}, outbox.Options{
				Paint: c.paint, Report: func(err error) { heard = append(heard, err.Error()) }})
			step(t, sender, noon)
			if len(k.shown) != 1 {
				t.Fatalf("shown %d times", len(k.shown))
			}
			var names []string
			for _, p := range k.shown[0].Pics {
				names = append(names, p.Name)
				if len(p.Data) == 0 && strings.HasPrefix(p.Source, outbox.Drawn) {
					t.Errorf("%+v was sent undrawn", p)
				}
			}
			if got := strings.Join(names, " "); got != c.names {
				t.Errorf("pictures %q, want %q", got, c.names)
			}
			if text := k.shown[0].Plain(); !strings.Contains(text[strings.LastIndex(text, "\n")+1:], c.says) {
				t.Errorf("said %q", text)
			}
			if got := strings.Join(heard, "; "); (c.report == "") != (got == "") || !strings.Contains(got, c.report) {
				t.Errorf("reported %q, want %q", got, c.report)
			}
			if state(t, s, "k").State != outbox.Sent {
				t.Error("it does not count as sent")
			}
		})
	}
}

// searching is a poster that lost its answer, and keeps what it is to look for.
type searching struct {
	keeping
	sought []chat.Message
}

func (s *searching) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	_, _ = s.keeping.Post(ctx, m, place, target)
	return "", chat.ErrUnsure
}

func (s *searching) Find(_ context.Context, m chat.Message, _ chat.Place, _ time.Time) (chat.Ref, bool, error) {
	s.sought = append(s.sought, m)
	return "r", true, nil
}

// TestSearchedWithItsPictures: a backend that finds half of a message sends the
// rest of it, for which it needs the pictures.
func TestSearchedWithItsPictures(t *testing.T) {
	m := message("k", "#a")
	m.Pics = []chat.Picture{{Source: "draw:board"}}
	q, p := queued(t, m), &searching{}
	sender := outbox.New(q, map[string]outbox.Poster{"fake": p}, outbox.Options{
		Paint: func(context.Context, string) (chat.Picture, error) {
			return chat.Picture{Name: "b.png", Data: []byte("png")}, nil
		}})
	step(t, sender, noon)
	step(t, sender, noon.Add(time.Minute))
	if len(p.sought) != 1 || len(p.sought[0].Pics) != 1 || len(p.sought[0].Pics[0].Data) == 0 {
		t.Errorf("sought %+v", p.sought)
	}
	if state(t, q, "k").State != outbox.Sent {
		t.Error("it does not count as sent")
	}
}
