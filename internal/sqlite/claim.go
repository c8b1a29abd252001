package sqlite

import (
	"database/sql"
	"fmt"

	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// claim is one search for what can be sent. On its way it settles what never
// will be; changed says that it did.
type claim struct {
	w       *writer
	now     int64
	changed bool
}

// room is a room with pending messages.
type room struct {
	backend, name string
	notBefore     int64
}

// oldest is the oldest head of all rooms that need not be left alone now, with
// its message.
func (c *claim) oldest() (*pending, error) {
	for {
		best, err := c.oldestHead()
		if err != nil || best == nil {
			return nil, err
		}
		if ok, err := c.load(best); ok || err != nil {
			return best, err
		}
	}
}

func (c *claim) oldestHead() (*pending, error) {
	rooms, err := c.rooms()
	if err != nil {
		return nil, err
	}
	var best *pending
	for _, r := range rooms {
		if r.notBefore > c.now {
			continue
		}
		head, err := c.head(r)
		if err != nil {
			return nil, err
		}
		if head != nil && (best == nil || head.seq < best.seq) {
			best = head
		}
	}
	return best, nil
}

// rooms lists the rooms with pending messages. It jumps from room to room on the
// index, so that a long queue in one of them costs nothing.
func (c *claim) rooms() ([]room, error) {
	var list []room
	last := room{}
	for {
		var r room
		ok, err := c.w.one(`SELECT p.backend, p.room, coalesce(r.not_before, 0)
			FROM (SELECT backend, room FROM outbox
				WHERE state IN ('ready', 'sending') AND (backend, room) > (?, ?)
				ORDER BY backend, room LIMIT 1) p
			LEFT JOIN room r USING (backend, room)`, []any{last.backend, last.name}, &r.backend, &r.name, &r.notBefore)
		if err != nil || !ok {
			return list, err
		}
		list = append(list, r)
		last = r
	}
}

// page is how many messages of a room are looked at together.
const page = 16

// head is the first message of a room that waits for nothing; nil if there is
// none or one is in flight.
func (c *claim) head(r room) (*pending, error) {
	inFlight, err := c.page(r, "sending", 0)
	if err != nil {
		return nil, err
	}
	if len(inFlight) > 0 {
		p := &inFlight[0]
		if !p.doubt {
			return nil, nil // it is in somebody's hands
		}
		if ok, err := c.again(p); ok || err != nil {
			return p, err
		}
	}
	for after := int64(0); ; {
		rows, err := c.page(r, "ready", after)
		if err != nil || len(rows) == 0 {
			return nil, err
		}
		for i := range rows {
			ok, err := c.free(&rows[i])
			if ok || err != nil {
				return &rows[i], err
			}
		}
		after = rows[len(rows)-1].seq
	}
}

func (c *claim) page(r room, state string, after int64) (list []pending, err error) {
	err = c.w.each(`SELECT `+pendingColumns+` FROM outbox WHERE backend = ? AND room = ?
		AND state = ? AND state IN ('ready', 'sending') AND seq > ? ORDER BY seq LIMIT ?`,
		[]any{r.backend, r.name, state, after, page}, func(rows *sql.Rows) error {
			p, err := scanPending(rows)
			list = append(list, p)
			return err
		})
	return list, err
}

// again reports whether a message in doubt is still to be settled. Its thread was
// resolved when it was claimed first; an edit may have been overtaken since.
func (c *claim) again(p *pending) (bool, error) {
	if p.edits == "" {
		return true, nil
	}
	return c.free(p)
}

// free reports whether a message waits for nothing more, and resolves the refs
// that it was waiting for.
func (c *claim) free(p *pending) (bool, error) {
	if p.edits != "" {
		return c.freeEdit(p)
	}
	if p.under == "" {
		return true, nil
	}
	root, err := c.other(p, p.under)
	if err != nil || root == nil {
		return false, err
	}
	if root.sameRoom {
		p.thread = root.ref
		if root.thread != "" {
			p.thread = root.thread // a root within a thread: that thread
		}
	}
	return true, nil
}

func (c *claim) freeEdit(p *pending) (bool, error) {
	if overtaken, err := c.overtaken(p); overtaken || err != nil {
		return false, err
	}
	target, err := c.other(p, p.edits)
	if err != nil || target == nil {
		return false, err
	}
	if target.ref == "" || !target.sameRoom {
		return false, c.bury(p, outbox.Refused, fmt.Sprintf("there is nothing to edit in its room: %s has no ref there", p.edits))
	}
	p.target, p.thread = target.ref, target.thread
	return true, nil
}

// overtaken settles an edit for which a newer one of the same message waits.
func (c *claim) overtaken(p *pending) (bool, error) {
	var newer string
	ok, err := c.w.one(`SELECT key FROM outbox WHERE edits = ? AND edits != '' AND state = 'ready' AND seq > ?
		ORDER BY seq DESC LIMIT 1`, []any{string(p.edits), p.seq}, &newer)
	if err != nil || !ok {
		return false, err
	}
	return true, c.bury(p, outbox.Overtaken, "by "+newer)
}

// sent is the message that another waits for.
type sent struct {
	ref, thread chat.Ref
	sameRoom    bool
}

// other is the message that p waits for, nil if it has not been sent. If it never
// will be, p is buried with it.
func (c *claim) other(p *pending, key chat.Key) (*sent, error) {
	var o sent
	var state outbox.State
	ok, err := c.w.one(`SELECT o.state, o.ref, o.thread, o.backend = p.backend AND o.room = p.room
		FROM outbox o, outbox p WHERE o.key = ? AND p.seq = ?`,
		[]any{string(key), p.seq}, &state, &o.ref, &o.thread, &o.sameRoom)
	if err != nil {
		return nil, err
	}
	if !ok {
		return nil, c.bury(p, outbox.Refused, fmt.Sprintf("it belongs to %s, and there is no such message", key))
	}
	switch state {
	case outbox.Sent:
		return &o, nil
	case outbox.Dropped, outbox.Overtaken:
		return nil, c.bury(p, outbox.Dropped, fmt.Sprintf("with %s", key))
	case outbox.Refused:
		return nil, c.bury(p, outbox.Refused, fmt.Sprintf("it belongs to %s, which was refused", key))
	case outbox.Ready, outbox.Sending, outbox.Uncertain:
	}
	return nil, nil
}

// bury settles a message that will not be sent.
func (c *claim) bury(p *pending, state outbox.State, why string) error {
	c.changed = true
	return c.w.exec(`UPDATE outbox SET state = ?, doubt = 0, reason = ?, settled_at = ? WHERE seq = ?`,
		string(state), why, c.now, p.seq)
}
