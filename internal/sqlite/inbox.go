package sqlite

import (
	"context"
	"encoding/json"
	"fmt"

	"crosslay/bot"
	"crosslay/bot/chat"
)

// Receive implements bot.Store.
func (s *Store) Receive(ctx context.Context, backend string, batch chat.Batch) (int, error) {
	fresh := 0
	err := s.w.within(ctx, "receive", func() (bool, error) {
		for _, e := range batch.Events {
			n, err := s.w.receive(e)
			if err != nil {
				return false, err
			}
			fresh += n
		}
		moved, err := s.w.moveCursors(backend, batch.Cursors)
		return fresh > 0 || moved, err
	})
	if err != nil {
		return 0, fmt.Errorf("receive from %s: %w", backend, err)
	}
	return fresh, nil
}

func (w *writer) receive(e chat.Event) (int, error) {
	if e.Backend == "" || e.ID == "" {
		return 0, fmt.Errorf("an event of %q with the id %q has no name of its own", e.Backend, e.ID)
	}
	body, err := json.Marshal(e)
	if err != nil {
		return 0, fmt.Errorf("encode event %s/%s: %w", e.Backend, e.ID, err)
	}
	return w.change(`INSERT INTO inbox (backend, id, arrived, body) VALUES (?, ?, ?, ?)
		ON CONFLICT (backend, id) DO NOTHING`, e.Backend, e.ID, ms(e.Arrived), string(body))
}

func (w *writer) moveCursors(backend string, cursors map[string]string) (bool, error) {
	moved := false
	for name, value := range cursors {
		n, err := w.change(`INSERT INTO cursor (backend, name, value) VALUES (?, ?, ?)
			ON CONFLICT (backend, name) DO UPDATE SET value = excluded.value WHERE value != excluded.value`,
			backend, name, value)
		if err != nil {
			return false, err
		}
		moved = moved || n > 0
	}
	return moved, nil
}

// Cursor implements bot.Store.
func (s *Store) Cursor(ctx context.Context, backend, name string) (value string, err error) {
	err = s.w.look(ctx, func() error {
		_, err := s.w.one(`SELECT value FROM cursor WHERE backend = ? AND name = ?`, []any{backend, name}, &value)
		return err
	})
	return value, err
}

// Decide implements bot.Store. Trouble with the file is returned and parks
// nothing: the event is not to blame. A panic of f parks its event. The store is
// f's alone while it runs: f must not call it but through its Tx.
func (s *Store) Decide(ctx context.Context, f func(bot.Tx, chat.Event) (bot.Outcome, error)) (bool, error) {
	var seq int64
	var blame error
	err := s.w.within(ctx, "decide", func() (bool, error) {
		var body []byte
		ok, err := s.w.one(`SELECT seq, body FROM inbox WHERE state = 'new' ORDER BY seq LIMIT 1`, nil, &seq, &body)
		if err != nil || !ok {
			return false, err
		}
		blame = s.w.decide(body, f)
		if blame != nil {
			return false, nil
		}
		return true, s.w.exec(`UPDATE inbox SET state = 'handled' WHERE seq = ?`, seq)
	})
	if blame = explain(s.path, blame); isTrouble(blame) {
		err, blame = blame, nil
	}
	if err != nil {
		return false, fmt.Errorf("decide: %w", err)
	}
	if blame != nil {
		err = s.park(ctx, seq, blame)
	}
	return seq != 0, err
}

// decide makes the outcome of an event and applies it.
func (w *writer) decide(body []byte, f func(bot.Tx, chat.Event) (bot.Outcome, error)) error {
	var e chat.Event
	if err := json.Unmarshal(body, &e); err != nil {
		return fmt.Errorf("decode the event: %w", err)
	}
	out, err := guarded(f, tx{w}, e)
	if err != nil {
		return err
	}
	return w.apply(out, e.Arrived)
}

// guarded turns a panic of f into an error, so that one bad event cannot take
// the bot down at every start.
func guarded(f func(bot.Tx, chat.Event) (bot.Outcome, error), t bot.Tx, e chat.Event) (out bot.Outcome, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
	}()
	return f(t, e)
}

func (s *Store) park(ctx context.Context, seq int64, why error) error {
	err := s.w.within(ctx, "park", func() (bool, error) {
		return true, s.w.exec(`UPDATE inbox SET state = 'parked', reason = ? WHERE seq = ?`, why.Error(), seq)
	})
	if err != nil {
		return fmt.Errorf("park an event: %w", err)
	}
	return nil
}
