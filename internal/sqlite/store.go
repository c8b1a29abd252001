// Package sqlite keeps everything in one SQLite file: it implements bot.Store
// and outbox.Queue. There is one writer, on one connection, with its statements
// prepared once; exports read beside it. All SQL of the project is in here.
package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"strings"
	"sync"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"

	"crosslay/bot"
	"crosslay/internal/outbox"
)

// Options of a store; the zero value is right for serving.
type Options struct {
	// Fast gives up durability over power cuts, for rehearsals and stories.
	Fast bool
	// ReadOnly opens beside a serving crosslay, for exports: it takes no lock,
	// changes nothing, and must find the schema up to date.
	ReadOnly bool
	// AtCommit is called before and after every commit with its name ("before
	// receive", "after receive"), for tests that kill the bot there.
	AtCommit func(name string)
}

// Store is an open database file.
type Store struct {
	path   string
	w      *writer // nil when read-only
	reader *sql.DB
	lock   *os.File
}

var (
	_ bot.Store    = (*Store)(nil)
	_ outbox.Queue = (*Store)(nil)
)

// Open opens the database at path, creating or migrating it as needed. Its
// errors are of type *Error, in sentences for the operator.
func Open(path string, opt Options) (*Store, error) {
	s := &Store{path: path}
	err := s.open(opt)
	if err != nil {
		s.Close()
		return nil, explain(path, err)
	}
	return s, nil
}

func (s *Store) open(opt Options) (err error) {
	if opt.ReadOnly {
		return s.openReader(opt, true)
	}
	if err := writable(s.path); err != nil {
		return err
	}
	if s.lock, err = lockFile(s.path + ".lock"); err != nil {
		return err
	}
	if s.w, err = openWriter(s.path, opt); err != nil {
		return err
	}
	return s.openReader(opt, false)
}

// openReader prepares the connections for exports; they are made when needed.
func (s *Store) openReader(opt Options, alone bool) (err error) {
	if alone {
		if _, err := os.Stat(s.path); err != nil {
			return err
		}
	}
	if s.reader, err = sql.Open("sqlite", dsn(s.path, opt.Fast, true)); err != nil {
		return err
	}
	s.reader.SetMaxOpenConns(2)
	if alone {
		return current(context.Background(), s.reader)
	}
	return nil
}

// Close closes the file and gives up the lock. What was acknowledged stays.
func (s *Store) Close() error {
	var first error
	keep := func(err error) {
		if first == nil {
			first = err
		}
	}
	if s.reader != nil {
		keep(s.reader.Close())
	}
	if s.w != nil {
		keep(s.w.close())
	}
	if s.lock != nil {
		keep(s.lock.Close())
		s.lock = nil
	}
	return explain(s.path, first)
}

// patience is how long another program may hold the file, for a backup.
var patience = 5 * time.Second

// dsn has the pragmas, so that no connection is without them.
func dsn(path string, fast, readOnly bool) string {
	q := url.Values{"_txlock": {"immediate"}}
	add := func(pragma string) { q.Add("_pragma", pragma) }
	add(fmt.Sprintf("busy_timeout(%d)", patience.Milliseconds()))
	if readOnly {
		q.Set("mode", "ro")
		add("query_only(1)")
	} else {
		add("journal_mode(WAL)")
	}
	if fast {
		add("synchronous(OFF)")
	} else {
		add("synchronous(FULL)")
	}
	add("foreign_keys(1)")
	return location(path) + "?" + q.Encode()
}

func location(path string) string {
	return "file:" + strings.NewReplacer("%", "%25", "?", "%3f", "#", "%23").Replace(path)
}

// writable refuses a file that its owner marked read-only, also for a user whom
// the system would let write it.
func writable(path string) error {
	info, err := os.Stat(path)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		return err
	}
	if info.IsDir() {
		return &Error{Path: path, Trouble: Damaged, Err: fmt.Errorf("it is a directory")}
	}
	if info.Mode().Perm()&0o222 == 0 {
		return &Error{Path: path, Trouble: ReadOnly, Err: fmt.Errorf("it is marked read-only")}
	}
	return nil
}

// writer is the one connection that changes anything. Its statements ignore
// cancellation: a transaction is short, and one that broke off half-way because
// of a shutdown would only have to be done again.
type writer struct {
	path     string
	atCommit func(string)

	mu    sync.Mutex // held for the whole of a transaction
	db    *sql.DB
	conn  *sql.Conn
	stmts map[string]*sql.Stmt
}

func openWriter(path string, opt Options) (*writer, error) {
	db, err := sql.Open("sqlite", dsn(path, opt.Fast, false))
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	w := &writer{path: path, atCommit: opt.AtCommit, db: db, stmts: map[string]*sql.Stmt{}}
	ctx := context.Background()
	if err := migrate(ctx, db); err != nil {
		db.Close()
		return nil, err
	}
	if w.conn, err = db.Conn(ctx); err != nil {
		db.Close()
		return nil, err
	}
	return w, nil
}

func (w *writer) close() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.conn == nil {
		return nil
	}
	for _, st := range w.stmts {
		st.Close()
	}
	w.conn.Close()
	w.conn = nil
	return w.db.Close()
}
