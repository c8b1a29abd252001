package sqlite

import (
	"errors"
	"fmt"
	"io/fs"

	driver "modernc.org/sqlite"
)

// Trouble is what is wrong with the file, as an operator would put it.
type Trouble string

// The troubles.
const (
	InUse    Trouble = "in_use"    // by another crosslay
	Locked   Trouble = "locked"    // by some other program
	ReadOnly Trouble = "read_only" // cannot be written
	Newer    Trouble = "newer"     // of a later version
	Older    Trouble = "older"     // not migrated yet, and opened to read only
	Damaged  Trouble = "damaged"
	Full     Trouble = "full"    // the disk is
	Missing  Trouble = "missing" // file or directory
	Failing  Trouble = "failing" // the disk answers with errors
)

// Error is trouble with the file itself. Its text is for the operator.
type Error struct {
	Path    string
	Trouble Trouble
	Err     error
}

func (e *Error) Unwrap() error { return e.Err }

func (e *Error) Error() string {
	switch e.Trouble {
	case InUse:
		return fmt.Sprintf("another crosslay has %s open; stop it first", e.Path)
	case Locked:
		return fmt.Sprintf("%s is locked by another program; close it and try again", e.Path)
	case ReadOnly:
		return fmt.Sprintf("%s cannot be written; check its owner and permissions, and those of its directory", e.Path)
	case Newer:
		return fmt.Sprintf("%s was written by a newer crosslay (%v); install that version or a later one", e.Path, e.Err)
	case Older:
		return fmt.Sprintf("%s is of an older crosslay (%v); start the bot once to bring it up to date", e.Path, e.Err)
	case Damaged:
		return fmt.Sprintf("%s is damaged or no database of crosslay (%v); restore it from a backup", e.Path, e.Err)
	case Full:
		return fmt.Sprintf("the disk that holds %s is full; what was to be stored was not", e.Path)
	case Missing:
		return fmt.Sprintf("%s cannot be opened; check that its directory exists and may be entered", e.Path)
	case Failing:
		return fmt.Sprintf("the system that holds %s answers with errors (%v)", e.Path, e.Err)
	}
	return fmt.Sprintf("%s: %v", e.Path, e.Err)
}

// troubles maps SQLite's primary result codes.
var troubles = map[int]Trouble{
	5:  Locked,   // SQLITE_BUSY
	6:  Locked,   // SQLITE_LOCKED
	8:  ReadOnly, // SQLITE_READONLY
	10: Failing,  // SQLITE_IOERR
	11: Damaged,  // SQLITE_CORRUPT
	13: Full,     // SQLITE_FULL
	7:  Failing,  // SQLITE_NOMEM
	9:  Failing,  // SQLITE_INTERRUPT
	15: Failing,  // SQLITE_PROTOCOL
	14: Missing,  // SQLITE_CANTOPEN
	26: Damaged,  // SQLITE_NOTADB
}

// explain puts what is wrong with the file into an *Error; all else is passed on.
func explain(path string, err error) error {
	if err == nil {
		return nil
	}
	var known *Error
	if errors.As(err, &known) {
		if known.Path == "" {
			known.Path = path
		}
		return err
	}
	var code *driver.Error
	if errors.As(err, &code) {
		if t, ok := troubles[code.Code()&0xff]; ok {
			return &Error{Path: path, Trouble: t, Err: err}
		}
		return err
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return &Error{Path: path, Trouble: ReadOnly, Err: err}
	case errors.Is(err, fs.ErrNotExist):
		return &Error{Path: path, Trouble: Missing, Err: err}
	}
	return err
}

// isTrouble reports whether err is the file's fault and not an event's.
func isTrouble(err error) bool {
	var e *Error
	return errors.As(err, &e)
}
