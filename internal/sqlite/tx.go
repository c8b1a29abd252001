package sqlite

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
)

// tx answers from within the writer's transaction.
type tx struct{ w *writer }

// KeyOf implements bot.Tx. An edit has the ref of what it edits, and is not asked.
func (t tx) KeyOf(backend, room string, ref chat.Ref) (chat.Key, error) {
	if ref == "" {
		return "", nil
	}
	var key chat.Key
	_, err := t.w.one(`SELECT key FROM outbox
		WHERE backend = ? AND room = ? AND ref = ? AND ref != '' AND edits = '' ORDER BY seq LIMIT 1`,
		[]any{backend, room, string(ref)}, &key)
	return key, err
}

// Standing implements bot.Tx.
func (t tx) Standing(id dept.CompanyID) (*bot.Standing, error) {
	return body[bot.Standing](t.w, `SELECT body FROM standing WHERE company = ?`, string(id))
}

// Standings implements bot.Tx.
func (t tx) Standings() (map[dept.CompanyID]*bot.Standing, error) {
	all := map[dept.CompanyID]*bot.Standing{}
	list, err := bodies[bot.Standing](t.w, `SELECT body FROM standing`)
	for _, s := range list {
		all[s.Company] = s
	}
	return all, err
}

// Item implements bot.Tx.
func (t tx) Item(id dept.ItemID) (*bot.ItemState, error) {
	return body[bot.ItemState](t.w, `SELECT body FROM item WHERE item = ?`, string(id))
}

// Items implements bot.Tx.
func (t tx) Items() (map[dept.ItemID]*bot.ItemState, error) {
	all := map[dept.ItemID]*bot.ItemState{}
	list, err := bodies[bot.ItemState](t.w, `SELECT body FROM item`)
	for _, s := range list {
		all[s.Item] = s
	}
	return all, err
}

// Defect implements bot.Tx.
func (t tx) Defect(id defect.ID) (*defect.Defect, error) {
	return body[defect.Defect](t.w, `SELECT body FROM defect WHERE id = ?`, string(id))
}

// DefectsOf implements bot.Tx.
func (t tx) DefectsOf(item dept.ItemID, since time.Time) ([]*defect.Defect, error) {
	return bodies[defect.Defect](t.w, `SELECT body FROM (
		SELECT body, reported_at, id FROM defect WHERE item = ? AND closed = 0
		UNION ALL
		SELECT body, reported_at, id FROM defect WHERE item = ? AND closed = 1 AND repaired_at >= ? AND repaired_at != 0
		) ORDER BY reported_at, id`, string(item), string(item), ms(since))
}

// DefectsOpen implements bot.Tx.
func (t tx) DefectsOpen() ([]*defect.Defect, error) {
	return bodies[defect.Defect](t.w, `SELECT body FROM defect WHERE closed = 0 ORDER BY reported_at, id`)
}

// DefectsOfKind implements bot.Tx. A defect reported again counts by its last report.
func (t tx) DefectsOfKind(kind dept.KindID, id check.ID, since time.Time) ([]*defect.Defect, error) {
	return bodies[defect.Defect](t.w, `SELECT body FROM defect
		WHERE kind = ? AND check_id = ? AND last_at >= ? ORDER BY reported_at, id`, string(kind), string(id), ms(since))
}

// History implements bot.Tx; newest by when it was said.
func (t tx) History(item dept.ItemID, n int) ([]bot.Record, error) {
	return t.w.records(`WHERE item = ? AND item != '' ORDER BY at DESC, seq DESC LIMIT ?`, string(item), n)
}

// Rungs implements bot.Tx.
func (t tx) Rungs(company dept.CompanyID, n int) ([]bot.Record, error) {
	return t.w.records(`WHERE company = ? AND kind = 'reminder' ORDER BY at DESC, seq DESC LIMIT ?`, string(company), n)
}

// Meta implements bot.Tx.
func (t tx) Meta(name string) (value string, err error) {
	_, err = t.w.one(`SELECT value FROM meta WHERE name = ?`, []any{name}, &value)
	return value, err
}

// body decodes one row's JSON; nil if there is none.
func body[T any](w *writer, query string, args ...any) (*T, error) {
	var raw []byte
	ok, err := w.one(query, args, &raw)
	if err != nil || !ok {
		return nil, err
	}
	return decode[T](raw)
}

func bodies[T any](w *writer, query string, args ...any) ([]*T, error) {
	var list []*T
	err := w.each(query, args, func(rows *sql.Rows) error {
		var raw sql.RawBytes
		if err := rows.Scan(&raw); err != nil {
			return err
		}
		v, err := decode[T](raw)
		list = append(list, v)
		return err
	})
	return list, err
}

func decode[T any](raw []byte) (*T, error) {
	v := new(T)
	if err := json.Unmarshal(raw, v); err != nil {
		return nil, fmt.Errorf("decode a %T: %w", *v, err)
	}
	return v, nil
}
