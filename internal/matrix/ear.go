package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// ear listens to the homeserver. What it knows between two syncs is what the last
// stored batch said.
type ear struct {
	*Backend
	receive func(context.Context, chat.Batch) error
	since   string
	unread  []sealed
	missing string // the addresses that were last said not to exist
	invites map[id.RoomID]*event.Event
}

// The names of the cursors. Each goes with an account: another one begins anew.
func (e *ear) sinceCursor() string  { return "since/" + e.cfg.Account.User + "/" + e.cfg.Account.Device }
func (e *ear) unreadCursor() string { return "unread/" + e.cfg.Account.User }
func lastCursor(r id.RoomID) string { return "last/" + string(r) }

// The waits between two syncs.
const (
	poll    = 30 * time.Second
	first   = time.Second      // pause after a failure; it doubles
	longest = 30 * time.Second // up to this
)

// Run listens until the context ends. Its error is a sentence for the operator:
// the account's files are not what they should be. Everything else is tried
// again, and said in the log: also a token that was revoked, since rooms on other
// services go on.
func (b *Backend) Run(ctx context.Context, receive func(context.Context, chat.Batch) error) error {
	e := &ear{Backend: b, receive: receive, invites: map[id.RoomID]*event.Event{}}
	begun, pause := false, first
	for ctx.Err() == nil {
		err := e.turn(ctx, &begun)
		if err == nil {
			pause = first
			continue
		}
		if ctx.Err() != nil {
			break
		}
		if fatal := (*AccountError)(nil); errors.As(err, &fatal) {
			return err
		}
		wait := b.pause(err, pause)
		pause = min(2*pause, longest)
		select {
		case <-ctx.Done():
		case <-time.After(wait):
		}
	}
	return nil
}

// pause says in the log why nothing was heard, and returns how long to wait.
func (b *Backend) pause(err error, pause time.Duration) time.Duration {
	if isRevoked(err) {
		b.cfg.Log.Error("matrix: nothing is heard", "error", revoked)
		return longest
	}
	if asked := (chat.Wait{}); errors.As(refusedOrWait(err), &asked) {
		pause = asked.For
	}
	b.cfg.Log.Warn("matrix: not heard, tried again", "in", pause.String(), "error", plainOrOwn(err))
	return pause
}

// plainOrOwn is the text of an error without what the server said of people.
func plainOrOwn(err error) string {
	if answer := (mautrix.HTTPError{}); errors.As(err, &answer) {
		return plainly(err).Error()
	}
	return err.Error()
}

// turn is one sync, heard and stored. The first one looks up what the last run
// left.
func (e *ear) turn(ctx context.Context, begun *bool) error {
	wait := e.wait()
	if !*begun {
		if err := e.begin(ctx); err != nil {
			return err
		}
		*begun, wait = true, 0
	}
	if err := e.resolve(ctx); err != nil {
		return err
	}
	resp, err := e.sync(ctx, wait)
	if e.since != "" && isBadToken(err) {
		e.since = "" // the server forgot: gaps are paged from what was heard last
	}
	if err != nil {
		return err
	}
	return e.hear(ctx, resp)
}

// sync asks what happened since the last time. A connection that hangs is given up.
func (e *ear) sync(ctx context.Context, wait time.Duration) (*mautrix.RespSync, error) {
	ctx, cancel := context.WithTimeout(ctx, wait+time.Minute)
	defer cancel()
	return e.client.FullSyncRequest(ctx, mautrix.ReqSync{
		Timeout: int(wait.Milliseconds()), Since: e.since, FilterID: syncFilter, SetPresence: event.PresenceOnline,
	})
}

// syncFilter leaves out what is of no use to a bot.
const syncFilter = `{"presence":{"types":[]},"account_data":{"types":[]},"room":{"timeline":{"limit":50},"ephemeral":{"types":[]},"account_data":{"types":[]}}}`

func isBadToken(err error) bool {
	var answer mautrix.HTTPError
	return errors.As(err, &answer) && answer.Response != nil && answer.Response.StatusCode == 400
}

// begin makes sure of the keys and reads what the last batch left.
func (e *ear) begin(ctx context.Context) error {
	if err := e.vault.agree(ctx); err != nil {
		return err
	}
	if err := e.open(ctx); err != nil {
		return err
	}
	var err error
	if e.since, err = e.cfg.Cursor(ctx, e.sinceCursor()); err != nil {
		return err
	}
	kept, err := e.cfg.Cursor(ctx, e.unreadCursor())
	if err != nil || kept == "" {
		return err
	}
	if err := json.Unmarshal([]byte(kept), &e.unread); err != nil {
		return fmt.Errorf("read the messages that wait for keys: %w", err)
	}
	return nil
}

// resolve looks up the rooms of the file, and says once which do not exist.
func (e *ear) resolve(ctx context.Context) error {
	missing, err := e.rooms.resolve(ctx)
	if err != nil {
		return err
	}
	if now := strings.Join(missing, ", "); now != e.missing {
		e.missing = now
		if now != "" {
			e.cfg.Log.Warn("matrix: the department file has rooms that do not exist", "rooms", now)
		}
	}
	return nil
}

// wait is how long the next sync may wait for something to happen.
func (e *ear) wait() time.Duration {
	wait := poll
	for _, s := range e.unread {
		if !s.Told {
			wait = min(wait, max(time.Until(s.Since.Add(e.cfg.Patience)), time.Second))
		}
	}
	return wait
}

// hear takes one sync in, hands in what it says, and moves on only then.
func (e *ear) hear(ctx context.Context, resp *mautrix.RespSync) error {
	if err := e.vault.take(ctx, resp, e.since); err != nil {
		return err
	}
	if err := e.invited(ctx, resp.Rooms.Invite); err != nil {
		return err
	}
	for room := range resp.Rooms.Leave {
		e.rooms.forget(room)
		delete(e.invites, room)
		e.cfg.Log.Warn("matrix: the bot is not in a room any more", "room", string(room), "address", e.rooms.at(room))
	}
	h := &hearing{ear: e, unread: e.unread, cursors: e.rooms.cursors(), now: time.Now()}
	for _, room := range slices.Sorted(maps.Keys(resp.Rooms.Join)) {
		if err := h.room(ctx, room, resp.Rooms.Join[room].Timeline); err != nil {
			return err
		}
	}
	if err := h.retry(ctx); err != nil {
		return err
	}
	batch, err := h.batch(resp.NextBatch)
	if err != nil {
		return err
	}
	if len(batch.Events) > 0 || resp.NextBatch != e.since {
		if err := e.receive(ctx, batch); err != nil {
			return err
		}
	}
	e.since, e.unread = resp.NextBatch, h.unread
	return nil
}
