package slack

import (
	"context"
	"errors"
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

// begin begins a catch-up on every channel. Those whose ids are known are behind
// from this instant on; the others are looked up beside.
func (b *Backend) begin(ctx context.Context, d *door) {
	marked, err := b.channels(ctx, func(address string) (string, error) {
		id, _ := b.rooms.cached(address)
		return id, nil
	})
	b.report(err)
	d.behind.add(marked)
	d.beside.Go(func() { b.catchUp(ctx, d, marked) })
}

// atOnce is the time for a catch-up that an event waits for. With what else an
// event may wait for, it is acknowledged within Slack's three seconds.
const atOnce = 1200 * time.Millisecond

// first catches up on a channel before something new of it is taken, if that can
// be done in time: words should be heard in the order in which they were said. If
// not, it goes on beside.
func (b *Backend) first(ctx context.Context, d *door, channel string) {
	gap := d.behind.wait(channel)
	if gap == 0 {
		return
	}
	done := make(chan struct{})
	d.beside.Go(func() {
		defer close(done)
		if b.catchUpOn(ctx, d, channel) == nil { // else it is tried again with all others
			d.behind.done(channel, gap)
		}
	})
	timer := time.NewTimer(atOnce)
	defer timer.Stop()
	select {
	case <-done:
	case <-timer.C:
		d.behind.inVain(gap)
	}
}

// catchUp reads what was said while nobody listened: the history of every channel
// that is behind, and the replies of every thread that got one. Clicks and slash
// commands are not in the history. What was heard already is known by its id or
// its mark. What does not go is tried again a few times, then at the next
// connection.
func (b *Backend) catchUp(ctx context.Context, d *door, marked []string) {
	if !b.waiting.CompareAndSwap(false, true) {
		return // one is to begin yet
	}
	b.catching.Lock()
	defer b.catching.Unlock()
	b.waiting.Store(false)
	channels, err := b.channels(ctx, func(address string) (string, error) { return b.rooms.id(ctx, address) })
	b.report(err)
	d.behind.add(slices.DeleteFunc(slices.Clone(channels), func(c string) bool { return slices.Contains(marked, c) }))
	for try := range mostTries {
		left, asked := b.catchUpOnAll(ctx, d, channels)
		if len(left) == 0 || sleep(ctx, max(asked, backoff(try))) != nil {
			return
		}
		channels = left
	}
}

// catchUpOnAll returns the channels with which it did not go, and how long Slack
// asks to wait. When it does, the others need not be tried.
func (b *Backend) catchUpOnAll(ctx context.Context, d *door, channels []string) (left []string, asked time.Duration) {
	for i, c := range channels {
		gap := d.behind.of(c)
		if gap == 0 {
			continue
		}
		err := b.catchUpOn(ctx, d, c)
		if err == nil || ctx.Err() != nil {
			d.behind.done(c, gap)
			continue
		}
		b.report(fmt.Errorf("catch up on %s: %w", c, err))
		if wait := (chat.Wait{}); errors.As(err, &wait) {
			return append(left, channels[i:]...), wait.For
		}
		left = append(left, c)
	}
	return left, 0
}

func (b *Backend) catchUpOn(ctx context.Context, d *door, channel string) error {
	now := time.Now()
	t, err := d.track(ctx, channel, stampOf(now))
	if err != nil || t.Since == "" { // nothing was missed before the bot was there
		return err
	}
	g := &gap{channel: channel, track: t, from: t.cut(), now: now, ear: d.ear, stands: map[string]bool{}, whole: map[string]bool{"": true}}
	roots, err := b.roots(ctx, g)
	if err != nil {
		return err
	}
	for _, root := range roots {
		g.hear(root)
		from, ok := g.read(root)
		if !ok {
			continue
		}
		err := b.replies(ctx, channel, root.TS, stampOf(from), func(m api.Message) bool {
			g.hear(wroteOf(m))
			return true
		})
		if err != nil && !isCode(err, "thread_not_found") { // it went while we read
			return err
		}
	}
	g.missing()
	if err := b.hands(ctx, g, roots); err != nil {
		return err
	}
	slices.SortStableFunc(g.list, func(a, b heard) int { return a.Said.Compare(b.Said) })
	return d.store(ctx, g.list)
}

// track is the track of a channel. One that is new begins now, and is returned as
// it was.
func (d *door) track(ctx context.Context, channel, now string) (track, error) {
	d.b.door.Lock()
	defer d.b.door.Unlock()
	l := d.ledger(ctx)
	stored, err := l.get(channelMark + channel)
	if err != nil {
		return track{}, err
	}
	t := trackOf(stored)
	if t.Since != "" {
		return t, nil
	}
	begun := t
	begun.Since = now
	return t, d.put(ctx, chat.Batch{Cursors: map[string]string{channelMark + channel: begun.String()}})
}

// cut is from when on messages may be news.
func (t track) cut() time.Time {
	from := instant(t.Since)
	if back := instant(t.Latest).Add(-overlap); back.After(from) {
		return back
	}
	return from
}

// gap is a channel with the time that was missed, and what is found out about it.
type gap struct {
	channel string
	track   track
	from    time.Time
	now     time.Time
	ear     ear

	list   []heard
	stands map[string]bool // messages that are there
	whole  map[string]bool // threads that were read whole; "" for the open channel
}

// roots lists what stands in the open channel, oldest first, as far back as
// threads may still be answered.
func (b *Backend) roots(ctx context.Context, g *gap) ([]wrote, error) {
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
func (g *gap) read(root wrote) (time.Time, bool) {
	at := instant(root.TS)
	if at.After(g.now.Add(-young)) {
		g.whole[root.TS] = true
	}
	if root.Replies == 0 && root.Thread == "" || root.Thread != "" && root.Thread != root.TS {
		return time.Time{}, false // not answered, or a reply that is shown to the channel as well
	}
	if g.whole[root.TS] {
		return at, true
	}
	latest := instant(root.Latest)
	return g.from, latest.IsZero() || latest.After(g.from)
}

// hear takes what a message of the history tells: its words, if they may be news,
// and its edit.
func (g *gap) hear(w wrote) {
	if w.Subtype == "tombstone" {
		return
	}
	g.stands[w.TS] = true
	if ev, ok := g.ear.said(g.channel, w); ok && instant(w.TS).After(g.from) && !slices.Contains(g.track.Recent, utterance{w.TS, string(ev.Place.Thread)}) {
		g.list = append(g.list, heard{Event: ev, channel: g.channel, ts: w.TS})
	}
	if ev, ok := g.ear.changed(g.channel, w); ok && instant(w.Edited.TS).After(g.from) {
		g.list = append(g.list, heard{Event: ev, channel: g.channel, ts: w.TS, stamp: w.Edited.TS})
	}
}

// settled is the age from which on a message that is not in the history is gone.
const settled = time.Minute

// missing finds the messages that were heard and are no more there.
func (g *gap) missing() {
	for _, u := range g.track.Recent {
		at := instant(u.TS)
		if g.stands[u.TS] || !g.whole[u.Thread] || at.Before(g.now.Add(-young)) || at.After(g.now.Add(-settled)) {
			continue
		}
		if ev, ok := g.ear.deleted(g.channel, u.TS, u.Thread, stampOf(g.now), nil); ok {
			g.list = append(g.list, heard{Event: ev, channel: g.channel, ts: u.TS, stamp: stampOf(g.now)})
		}
	}
}

// hands adds what reactions changed on the bot's own messages of the last days.
func (b *Backend) hands(ctx context.Context, g *gap, roots []wrote) error {
	for _, root := range roots {
		own := string(root.User) == g.ear.user || root.Bot != "" && root.Bot == g.ear.bot
		if !own || !g.whole[root.TS] {
			continue
		}
		stored, err := b.cfg.Bookmark(ctx, aboutMark+g.channel+"/"+root.TS)
		if err != nil {
			return fmt.Errorf("look up the reactions to %s: %w", root.TS, err)
		}
		put, taken := markOf(stored).shown(root.Reactions)
		g.reacted(chat.Reacted, root.TS, put)
		g.reacted(chat.Unreacted, root.TS, taken)
	}
	return nil
}

// reacted makes events of reactions. When they were made nobody knows, so they are
// said now. A reaction put on is marked as old as can be and one taken off as
// young as can be: whatever is delivered late may then take back a pass, and
// never make one.
func (g *gap) reacted(kind chat.Kind, ts string, hands []string) {
	slices.Sort(hands)
	for _, h := range hands {
		user, emoji, _ := strings.Cut(h, " ")
		ev := g.ear.hand(kind, g.channel, ts, user, emoji, stampOf(g.now))
		stamp := ts
		if kind == chat.Unreacted {
			stamp = stampOf(g.now)
		}
		g.list = append(g.list, heard{Event: ev, channel: g.channel, ts: ts, stamp: stamp, hand: h})
	}
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
