//go:build unix

package sqlite

import (
	"errors"
	"os"
	"strings"
	"syscall"
)

// lockFile takes an exclusive lock that ends with the process, however it ends.
// It is a file of its own, since closing the database file anywhere in a process
// would give up the locks that SQLite holds on it.
func lockFile(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if err == nil {
		return f, nil
	}
	f.Close()
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return nil, &Error{Path: strings.TrimSuffix(path, ".lock"), Trouble: InUse, Err: err}
	}
	return nil, err
}
