package sqlite

import (
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// TestOpenSaysWhatIsWrong: each trouble that can be made, and the words that an
// operator sees.
func TestOpenSaysWhatIsWrong(t *testing.T) {
	cases := map[string]struct {
		prepare func(t *testing.T, path string)
		opt     Options
		trouble Trouble
		words   string
	}{
		"second_opener":        {holdOpen, Options{}, InUse, "another crosslay has"},
		"newer_version":        {version(999), Options{}, Newer, "install that version or a later one"},
		"newer_version_reader": {version(999), Options{ReadOnly: true}, Newer, "install that version or a later one"},
		"older_version_reader": {version(0), Options{ReadOnly: true}, Older, "start the bot once"},
		"no_database":          {garbage, Options{}, Damaged, "restore it from a backup"},
		"damaged_header":       {overwrite(0), Options{}, Damaged, "restore it from a backup"},
		"damaged_schema":       {overwrite(100), Options{}, Damaged, "restore it from a backup"},
		"directory":            {mkdir, Options{}, Damaged, "it is a directory"},
		"read_only":            {readOnly, Options{}, ReadOnly, "cannot be written"},
		"no_directory":         {nowhere, Options{}, Missing, "check that its directory exists"},
		"no_file_reader":       {nowhere, Options{ReadOnly: true}, Missing, "cannot be opened"},
		"locked_by_a_tool":     {lockedByTool, Options{ReadOnly: true}, Locked, "locked by another program"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "dir", "c.db")
			if err := os.Mkdir(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			c.prepare(t, path)
			s, err := Open(path, c.opt)
			if err == nil {
				s.Close()
			}
			wantTrouble(t, err, c.trouble, c.words)
			if !strings.Contains(err.Error(), path) {
				t.Errorf("%q does not name the file", err)
			}
		})
	}
}

func wantTrouble(t *testing.T, err error, trouble Trouble, words string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || e.Trouble != trouble {
		t.Fatalf("error %v, want trouble %s", err, trouble)
	}
	if !strings.Contains(err.Error(), words) {
		t.Errorf("it says %q, want %q", err, words)
	}
}

func fresh(t *testing.T, path string) *Store {
	t.Helper()
	s, err := Open(path, Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func holdOpen(t *testing.T, path string) {
	s := fresh(t, path)
	t.Cleanup(func() { s.Close() })
}

func version(n int) func(*testing.T, string) {
	return func(t *testing.T, path string) {
		s := fresh(t, path)
		query := `INSERT INTO goose_db_version (version_id, is_applied) VALUES (?, 1)`
		if n == 0 {
			query = `DELETE FROM goose_db_version WHERE version_id != ?`
		}
		if err := s.w.exec(query, n); err != nil {
			t.Fatal(err)
		}
		s.Close()
	}
}

func garbage(t *testing.T, path string) {
	if err := os.WriteFile(path, []byte(strings.Repeat("this is a letter, not a database. ", 500)), 0o600); err != nil {
		t.Fatal(err)
	}
}

func overwrite(at int) func(*testing.T, string) {
	return func(t *testing.T, path string) {
		fresh(t, path).Close()
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		copy(raw[at:], strings.Repeat("\xff\x00damage", 100))
		if err := os.WriteFile(path, raw, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

func mkdir(t *testing.T, path string) {
	if err := os.Mkdir(path, 0o755); err != nil {
		t.Fatal(err)
	}
}

func readOnly(t *testing.T, path string) {
	fresh(t, path).Close()
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
}

func nowhere(t *testing.T, path string) {
	if err := os.RemoveAll(filepath.Dir(path)); err != nil {
		t.Fatal(err)
	}
}

func lockedByTool(t *testing.T, path string) {
	fresh(t, path).Close()
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=locking_mode(exclusive)")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	db.SetMaxOpenConns(1)
	if _, err := db.Exec(`PRAGMA journal_mode=DELETE; BEGIN EXCLUSIVE`); err != nil {
		t.Fatal(err)
	}
	was := patience
	patience = time.Millisecond
	t.Cleanup(func() { patience = was })
}

// TestTroubleWhileOpen: nothing is acknowledged that was not stored, no event is
// blamed for the disk, and work goes on when the trouble is over.
func TestTroubleWhileOpen(t *testing.T) {
	cases := map[string]struct {
		begin, end string
		trouble    Trouble
	}{
		"full_disk": {"PRAGMA max_page_count = 1", "PRAGMA max_page_count = 1000000", Full},
		"read_only": {"PRAGMA query_only = 1", "PRAGMA query_only = 0", ReadOnly},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
			defer s.Close()
			pragma := func(query string) {
				if _, err := s.w.conn.ExecContext(t.Context(), query); err != nil {
					t.Fatal(err)
				}
			}
			if _, err := s.Receive(t.Context(), "fake", batch("1", 10)); err != nil {
				t.Fatal(err)
			}
			pragma(c.begin)
			n, err := s.Receive(t.Context(), "fake", batch("2", 1<<20))
			wantTrouble(t, err, c.trouble, s.path)
			if n != 0 {
				t.Errorf("%d events acknowledged", n)
			}
			wantTrouble(t, answer(t, s), c.trouble, s.path)
			pragma(c.end)
			afterTrouble(t, s)
		})
	}
}

// afterTrouble: the event that had been stored is decided on now, the other never
// came, and nothing is parked.
func afterTrouble(t *testing.T, s *Store) {
	t.Helper()
	if err := answer(t, s); err != nil {
		t.Fatal(err)
	}
	if job, ok, err := s.Claim(t.Context(), noon); err != nil || !ok || job.Message.Key != "echo/1" {
		t.Errorf("claimed %q %v %v, want echo/1", job.Message.Key, ok, err)
	}
	if parked, err := s.Parked(t.Context()); err != nil || len(parked) != 0 {
		t.Errorf("parked %v, error %v", parked, err)
	}
	if more, err := s.Decide(t.Context(), nil); more || err != nil {
		t.Errorf("another event %v, error %v", more, err)
	}
	if n, err := s.Receive(t.Context(), "fake", batch("2", 10)); n != 1 || err != nil {
		t.Errorf("received %d, error %v", n, err)
	}
}

func batch(id string, size int) chat.Batch {
	e := said(id)
	e.Text = strings.Repeat("x", size)
	return chat.Batch{Events: []chat.Event{e}}
}

// answer decides on the next event with an answer that needs space.
func answer(t *testing.T, s *Store) error {
	_, err := s.Decide(t.Context(), func(_ bot.Tx, e chat.Event) (bot.Outcome, error) {
		m := message(chat.Key("echo/" + e.ID))
		m.Blocks = []chat.Block{chat.Text(chat.Body, strings.Repeat("y", 1<<20))}
		return bot.Outcome{Messages: []chat.Message{m}}, nil
	})
	return err
}

// TestDamageInTheMiddle: Check finds what opening does not.
func TestDamageInTheMiddle(t *testing.T) {
	path := filepath.Join(t.TempDir(), "c.db")
	overwrite(3*4096)(t, path)
	s := fresh(t, path)
	defer s.Close()
	wantTrouble(t, s.Check(t.Context()), Damaged, "restore it from a backup")
}

func TestCheckOfAWholeFile(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	defer s.Close()
	exercise(t, s)
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
}

// TestReaderBesideTheWriter: exports read while the bot serves, and cannot write.
func TestReaderBesideTheWriter(t *testing.T) {
	path := filepath.Join(t.TempDir(), "with space & ?mark#.db")
	w := fresh(t, path)
	defer w.Close()
	exercise(t, w)
	r, err := Open(path, Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if list, err := r.Outgoing(t.Context(), outbox.Sent); err != nil || len(list) == 0 {
		t.Errorf("%d messages sent, error %v", len(list), err)
	}
	if _, err := r.Receive(t.Context(), "fake", batch("9", 1)); !errors.Is(err, errReadOnly) {
		t.Errorf("receive: %v", err)
	}
	if _, err := r.reader.Exec(`DELETE FROM outbox`); err == nil {
		t.Error("the reader could delete")
	}
}

func TestClosedStoreSaysSo(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	for range 2 {
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Receive(t.Context(), "fake", batch("1", 1)); !errors.Is(err, errClosed) {
		t.Errorf("receive: %v", err)
	}
}

func TestBackupIsWhole(t *testing.T) {
	dir := t.TempDir()
	s := fresh(t, filepath.Join(dir, "c.db"))
	defer s.Close()
	exercise(t, s)
	to := filepath.Join(dir, "copy.db")
	if err := s.Backup(t.Context(), to); err != nil {
		t.Fatal(err)
	}
	if err := s.Backup(t.Context(), to); err == nil {
		t.Error("a backup was overwritten")
	}
	copied := fresh(t, to)
	defer copied.Close()
	want, err := s.Outgoing(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if have, err := copied.Outgoing(t.Context()); err != nil || len(have) != len(want) || len(have) == 0 {
		t.Errorf("the copy has %d messages of %d, error %v", len(have), len(want), err)
	}
}

// TestNamelessIsParked: what has no key of its own could be swallowed as a
// repetition, so it is not stored at all.
func TestNamelessIsParked(t *testing.T) {
	nameless := message("")
	placeless := message("m")
	placeless.Place = chat.Place{}
	cases := map[string]bot.Outcome{
		"message":   {Messages: []chat.Message{nameless}},
		"no_place":  {Messages: []chat.Message{placeless}},
		"record":    {Records: []bot.Record{{Kind: bot.OnWords}}},
		"follow_up": {Followups: []chat.Event{{Backend: "bot"}}},
	}
	for name, out := range cases {
		t.Run(name, func(t *testing.T) {
			s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
			defer s.Close()
			outcome(t, s, "1", out, nil)
			if parked, err := s.Parked(t.Context()); err != nil || len(parked) != 1 || parked[0].Reason == "" {
				t.Errorf("parked %+v, error %v", parked, err)
			}
		})
	}
}

// TestUnreadableMessageIsRefused: it does not keep the others waiting.
func TestUnreadableMessageIsRefused(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	defer s.Close()
	outcome(t, s, "1", bot.Outcome{Messages: []chat.Message{message("bad"), message("good")}}, nil)
	if err := s.w.exec(`UPDATE outbox SET body = '{"pics":7}' WHERE key = 'bad'`); err != nil {
		t.Fatal(err)
	}
	if job, ok, err := s.Claim(t.Context(), noon); err != nil || !ok || job.Message.Key != "good" {
		t.Errorf("claimed %q %v, error %v", job.Message.Key, ok, err)
	}
}

func TestInstantsAreNeverEarly(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	defer s.Close()
	at := noon.Add(300 * time.Microsecond)
	outcome(t, s, "1", bot.Outcome{Wakes: []bot.Wake{{Scope: "shop", At: at}}}, nil)
	if next, err := s.NextWake(t.Context()); err != nil || next.Before(at) || next.After(at.Add(time.Millisecond)) {
		t.Errorf("next is %v, want just after %v; error %v", next, at, err)
	}
}
