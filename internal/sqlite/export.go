package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/internal/outbox"
)

// Filter narrows an export; what is zero does not.
type Filter struct {
	Since, Until time.Time // by when it was said; Until is not included
	Company      dept.CompanyID
	Item         dept.ItemID
	Kind         bot.RecordKind
}

func (f Filter) where() (string, []any) {
	var conds []string
	var args []any
	add := func(set bool, cond string, arg any) {
		if set {
			conds, args = append(conds, cond), append(args, arg)
		}
	}
	add(!f.Since.IsZero(), "at >= ?", ms(f.Since))
	add(!f.Until.IsZero(), "at < ?", ms(f.Until))
	add(f.Company != "", "company = ?", string(f.Company))
	add(f.Item != "", "item = ?", string(f.Item))
	add(f.Item != "", "item != ?", "")
	add(f.Kind != "", "kind = ?", string(f.Kind))
	if len(conds) == 0 {
		return "", nil
	}
	return " WHERE " + strings.Join(conds, " AND "), args
}

// Records calls f with every record in the order in which things were said, and
// with the id of the latest record that supersedes it, "" if none does. It reads
// beside the writer, as of the instant at which it began. An error of f ends it.
func (s *Store) Records(ctx context.Context, filter Filter, f func(r bot.Record, supersededBy string) error) error {
	where, args := filter.where()
	rows, err := s.reader.QueryContext(ctx, `SELECT `+recordColumns+`,
		coalesce((SELECT n.id FROM record n WHERE n.supersedes = record.id AND n.supersedes != '' ORDER BY n.seq DESC LIMIT 1), '')
		FROM record`+where+` ORDER BY at, seq`, args...)
	if err != nil {
		return explain(s.path, err)
	}
	return explain(s.path, drain(rows, func(rows *sql.Rows) error {
		var by string
		r, err := scanRecord(rows, &by)
		if err != nil {
			return err
		}
		return f(r, by)
	}))
}

// Parked is an event that could not be handled.
type Parked struct {
	Seq    int64
	Event  chat.Event
	Reason string
}

// Parked lists the events that could not be handled, oldest first.
func (s *Store) Parked(ctx context.Context) (list []Parked, err error) {
	err = s.list(ctx, `SELECT seq, reason, body FROM inbox WHERE state = 'parked' ORDER BY seq`, nil, func(rows *sql.Rows) error {
		var p Parked
		var raw []byte
		if err := rows.Scan(&p.Seq, &p.Reason, &raw); err != nil {
			return err
		}
		_ = json.Unmarshal(raw, &p.Event) // what cannot be decoded is shown by its reason
		list = append(list, p)
		return nil
	})
	return list, err
}

// Unpark puts a parked event back to be handled, after what it was parked for
// has been put right.
func (s *Store) Unpark(ctx context.Context, seq int64) error {
	return s.w.within(ctx, "unpark", func() (bool, error) {
		n, err := s.w.change(`UPDATE inbox SET state = 'new', reason = '' WHERE seq = ? AND state = 'parked'`, seq)
		if err == nil && n == 0 {
			err = fmt.Errorf("no event %d is parked", seq)
		}
		return true, err
	})
}

// Outgoing is a message of the outbox, as an operator sees it.
type Outgoing struct {
	Message chat.Message
	State   outbox.State
	Doubt   bool
	Thread  chat.Ref
	Ref     chat.Ref
	Reason  string
	Tries   int
	Queued  time.Time
	Tried   time.Time
	Settled time.Time
}

// Outgoing lists the messages in any of the states, oldest first; with no state
// all messages ever. Asked for what is pending or for trouble alone, it costs no
// more for all that was sent before.
func (s *Store) Outgoing(ctx context.Context, states ...outbox.State) (list []Outgoing, err error) {
	query, args := outgoing(states)
	err = s.list(ctx, query, args, func(rows *sql.Rows) error {
		o, err := scanOutgoing(rows)
		list = append(list, o)
		return err
	})
	return list, err
}

// indexed are the groups of states that have an index of their own, with the
// condition by which SQLite sees that it may use it.
var indexed = []struct {
	index, cond string
	states      []outbox.State
}{
	{"outbox_pending", "state IN ('ready', 'sending')", []outbox.State{outbox.Ready, outbox.Sending}},
	{"outbox_trouble", "state IN ('refused', 'uncertain')", []outbox.State{outbox.Refused, outbox.Uncertain}},
}

func outgoing(states []outbox.State) (query string, args []any) {
	from, where := "outbox", ""
	if len(states) > 0 {
		where = ` WHERE state IN (?` + strings.Repeat(`, ?`, len(states)-1) + `)`
		for _, group := range indexed {
			if within(states, group.states) {
				from += " INDEXED BY " + group.index
				where += " AND " + group.cond
			}
		}
	}
	for _, s := range states {
		args = append(args, string(s))
	}
	return `SELECT body, state, doubt, thread, ref, reason, tries, queued_at, last_try, settled_at
		FROM ` + from + where + ` ORDER BY seq`, args
}

func within(states, group []outbox.State) bool {
	return !slices.ContainsFunc(states, func(s outbox.State) bool { return !slices.Contains(group, s) })
}

func scanOutgoing(rows *sql.Rows) (o Outgoing, err error) {
	var raw []byte
	var queued, tried, settled int64
	err = rows.Scan(&raw, &o.State, &o.Doubt, &o.Thread, &o.Ref, &o.Reason, &o.Tries, &queued, &tried, &settled)
	if err != nil {
		return o, err
	}
	o.Queued, o.Tried, o.Settled = instant(queued), instant(tried), instant(settled)
	return o, json.Unmarshal(raw, &o.Message)
}

// Resolve ends the uncertainty about a message, after somebody has looked: it
// arrived, or it is to be sent again.
func (s *Store) Resolve(ctx context.Context, key chat.Key, arrived bool, now time.Time) error {
	state := outbox.Ready
	if arrived {
		state = outbox.Sent
	}
	return s.w.within(ctx, "resolve", func() (bool, error) {
		n, err := s.w.change(`UPDATE outbox SET state = ?, reason = '', settled_at = ? WHERE key = ? AND state = 'uncertain'`,
			string(state), ms(now), string(key))
		if err == nil && n == 0 {
			err = fmt.Errorf("message %s is not uncertain", key)
		}
		if err == nil && arrived {
			err = s.w.sent(key, outbox.Verdict{Now: now})
		}
		return true, err
	})
}

// Check reads the whole file and reports damage. It takes long on a large one.
func (s *Store) Check(ctx context.Context) error {
	var word string
	if err := s.reader.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&word); err != nil {
		return explain(s.path, err)
	}
	if word != "ok" {
		return &Error{Path: s.path, Trouble: Damaged, Err: fmt.Errorf("%s", word)}
	}
	return nil
}

// Backup writes a copy, as of this instant, to a file that does not exist yet.
// The bot may go on serving meanwhile.
func (s *Store) Backup(ctx context.Context, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fmt.Errorf("%s exists already; a backup never overwrites", to)
	}
	db, err := sql.Open("sqlite", location(s.path)+"?mode=ro&_pragma=busy_timeout(5000)")
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = db.ExecContext(ctx, `VACUUM INTO ?`, to)
	return explain(to, err)
}

func (s *Store) list(ctx context.Context, query string, args []any, f func(*sql.Rows) error) error {
	rows, err := s.reader.QueryContext(ctx, query, args...)
	if err != nil {
		return explain(s.path, err)
	}
	return explain(s.path, drain(rows, f))
}
