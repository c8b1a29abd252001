package sqlite

import (
	"context"
	"database/sql"
	"time"

	"crosslay/bot"
)

// Wakes implements bot.Store, earliest first.
func (s *Store) Wakes(ctx context.Context, now time.Time) (list []bot.Wake, err error) {
	err = s.w.look(ctx, func() error {
		return s.w.each(`SELECT scope, at FROM wake WHERE at <= ? ORDER BY at, scope`, []any{ms(now)}, func(rows *sql.Rows) error {
			var wake bot.Wake
			var at int64
			err := rows.Scan(&wake.Scope, &at)
			wake.At = instant(at)
			list = append(list, wake)
			return err
		})
	})
	return list, err
}

// NextWake implements bot.Store.
func (s *Store) NextWake(ctx context.Context) (time.Time, error) {
	var at int64
	err := s.w.look(ctx, func() error {
		_, err := s.w.one(`SELECT at FROM wake ORDER BY at LIMIT 1`, nil, &at)
		return err
	})
	return instant(at), err
}
