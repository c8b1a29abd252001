package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

var (
	errClosed   = errors.New("the store is closed")
	errReadOnly = errors.New("the store was opened to read only")
)

// within runs f in one immediate transaction and commits if f says so. The error
// is explained; nothing is acknowledged that was not committed.
func (w *writer) within(ctx context.Context, name string, f func() (bool, error)) error {
	if w == nil {
		return errReadOnly
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.conn == nil {
		return errClosed
	}
	if err := w.exec("BEGIN IMMEDIATE"); err != nil {
		return explain(w.path, err)
	}
	open := true
	defer func() {
		if open {
			_ = w.exec("ROLLBACK") // SQLite may have rolled back already
		}
	}()
	commit, err := f()
	if err != nil || !commit {
		return explain(w.path, err)
	}
	w.at("before ", name)
	if err := w.exec("COMMIT"); err != nil {
		return explain(w.path, err)
	}
	open = false
	w.at("after ", name)
	return nil
}

func (w *writer) at(when, name string) {
	if w.atCommit != nil {
		w.atCommit(when + name)
	}
}

// look runs f, which only reads, while nobody writes.
func (w *writer) look(ctx context.Context, f func() error) error {
	if w == nil {
		return errReadOnly
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.conn == nil {
		return errClosed
	}
	return explain(w.path, f())
}

// stmt prepares each query once.
func (w *writer) stmt(query string) (*sql.Stmt, error) {
	if st, ok := w.stmts[query]; ok {
		return st, nil
	}
	st, err := w.conn.PrepareContext(context.Background(), query)
	if err != nil {
		return nil, err
	}
	w.stmts[query] = st
	return st, nil
}

func (w *writer) exec(query string, args ...any) error {
	_, err := w.change(query, args...)
	return err
}

// change reports how many rows a statement changed.
func (w *writer) change(query string, args ...any) (int, error) {
	st, err := w.stmt(query)
	if err != nil {
		return 0, err
	}
	res, err := st.Exec(args...)
	if err != nil {
		return 0, err
	}
	n, err := res.RowsAffected()
	return int(n), err
}

// one scans a single row and reports whether there was one.
func (w *writer) one(query string, args []any, into ...any) (bool, error) {
	st, err := w.stmt(query)
	if err != nil {
		return false, err
	}
	err = st.QueryRow(args...).Scan(into...)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	return err == nil, err
}

// each calls f for every row.
func (w *writer) each(query string, args []any, f func(*sql.Rows) error) error {
	st, err := w.stmt(query)
	if err != nil {
		return err
	}
	rows, err := st.Query(args...)
	if err != nil {
		return err
	}
	return drain(rows, f)
}

func drain(rows *sql.Rows, f func(*sql.Rows) error) error {
	defer rows.Close()
	for rows.Next() {
		if err := f(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// ms is an instant as it is stored; the zero time is 0.
func ms(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.UnixMilli()
}

// msUp is an instant before which nothing is to happen: it is never stored as an
// earlier one, or whoever is woken by it would find nothing due.
func msUp(t time.Time) int64 {
	if t.IsZero() {
		return 0
	}
	return t.Add(time.Millisecond - 1).UnixMilli()
}

// instant is the reverse of ms.
func instant(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms).UTC()
}
