//go:build !unix

package sqlite

import "os"

// lockFile cannot keep a second crosslay out on this system; SQLite's own locks
// still keep the file whole.
func lockFile(path string) (*os.File, error) {
	return os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
}
