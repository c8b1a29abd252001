package sqlite

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// Recover implements outbox.Queue.
func (s *Store) Recover(ctx context.Context) (n int, err error) {
	err = s.w.within(ctx, "recover", func() (bool, error) {
		n, err = s.w.change(`UPDATE outbox SET doubt = 1
			WHERE state = 'sending' AND state IN ('ready', 'sending')`)
		return n > 0, err
	})
	return n, err
}

// Claim implements outbox.Queue.
func (s *Store) Claim(ctx context.Context, now time.Time) (job outbox.Job, found bool, err error) {
	err = s.w.within(ctx, "claim", func() (bool, error) {
		c := claim{w: s.w, now: ms(now)}
		best, err := c.oldest()
		if err != nil || best == nil {
			return c.changed, err
		}
		found = true
		job = best.job(ms(now))
		return true, s.w.take(best, ms(now))
	})
	if err != nil {
		return outbox.Job{}, false, fmt.Errorf("claim: %w", err)
	}
	return job, found, nil
}

// take marks a row as sending.
func (w *writer) take(p *pending, now int64) error {
	return w.exec(`UPDATE outbox SET state = 'sending', doubt = 0, thread = ?, tries = tries + 1,
		first_try = CASE first_try WHEN 0 THEN ? ELSE first_try END, last_try = ? WHERE seq = ?`,
		string(p.thread), now, now, p.seq)
}

// Settle implements outbox.Queue. The event that tells of an accepted message
// is stored with the acceptance.
func (s *Store) Settle(ctx context.Context, key chat.Key, v outbox.Verdict) error {
	return s.w.within(ctx, "settle "+string(v.State), func() (bool, error) {
		n, err := s.w.settle(key, v)
		if err == nil && n == 0 {
			err = fmt.Errorf("settle %s: %w", key, outbox.ErrNotClaimed)
		}
		if err == nil && v.State == outbox.Sent {
			err = s.w.sent(key, v)
		}
		if err == nil && !v.Next.IsZero() {
			err = s.w.rest(key, v.Next)
		}
		return true, err
	})
}

func (w *writer) settle(key chat.Key, v outbox.Verdict) (int, error) {
	switch v.State {
	case outbox.Sent, outbox.Refused, outbox.Uncertain:
		return w.change(`UPDATE outbox SET state = ?, doubt = 0, ref = ?, reason = ?, settled_at = ?
			WHERE key = ? AND state = 'sending'`, string(v.State), string(v.Ref), v.Reason, ms(v.Now), string(key))
	case outbox.Ready, outbox.Sending:
		return w.change(`UPDATE outbox SET state = ?, doubt = ?, reason = ?,
			last_try = CASE ? WHEN 0 THEN last_try ELSE ? END WHERE key = ? AND state = 'sending'`,
			string(v.State), v.State == outbox.Sending, v.Reason, ms(v.Last), ms(v.Last), string(key))
	}
	return 0, fmt.Errorf("settle %s: %q is no verdict", key, v.State)
}

// sent puts the event into the inbox that a message asks for with Tell, and
// throws the files of its pictures away.
func (w *writer) sent(key chat.Key, v outbox.Verdict) error {
	var raw []byte
	var thread chat.Ref
	if _, err := w.one(`SELECT body, thread FROM outbox WHERE key = ?`, []any{string(key)}, &raw, &thread); err != nil {
		return err
	}
	var m chat.Message
	if err := json.Unmarshal(raw, &m); err != nil {
		return err
	}
	if err := w.forgetFiles(m); err != nil || !m.Tell {
		return err
	}
	m.Place.Thread = thread
	_, err := w.receive(chat.Event{
		Backend: "outbox", ID: string(key), Kind: chat.Accepted, MsgKey: key,
		Said: v.Now, Arrived: v.Now, Place: m.Place, Target: v.Ref,
	})
	return err
}

func (w *writer) forgetFiles(m chat.Message) error {
	files := 0
	for i := range m.Pics {
		files += len(m.Pics[i].Data)
		m.Pics[i].Data = nil
	}
	if files == 0 {
		return nil
	}
	raw, err := json.Marshal(m)
	if err != nil {
		return err
	}
	return w.exec(`UPDATE outbox SET body = ? WHERE key = ?`, string(raw), string(m.Key))
}

// rest leaves the message's room alone until then.
func (w *writer) rest(key chat.Key, until time.Time) error {
	return w.exec(`INSERT INTO room (backend, room, not_before)
		SELECT backend, room, ? FROM outbox WHERE key = ?
		ON CONFLICT (backend, room) DO UPDATE SET not_before = excluded.not_before`, msUp(until), string(key))
}

// Next implements outbox.Queue.
func (s *Store) Next(ctx context.Context) (next time.Time, err error) {
	err = s.w.within(ctx, "next", func() (bool, error) {
		c := claim{w: s.w}
		rooms, err := c.rooms()
		for _, r := range rooms {
			head, err := c.head(r)
			if err != nil {
				return false, err
			}
			at := time.UnixMilli(r.notBefore).UTC()
			if head != nil && (next.IsZero() || at.Before(next)) {
				next = at
			}
		}
		return c.changed, err
	})
	return next, err
}
