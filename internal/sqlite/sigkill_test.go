//go:build unix

package sqlite_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/sqlite"
	"crosslay/internal/sqlite/storetest"
)

// victim, if set, is the database that this process works on until it is killed.
const victim = "CROSSLAY_TEST_VICTIM"

func TestMain(m *testing.M) {
	if path := os.Getenv(victim); path != "" {
		fmt.Fprintln(os.Stderr, work(path, os.Getenv(victim+"_LIFE")))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// work receives and decides for ever, and prints what it acknowledges.
func work(path, life string) error {
	s, err := sqlite.Open(path, sqlite.Options{})
	if err != nil {
		return err
	}
	for i := 0; ; i++ {
		id := fmt.Sprintf("%s-%d", life, i)
		if _, err := s.Receive(context.Background(), "fake", chat.Batch{Events: []chat.Event{storetest.Said(id, id)}}); err != nil {
			return err
		}
		if _, err := s.Decide(context.Background(), note); err != nil {
			return err
		}
		fmt.Println(id)
	}
}

func note(_ bot.Tx, e chat.Event) (bot.Outcome, error) {
	return bot.Outcome{Records: []bot.Record{{ID: e.ID, Kind: bot.OnWords, At: e.Said}}}, nil
}

// TestKilledProcessKeepsWhatItAcknowledged kills real processes, and holds that
// the next one can open the file at once and finds everything in it.
func TestKilledProcessKeepsWhatItAcknowledged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "c.db")
	acknowledged := map[string]bool{}
	for life := range 5 {
		killAfter(t, path, fmt.Sprint(life), 20+7*life, acknowledged)
	}
	s, err := sqlite.Open(path, sqlite.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for more := true; more; { // what was received and not decided on yet
		if more, err = s.Decide(t.Context(), note); err != nil {
			t.Fatal(err)
		}
	}
	err = s.Records(t.Context(), sqlite.Filter{}, func(r bot.Record, _ string) error {
		delete(acknowledged, r.ID)
		return nil
	})
	if err != nil || len(acknowledged) > 0 {
		t.Errorf("lost %v, error %v", acknowledged, err)
	}
}

func killAfter(t *testing.T, path, life string, lines int, acknowledged map[string]bool) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), victim+"="+path, victim+"_LIFE="+life)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	scan := bufio.NewScanner(out)
	for n := 0; scan.Scan(); n++ {
		acknowledged[scan.Text()] = true
		if n == lines {
			if err := cmd.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := cmd.Wait(); err == nil || len(acknowledged) < lines {
		t.Errorf("the process ended by itself after %d lines: %v", len(acknowledged), err)
	}
}
