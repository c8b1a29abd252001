package outbox

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"crosslay/bot/chat"
)

// Drawn is the scheme of the sources of pictures that are drawn when they are
// sent: such a picture waits in the queue as its source alone.
const Drawn = "draw:"

// Painter draws the picture that a source of the draw: scheme names, with its
// name, its media type, its data and a text for those who cannot see it.
type Painter func(ctx context.Context, source string) (chat.Picture, error)

// painted is the message with its pictures drawn. One that cannot be drawn is
// left out, with a line that says so: the words matter more than the picture. The
// error is for the operator.
func (s *Sender) painted(ctx context.Context, m chat.Message) (chat.Message, error) {
	if !slices.ContainsFunc(m.Pics, undrawn) {
		return m, nil
	}
	var pics []chat.Picture
	var errs []error
	for _, pic := range m.Pics {
		if undrawn(pic) {
			var err error
			if pic, err = s.paint(ctx, pic); err != nil {
				errs = append(errs, fmt.Errorf("draw %s for %s: %w", pic.Source, m.Key, err))
				continue
			}
		}
		pics = append(pics, pic)
	}
	m.Pics = pics
	if len(errs) > 0 {
		m.Blocks = append(slices.Clone(m.Blocks), chat.Text(chat.Hint, "The picture could not be drawn; the operator is told why."))
	}
	return m, errors.Join(errs...)
}

func undrawn(p chat.Picture) bool { return len(p.Data) == 0 && strings.HasPrefix(p.Source, Drawn) }

// paint draws one picture; an error leaves it as it was.
func (s *Sender) paint(ctx context.Context, pic chat.Picture) (chat.Picture, error) {
	if s.opt.Paint == nil {
		return pic, errors.New("nothing that draws is set up")
	}
	drawn, err := s.opt.Paint(ctx, pic.Source)
	if err != nil {
		return pic, err
	}
	if len(drawn.Data) == 0 {
		return pic, errors.New("the picture came out empty")
	}
	drawn.Source = ""
	return drawn, nil
}
