package slack

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// How far a catch-up looks back.
const (
	overlap = time.Hour           // behind the latest word: what was lost need not be the last
	young   = 3 * 24 * time.Hour  // threads whose replies are read again whole, for edits
	old     = 60 * 24 * time.Hour // threads that may still be answered

)

// catchUp reads what was said while nobody listened: the history of every channel,
// and the replies of every thread that got one. Clicks and slash commands are not
// in the history. What was heard already is known by its id or its mark. What does
// not go is tried again a few times, then at the next connection.
func (b *Backend) catchUp(ctx context.Context, d *door) {
	if !b.waiting.CompareAndSwap(false, true) {
		return // one is to begin yet
	}
	b.catching.Lock()
	defer b.catching.Unlock()
	b.waiting.Store(false)
	channels, err := b.channels(ctx)
	b.report(err)
	for try := range mostTries {
		if channels = b.catchUpOnAll(ctx, d, channels); len(channels) == 0 {
			return
		}
		if sleep(ctx, backoff(try)) != nil {
			return
		}
	}
}

// catchUpOnAll returns the channels with which it did not go.
func (b *Backend) catchUpOnAll(ctx context.Context, d *door, channels []string) []string {
	var failed []string
	for _, c := range channels {
		if err := b.catchUpOn(ctx, d, c); err != nil && ctx.Err() == nil {
			b.report(fmt.Errorf("catch up on %s: %w", c, err))
			failed = append(failed, c)
		}
	}
	return failed
}

func (b *Backend) catchUpOn(ctx context.Context, d *door, channel string) error {
	since, err := b.cfg.Bookmark(ctx, sinceMark+channel)
	if err != nil {
		return err
	}
	now := time.Now()
	if since == "" { // nothing was missed before the bot was there
		return d.begin(ctx, channel, stampOf(now))
	}
	b.door.Lock()
	seen, err := d.seen(ctx, channel)
	b.door.Unlock()
	if err != nil {
		return err
	}
	g := gap{channel: channel, from: cut(seen, since), now: now, ear: d.ear}
	roots, err := b.roots(ctx, g)
	if err != nil {
		return err
	}
	var list []heard
	for _, root := range roots {
		list = append(list, g.told(root)...)
		if from, ok := g.read(root); ok {
			err := b.replies(ctx, channel, root.TS, stampOf(from), func(m api.Message) bool {
				list = append(list, g.told(wroteOf(m))...)
				return true
			})
			if err != nil {
				return err
			}
		}
	}
	return b.hands(ctx, d, list, roots, g)
}

// cut is from when on messages may be news.
func cut(seen, since string) time.Time {
	from := instant(since)
	if back := instant(seen).Add(-overlap); back.After(from) {
		return back
	}
	return from
}

// begin is the first time that a channel is listened to.
func (d *door) begin(ctx context.Context, channel, now string) error {
	d.b.door.Lock()
	defer d.b.door.Unlock()
	return d.receive(ctx, chat.Batch{Cursors: map[string]string{sinceMark + channel: now}})
}

// gap is a channel with the time that was missed.
type gap struct {
	channel string
	from    time.Time
	now     time.Time
	ear     ear
}

// roots lists what stands in the open channel, oldest first, as far back as
// threads may still be answered.
func (b *Backend) roots(ctx context.Context, g gap) ([]wrote, error) {
	oldest := g.now.Add(-old)
	if g.from.Before(oldest) {
		oldest = g.from
	}
	var roots []wrote
	err := b.history(ctx, g.channel, stampOf(oldest), func(m api.Message) bool {
		roots = append(roots, wroteOf(m))
		return true
	})
	slices.Reverse(roots)
	return roots, err
}

// read reports whether the replies of a root are to be read, and from when on.
func (g gap) read(root wrote) (time.Time, bool) {
	if root.Replies == 0 && root.Thread == "" {
		return time.Time{}, false
	}
	if instant(root.TS).After(g.now.Add(-young)) {
		return instant(root.TS), true
	}
	latest := instant(root.Latest)
	return g.from, latest.IsZero() || latest.After(g.from)
}

// told is what a message of the history tells: its words, if they may be news, and
// its edit.
func (g gap) told(w wrote) []heard {
	var list []heard
	if instant(w.TS).After(g.from) {
		if ev, ok := g.ear.said(g.channel, w); ok {
			list = append(list, heard{Event: ev, channel: g.channel, ts: w.TS})
		}
	}
	if ev, ok := g.ear.changed(g.channel, w); ok && instant(w.Edited.TS).After(g.from) {
		list = append(list, heard{Event: ev, channel: g.channel, ts: w.TS, stamp: w.Edited.TS})
	}
	return list
}

// hands adds what reactions changed on the bot's own messages, and stores all of it
// in the order in which it was said.
func (b *Backend) hands(ctx context.Context, d *door, list []heard, roots []wrote, g gap) error {
	for _, root := range roots {
		if string(root.User) != g.ear.user && root.Bot != g.ear.bot {
			continue
		}
		stored, err := b.cfg.Bookmark(ctx, aboutMark+g.channel+"/"+root.TS)
		if err != nil {
			return err
		}
		put, taken := markOf(stored).shown(root.Reactions)
		list = append(list, g.reacted(chat.Reacted, root.TS, put)...)
		list = append(list, g.reacted(chat.Unreacted, root.TS, taken)...)
	}
	slices.SortStableFunc(list, func(a, b heard) int { return a.Said.Compare(b.Said) })
	return d.store(ctx, list)
}

// reacted makes events of reactions. When they were made nobody knows, so they are
// said now. A reaction put on is marked as old as can be and one taken off as
// young as can be: whatever is delivered late may then take back a pass, and
// never make one.
func (g gap) reacted(kind chat.Kind, ts string, hands []string) []heard {
	var list []heard
	slices.Sort(hands)
	for _, h := range hands {
		user, emoji, _ := strings.Cut(h, " ")
		ev := g.ear.hand(kind, g.channel, ts, user, emoji, stampOf(g.now))
		stamp := ts
		if kind == chat.Unreacted {
			stamp = stampOf(g.now)
		}
		list = append(list, heard{Event: ev, channel: g.channel, ts: ts, stamp: stamp, hand: h})
	}
	return list
}

// wroteOf is a message of the history as events have it.
func wroteOf(m api.Message) wrote {
	w := wrote{Type: m.Type, Subtype: m.SubType, User: name(m.User), Bot: m.BotID, Text: m.Text, TS: m.Timestamp, Thread: m.ThreadTimestamp,
		Replies: m.ReplyCount, Latest: m.LatestReply}
	if m.Edited != nil {
		w.Edited = &edited{TS: m.Edited.Timestamp}
	}
	for _, f := range m.Files {
		w.Files = append(w.Files, file{ID: f.ID, Name: f.Name, Title: f.Title, Type: f.Mimetype})
	}
	for _, r := range m.Reactions {
		w.Reactions = append(w.Reactions, reaction{Name: r.Name, Users: r.Users})
	}
	return w
}
