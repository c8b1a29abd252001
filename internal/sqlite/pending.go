package sqlite

import (
	"database/sql"
	"encoding/json"
	"fmt"

	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// pending is a row that may be claimed.
type pending struct {
	seq            int64
	key, state     string
	under, edits   chat.Key
	thread, target chat.Ref
	doubt          bool
	tries          int
	first, last    int64
	message        chat.Message
}

// job is what the sender gets to see of it.
func (p *pending) job(now int64) outbox.Job {
	job := outbox.Job{
		Message: p.message, Place: p.message.Place, Target: p.target,
		Doubt: p.doubt, First: instant(p.first), Last: instant(p.last), Tries: p.tries,
	}
	job.Place.Thread = p.thread
	if p.first == 0 {
		job.First = instant(now)
	}
	return job
}

const pendingColumns = `seq, key, state, under, edits, thread, doubt, tries, first_try, last_try`

func scanPending(rows *sql.Rows) (p pending, err error) {
	err = rows.Scan(&p.seq, &p.key, &p.state, &p.under, &p.edits, &p.thread, &p.doubt, &p.tries, &p.first, &p.last)
	return p, err
}

// load reads the message of a row that is about to be claimed. One that a later
// version wrote and this one cannot read is refused, or it would block the queue.
func (c *claim) load(p *pending) (bool, error) {
	var raw []byte
	if _, err := c.w.one(`SELECT body FROM outbox WHERE seq = ?`, []any{p.seq}, &raw); err != nil {
		return false, err
	}
	if err := json.Unmarshal(raw, &p.message); err != nil {
		return false, c.bury(p, outbox.Refused, fmt.Sprintf("it cannot be read: %v", err))
	}
	return true, nil
}
