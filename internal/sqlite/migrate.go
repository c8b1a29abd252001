package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var embedded embed.FS

func provider(db *sql.DB) (*goose.Provider, int64, error) {
	files, err := fs.Sub(embedded, "migrations")
	if err != nil {
		return nil, 0, err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, files)
	if err != nil {
		return nil, 0, err
	}
	sources := p.ListSources()
	return p, sources[len(sources)-1].Version, nil
}

// migrate brings the schema up to date, and refuses one of a later version.
func migrate(ctx context.Context, db *sql.DB) error {
	p, known, err := provider(db)
	if err != nil {
		return err
	}
	has, err := p.GetDBVersion(ctx)
	if err != nil {
		return err
	}
	if has > known {
		return &Error{Trouble: Newer, Err: versions(has, known)}
	}
	if has == known {
		return nil
	}
	_, err = p.Up(ctx)
	return err
}

// current refuses a schema that is not exactly the one known.
func current(ctx context.Context, db *sql.DB) error {
	_, known, err := provider(db)
	if err != nil {
		return err
	}
	var has int64
	if err := db.QueryRowContext(ctx, `SELECT max(version_id) FROM goose_db_version WHERE is_applied`).Scan(&has); err != nil {
		return err
	}
	switch {
	case has > known:
		return &Error{Trouble: Newer, Err: versions(has, known)}
	case has < known:
		return &Error{Trouble: Older, Err: versions(has, known)}
	}
	return nil
}

func versions(has, known int64) error {
	return fmt.Errorf("its schema is number %d, this version knows %d", has, known)
}
