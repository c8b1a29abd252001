package slack

import (
	"context"
	"errors"
	"fmt"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// sign is the type of the metadata that carries a message's key.
const sign = "crosslay_message"

// Post implements the outbox's poster. An edit leaves the key of the message as
// it is.
func (b *Backend) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	ref, err := b.show(ctx, m, place, target)
	return ref, b.cfg.Tokens.scrub(err)
}

func (b *Backend) show(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	channel, err := b.rooms.id(ctx, place.Room)
	if err != nil {
		return "", err
	}
	all := pages(m)
	if all[0].images, err = b.images(ctx, m); err != nil {
		return "", err
	}
	if target != "" {
		if err = b.revise(ctx, m, all, channel, place, target); err == nil {
			b.landed(m.Key)
		}
		return target, b.unsettled(m, err)
	}
	ts, err := b.post(ctx, channel, string(place.Thread), pageKey(m.Key, 0), all[0])
	if err != nil {
		return "", b.unsettled(m, err)
	}
	b.landed(m.Key)
	ref := chat.Ref(ts)
	return ref, b.more(ctx, m, all, channel, place, ref)
}

// more posts what did not fit into the first message below it. Each page is
// looked for first: an attempt before this one may have got so far.
func (b *Backend) more(ctx context.Context, m chat.Message, all []page, channel string, place chat.Place, first chat.Ref) error {
	thread := string(place.Thread)
	if thread == "" {
		thread = string(first)
	}
	for i := 1; i < len(all); i++ {
		key := pageKey(m.Key, i)
		_, found, err := b.search(ctx, channel, thread, key, instant(string(first)))
		if err == nil && !found {
			_, err = b.post(ctx, channel, thread, key, all[i])
		}
		switch {
		case errors.Is(err, chat.ErrRefused): // the first page stands, and trying again changes nothing
			b.report(fmt.Errorf("page %d of %s: %w", i+1, m.Key, err))
		case err != nil: // the first page stands: the rest is found or sent next time
			return fmt.Errorf("page %d of %s: %v: %w", i+1, m.Key, err, chat.ErrUnsure)
		}
	}
	return nil
}

// pageKey is the key of a page: the message's own for the first.
func pageKey(key chat.Key, i int) string {
	if i == 0 {
		return string(key)
	}
	return fmt.Sprintf("%s#%d", key, i+1)
}

// post shows one page, once.
func (b *Backend) post(ctx context.Context, channel, thread, key string, p page) (string, error) {
	const method = "chat.postMessage"
	if err := b.pace.wait(ctx, method, channel); err != nil {
		return "", err
	}
	options := []api.MsgOption{
		api.MsgOptionText(p.text, false), api.MsgOptionBlocks(p.all()...), api.MsgOptionDisableLinkUnfurl(), api.MsgOptionDisableMediaUnfurl(),
		api.MsgOptionMetadata(api.SlackMetadata{EventType: sign, EventPayload: map[string]any{"key": key}}),
	}
	if thread != "" {
		options = append(options, api.MsgOptionTS(thread))
	}
	_, ts, err := b.api.PostMessageContext(ctx, channel, options...)
	b.pace.heed(method, err)
	if err == nil && ts == "" {
		err = errors.New("an answer of Slack does not name the message")
	}
	return ts, explain("post", err)
}

// revise puts a new text in the place of a message, and of the pages below it.
func (b *Backend) revise(ctx context.Context, m chat.Message, all []page, channel string, place chat.Place, target chat.Ref) error {
	if err := b.update(ctx, channel, string(target), all[0]); err != nil {
		return err
	}
	root := m.Edits
	if root == "" {
		root = m.Key
	}
	for i := 1; i < len(all); i++ {
		thread := place.Thread
		if thread == "" {
			thread = target
		}
		ts, found, err := b.search(ctx, channel, string(thread), pageKey(root, i), instant(string(target)))
		switch {
		case err != nil:
			return err
		case found:
			err = b.update(ctx, channel, ts, all[i])
		default:
			_, err = b.post(ctx, channel, string(thread), pageKey(root, i), all[i])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (b *Backend) update(ctx context.Context, channel, ts string, p page) error {
	const method = "chat.update"
	if err := b.pace.wait(ctx, method, ""); err != nil {
		return err
	}
	_, _, _, err := b.api.UpdateMessageContext(ctx, channel, ts, api.MsgOptionText(p.text, false), api.MsgOptionBlocks(p.all()...))
	b.pace.heed(method, err)
	return explain("edit", err)
}

// Find implements the outbox's finder: it looks for the message's key in the
// metadata of what stands in the place. A message of several pages is found when
// all of them are.
func (b *Backend) Find(ctx context.Context, m chat.Message, place chat.Place, since time.Time) (chat.Ref, bool, error) {
	ref, found, err := b.find(ctx, m, place, since)
	return ref, found, b.cfg.Tokens.scrub(err)
}

func (b *Backend) find(ctx context.Context, m chat.Message, place chat.Place, since time.Time) (chat.Ref, bool, error) {
	channel, err := b.rooms.id(ctx, place.Room)
	if err != nil {
		return "", false, err
	}
	ts, found, err := b.search(ctx, channel, string(place.Thread), string(m.Key), since)
	if err != nil || !found {
		return "", false, err
	}
	b.landed(m.Key)
	return chat.Ref(ts), true, b.more(ctx, m, pages(m), channel, place, chat.Ref(ts))
}

// search looks for a key in a channel, or in a thread of it.
func (b *Backend) search(ctx context.Context, channel, thread, key string, since time.Time) (string, bool, error) {
	ts := ""
	each := func(m api.Message) bool {
		if m.Metadata.EventType == sign && m.Metadata.EventPayload["key"] == key {
			ts = m.Timestamp
		}
		return ts == ""
	}
	var err error
	if thread == "" {
		err = b.history(ctx, channel, stampOf(since), each)
	} else {
		err = b.replies(ctx, channel, thread, stampOf(since), each)
	}
	if isCode(err, "thread_not_found") { // what stood in it is gone with it
		err = nil
	}
	return ts, ts != "", err
}

// history goes through a channel from the newest message back to the stamp, until
// f has enough.
func (b *Backend) history(ctx context.Context, channel, oldest string, f func(api.Message) bool) error {
	params := &api.GetConversationHistoryParameters{ChannelID: channel, Oldest: oldest, Limit: 200, IncludeAllMetadata: true}
	return b.paged(ctx, "conversations.history", func() ([]api.Message, string, error) {
		answer, err := b.api.GetConversationHistoryContext(ctx, params)
		if err != nil {
			return nil, "", err
		}
		params.Cursor = answer.ResponseMetaData.NextCursor
		return answer.Messages, params.Cursor, nil
	}, f)
}

// replies goes through a thread from the stamp on, its root left out.
func (b *Backend) replies(ctx context.Context, channel, thread, oldest string, f func(api.Message) bool) error {
	params := &api.GetConversationRepliesParameters{ChannelID: channel, Timestamp: thread, Oldest: oldest, Limit: 200, IncludeAllMetadata: true}
	return b.paged(ctx, "conversations.replies", func() ([]api.Message, string, error) {
		page, _, next, err := b.api.GetConversationRepliesContext(ctx, params)
		params.Cursor = next
		return page, next, err
	}, func(m api.Message) bool { return m.Timestamp == thread || f(m) })
}

func (b *Backend) paged(ctx context.Context, method string, next func() ([]api.Message, string, error), f func(api.Message) bool) error {
	for {
		if err := b.pace.wait(ctx, method, ""); err != nil {
			return err
		}
		page, cursor, err := next()
		if err != nil {
			b.pace.heed(method, err)
			return explainRead("read "+method, err)
		}
		for _, m := range page {
			if !f(m) {
				return nil
			}
		}
		if cursor == "" {
			return nil
		}
	}
}

// explainRead translates the error of a call that shows nothing: there is no
// doubt about it, it can be made again.
func explainRead(deed string, err error) error {
	if wait, ok := asked(err); ok {
		return fmt.Errorf("%s: %w", deed, chat.Wait{For: wait})
	}
	var answer api.SlackErrorResponse
	if errors.As(err, &answer) && remedy[answer.Err] != "" {
		return fmt.Errorf("%s: %w (%s)", deed, err, remedy[answer.Err])
	}
	return fmt.Errorf("%s: %w", deed, err)
}
