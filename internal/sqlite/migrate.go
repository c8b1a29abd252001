package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"path"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var embedded embed.FS

// migrate brings the schema up to date, and refuses one of a later version. One
// that is up to date already costs a single query.
func migrate(ctx context.Context, db *sql.DB) error {
	has, known, err := versions(ctx, db)
	if err != nil || has == known {
		return err
	}
	if has > known {
		return newer(has, known)
	}
	files, err := fs.Sub(embedded, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, files)
	if err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}

// current refuses a schema that is not exactly the one known.
func current(ctx context.Context, db *sql.DB) error {
	has, known, err := versions(ctx, db)
	if err != nil || has == known {
		return err
	}
	if has > known {
		return newer(has, known)
	}
	return &Error{Trouble: Older, Err: numbers(has, known)}
}

// versions are the schema's number in the file, 0 in an empty one, and the last
// that this program knows.
func versions(ctx context.Context, db *sql.DB) (has, known int64, err error) {
	if known, err = lastKnown(); err != nil {
		return 0, 0, err
	}
	var tables int
	err = db.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_master WHERE name = 'goose_db_version'`).Scan(&tables)
	if err != nil || tables == 0 {
		return 0, known, err
	}
	err = db.QueryRowContext(ctx, `SELECT coalesce(max(version_id), 0) FROM goose_db_version WHERE is_applied`).Scan(&has)
	return has, known, err
}

func lastKnown() (last int64, err error) {
	files, err := fs.Glob(embedded, "migrations/*.sql")
	if err != nil {
		return 0, err
	}
	for _, f := range files {
		n, err := goose.NumericComponent(path.Base(f))
		if err != nil {
			return 0, err
		}
		last = max(last, n)
	}
	return last, nil
}

func newer(has, known int64) error { return &Error{Trouble: Newer, Err: numbers(has, known)} }

func numbers(has, known int64) error {
	return fmt.Errorf("its schema is number %d, this version knows %d", has, known)
}
