package slack

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// Run listens until the context ends. It returns an error only where Slack does
// not let the app in at all when it starts.
func (b *Backend) Run(ctx context.Context, receive Receive) error {
	within, cancel := context.WithCancel(ctx)
	d, err := b.enter(within, receive)
	if err == nil && b.cfg.Listen != "" {
		err = b.listen(within, d)
	} else if err == nil {
		err = b.sockets(within, d)
	}
	cancel()
	if d != nil {
		d.beside.Wait()
	}
	if ctx.Err() != nil {
		return nil
	}
	return b.cfg.Tokens.scrub(err)
}

// enter finds out who the bot is, however long Slack is away.
func (b *Backend) enter(ctx context.Context, receive Receive) (*door, error) {
	for failures := 0; ; failures++ {
		who, err := b.who(ctx)
		if err == nil {
			err = b.lookUp(ctx)
		}
		if err == nil {
			return &door{b: b, receive: receive, ear: b.ear(ctx, who)}, nil
		}
		if isLocked(err) {
			return nil, fmt.Errorf("ask who the app is: %w", answerOf(err))
		}
		b.report(fmt.Errorf("ask who the app is: %w", err))
		if err := sleep(ctx, backoff(failures)); err != nil {
			return nil, err
		}
	}
}

func (b *Backend) who(ctx context.Context) (*api.AuthTestResponse, error) {
	if err := b.pace.wait(ctx, "auth.test", ""); err != nil {
		return nil, err
	}
	who, err := b.api.AuthTestContext(ctx)
	b.pace.heed("auth.test", err)
	return who, err
}

// answerOf is the error with what to do about it.
func answerOf(err error) error {
	var answer api.SlackErrorResponse
	if errors.As(err, &answer) {
		return ofCode(answer)
	}
	return err
}

// lookUp finds the channels that go by name, so that what is said in them has its
// room from the first word on. A name that nothing has is reported; an error means
// that it is not known.
func (b *Backend) lookUp(ctx context.Context) error {
	for _, address := range b.cfg.Rooms() {
		_, err := b.rooms.id(ctx, address)
		switch {
		case errors.Is(err, chat.ErrRefused):
			b.report(fmt.Errorf("room %s: %w", address, err))
		case err != nil:
			return err
		}
	}
	return nil
}

func (b *Backend) ear(ctx context.Context, who *api.AuthTestResponse) ear {
	return ear{
		user: who.UserID, bot: who.BotID,
		called:  func(user string) string { return b.people.called(ctx, user) },
		address: func(channel string) string { return b.rooms.address(ctx, channel, b.cfg.Rooms()) },
	}
}

// channels are the channels of the rooms, as far as find has them, and the direct
// conversations that people have had with the bot.
func (b *Backend) channels(ctx context.Context, find func(address string) (string, error)) ([]string, error) {
	var ids []string
	for _, address := range b.cfg.Rooms() {
		id, err := find(address)
		if err != nil {
			b.report(fmt.Errorf("room %s: %w", address, err))
		}
		if id != "" {
			ids = append(ids, id)
		}
	}
	met, err := b.cfg.Bookmark(ctx, directs)
	return append(ids, strings.Fields(met)...), err
}

// backoff is how long is waited after so many failures in a row.
func backoff(failures int) time.Duration {
	const first, most = 2 * time.Second, 5 * time.Minute
	return min(first<<min(failures, 10), most)
}
