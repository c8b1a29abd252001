package sqlite_test

import (
	"path/filepath"
	"testing"

	"crosslay/internal/sqlite"
	"crosslay/internal/sqlite/storetest"
)

func open(t *testing.T) storetest.Full {
	t.Helper()
	s, err := sqlite.Open(filepath.Join(t.TempDir(), "c.db"), sqlite.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func TestStore(t *testing.T) { storetest.Store(t, open) }

func TestQueue(t *testing.T) { storetest.Queue(t, open) }
