package sqlite

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/defect"
)

// apply writes an outcome within the open transaction. Now is when its event
// arrived, and stamps every row.
func (w *writer) apply(out bot.Outcome, now time.Time) error {
	if err := w.applyStates(out); err != nil {
		return err
	}
	for _, r := range out.Records {
		if err := w.appendRecord(r); err != nil {
			return fmt.Errorf("append record %s: %w", r.ID, err)
		}
	}
	for _, key := range out.Drop {
		if err := w.drop(key, now); err != nil {
			return fmt.Errorf("drop %s: %w", key, err)
		}
	}
	for _, m := range out.Messages {
		if err := w.enqueue(m, now); err != nil {
			return fmt.Errorf("enqueue %s: %w", m.Key, err)
		}
	}
	return w.applyRest(out)
}

// applyStates replaces what holds of companies, items and defects.
func (w *writer) applyStates(out bot.Outcome) error {
	for _, s := range out.Standings {
		if err := w.replace(`INSERT INTO standing (company, body) VALUES (?, ?)
			ON CONFLICT (company) DO UPDATE SET body = excluded.body`, string(s.Company), s); err != nil {
			return err
		}
	}
	for _, s := range out.Items {
		if err := w.replace(`INSERT INTO item (item, body) VALUES (?, ?)
			ON CONFLICT (item) DO UPDATE SET body = excluded.body`, string(s.Item), s); err != nil {
			return err
		}
	}
	for _, d := range out.Defects {
		if err := w.putDefect(d); err != nil {
			return err
		}
	}
	return nil
}

func (w *writer) replace(query, id string, v any) error {
	raw, err := json.Marshal(v)
	if err == nil {
		err = w.exec(query, id, string(raw))
	}
	if err != nil {
		return fmt.Errorf("store %s: %w", id, err)
	}
	return nil
}

func (w *writer) putDefect(d *defect.Defect) error {
	raw, err := json.Marshal(d)
	if err != nil {
		return fmt.Errorf("store defect %s: %w", d.ID, err)
	}
	last := d.Reported
	for _, r := range d.Reports {
		if r.At.After(last) {
			last = r.At
		}
	}
	err = w.exec(`INSERT INTO defect (id, item, kind, check_id, closed, repaired_at, reported_at, last_at, body)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET
		closed = excluded.closed, repaired_at = excluded.repaired_at, reported_at = excluded.reported_at,
		last_at = excluded.last_at, body = excluded.body`,
		string(d.ID), string(d.Ref.Item), string(d.Kind), string(d.Ref.Check), !d.Closed.IsZero(),
		ms(d.Repaired), ms(d.Reported), ms(last), string(raw))
	if err != nil {
		return fmt.Errorf("store defect %s: %w", d.ID, err)
	}
	return nil
}

// applyRest sets wakes and facts, and brings followups in by the common door.
func (w *writer) applyRest(out bot.Outcome) error {
	for _, wake := range out.Wakes {
		if err := w.setWake(wake); err != nil {
			return fmt.Errorf("set the wake of %s: %w", wake.Scope, err)
		}
	}
	for _, e := range out.Followups {
		if _, err := w.receive(e); err != nil {
			return err
		}
	}
	for name, value := range out.Meta {
		if err := w.exec(`INSERT INTO meta (name, value) VALUES (?, ?)
			ON CONFLICT (name) DO UPDATE SET value = excluded.value`, name, value); err != nil {
			return fmt.Errorf("set %s: %w", name, err)
		}
	}
	return nil
}

func (w *writer) setWake(wake bot.Wake) error {
	if wake.At.IsZero() {
		return w.exec(`DELETE FROM wake WHERE scope = ?`, wake.Scope)
	}
	return w.exec(`INSERT INTO wake (scope, at) VALUES (?, ?)
		ON CONFLICT (scope) DO UPDATE SET at = excluded.at`, wake.Scope, msUp(wake.At))
}

// enqueue leaves a message alone that is there already: its key names the deed.
func (w *writer) enqueue(m chat.Message, now time.Time) error {
	if m.Key == "" {
		return errors.New("it has no key")
	}
	if m.Place.Backend == "" {
		if err := w.inherit(&m); err != nil {
			return err
		}
	}
	raw, err := json.Marshal(m)
	if err != nil {
		return err
	}
	return w.exec(`INSERT INTO outbox (key, backend, room, thread, under, edits, queued_at, body)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (key) DO NOTHING`,
		string(m.Key), m.Place.Backend, m.Place.Room, string(m.Place.Thread), string(m.Under), string(m.Edits),
		ms(now), string(raw))
}

// inherit puts a message without a place where the message that it edits or
// stands under is.
func (w *writer) inherit(m *chat.Message) error {
	other := m.Edits
	if other == "" {
		other = m.Under
	}
	var raw []byte
	ok, err := w.one(`SELECT body FROM outbox WHERE key = ?`, []any{string(other)}, &raw)
	if err != nil {
		return err
	}
	if !ok {
		return fmt.Errorf("it has no place, and there is no message %q to go by", other)
	}
	var o chat.Message
	if err := json.Unmarshal(raw, &o); err != nil {
		return err
	}
	m.Place = o.Place
	return nil
}

// drop takes back a message that nobody has begun to send.
func (w *writer) drop(key chat.Key, now time.Time) error {
	return w.exec(`UPDATE outbox SET state = 'dropped', settled_at = ? WHERE key = ? AND state = 'ready'`,
		ms(now), string(key))
}
