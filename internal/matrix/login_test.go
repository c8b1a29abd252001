//go:build goolm

package matrix_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
	"crosslay/internal/matrix"
	"crosslay/internal/matrix/matrixtest"
)

func TestLogIn(t *testing.T) {
	t.Parallel()
	s := matrixtest.Start(t)
	s.Register(t, "bot")
	dir := filepath.Join(t.TempDir(), "secrets")
	cred := matrix.Credentials{Homeserver: s.URL, User: "bot", Password: matrixtest.Password, Dir: dir}
	one, err := matrix.LogIn(t.Context(), cred)
	if err != nil || one.Trouble != nil || len(one.RecoveryKey) < 40 || one.User != "@bot:localhost" {
		t.Fatalf("%+v, %v", one, err)
	}
	modes := map[string]os.FileMode{"": 0o700, "matrix.json": 0o600, "matrix-keys.db": 0o600}
	for name, want := range modes {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil || info.Mode().Perm() != want {
			t.Errorf("%q has the rights %v, want %v (%v)", name, info.Mode().Perm(), want, err)
		}
	}
	ana := s.Person(t, "ana")
	if !ana.Trusts(t, id.UserID(one.User), id.DeviceID(one.Device)) {
		t.Error("others do not trust the bot's device")
	}

	cred.Recovery = one.RecoveryKey
	two, err := matrix.LogIn(t.Context(), cred)
	if err != nil || two.Trouble != nil || two.RecoveryKey != "" || two.Device == one.Device {
		t.Fatalf("the second login: %+v, %v", two, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "matrix.json.old")); err != nil {
		t.Error("the earlier account was not moved aside")
	}
	if !ana.Trusts(t, id.UserID(two.User), id.DeviceID(two.Device)) {
		t.Error("others do not trust the device of the second login")
	}
}

func TestLogIn_mistakes(t *testing.T) {
	t.Parallel()
	s := matrixtest.Start(t)
	s.Register(t, "bot")
	cases := map[string]struct {
		change func(*matrix.Credentials)
		say    string
	}{
		"password":      {func(c *matrix.Credentials) { c.Password = "hunter" }, "does not take the user bot with this password"},
		"user":          {func(c *matrix.Credentials) { c.User = "nobody" }, "does not take the user nobody"},
		"homeserver":    {func(c *matrix.Credentials) { c.Homeserver = "http://127.0.0.1:9" }, "No homeserver answers at http://127.0.0.1:9"},
		"no_address":    {func(c *matrix.Credentials) { c.Homeserver = "http://%" }, "write it like https://"},
		"no_homeserver": {func(c *matrix.Credentials) { c.Homeserver = " " }, "No homeserver's address was given"},
		"no_recovery":   {func(c *matrix.Credentials) { c.Recovery = "EsTx wrong" }, "The recovery key does not fit"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			cred := matrix.Credentials{Homeserver: s.URL, User: "bot", Password: matrixtest.Password, Dir: t.TempDir()}
			c.change(&cred)
			l, err := matrix.LogIn(t.Context(), cred)
			if err == nil {
				err = l.Trouble
			}
			if err == nil || !strings.Contains(err.Error(), c.say) {
				t.Fatalf("error %v, want one that says %q", err, c.say)
			}
			if strings.Contains(err.Error(), cred.Password) || cred.Recovery != "" && strings.Contains(err.Error(), cred.Recovery) {
				t.Errorf("the error has a secret in it: %v", err)
			}
		})
	}
}

// TestOpen_files: what losing or mixing up each file means is said when the bot
// starts, not when the first message cannot be read.
func TestOpen_files(t *testing.T) {
	t.Parallel()
	cases := map[string]struct {
		harm func(t *testing.T, h *house, dir string)
		say  string
	}{
		"no_account":   {func(t *testing.T, _ *house, dir string) { remove(t, dir, "matrix.json") }, "run crosslay matrix login"},
		"account_open": {func(t *testing.T, _ *house, dir string) { must(t, os.Chmod(filepath.Join(dir, "matrix.json"), 0o644)) }, "can be read by others"},
		"account_cut":  {func(t *testing.T, _ *house, dir string) { must(t, os.Truncate(filepath.Join(dir, "matrix.json"), 20)) }, "is damaged"},
		"keys_lost":    {func(t *testing.T, _ *house, dir string) { remove(t, dir, "matrix-keys.db") }, "is gone. If the right one was only moved, put it back"},
		"keys_emptied": {func(t *testing.T, _ *house, dir string) {
			remove(t, dir, "matrix-keys.db")
			touch(t, dir, "matrix-keys.db")
		}, "is not the one of this login"},
		"keys_of_others": {swapKeys, "matrix login again"},
		"keys_damaged": {func(t *testing.T, _ *house, dir string) {
			remove(t, dir, "matrix-keys.db")
			must(t, os.WriteFile(filepath.Join(dir, "matrix-keys.db"), []byte(strings.Repeat("no database ", 1000)), 0o600))
		}, "cannot be opened"},
	}
	h := newHouse(t)
	kept := h.dir
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			h.dir = copied(t, kept)
			c.harm(t, h, h.dir)
			err := startsOnce(t, h)
			var fatal *matrix.AccountError
			if !errors.As(err, &fatal) || !strings.Contains(err.Error(), c.say) {
				t.Errorf("it starts with %v, want a sentence that says %q", err, c.say)
			}
		})
	}
}

// startsOnce runs the backend until it ends by itself.
func startsOnce(t *testing.T, h *house) error {
	account, err := matrix.LoadAccount(h.dir)
	if err != nil {
		return err
	}
	cfg := matrix.Config{Account: account, Dir: h.dir, Cursor: h.inbox.cursor, Past: h.inbox.past,
		Rooms: func() []string { return nil }, Known: func(string) bool { return false }}
	b, err := matrix.Open(t.Context(), cfg)
	if err != nil {
		return err
	}
	defer b.Close()
	return b.Run(t.Context(), h.inbox.receive)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func remove(t *testing.T, dir, name string) {
	t.Helper()
	for _, more := range []string{"", "-wal", "-shm"} {
		if err := os.Remove(filepath.Join(dir, name+more)); err != nil && !errors.Is(err, os.ErrNotExist) {
			t.Fatal(err)
		}
	}
}

func touch(t *testing.T, dir, name string) {
	t.Helper()
	must(t, os.WriteFile(filepath.Join(dir, name), nil, 0o600))
}

func copied(t *testing.T, from string) string {
	t.Helper()
	to := t.TempDir()
	must(t, os.CopyFS(filepath.Join(to, "s"), os.DirFS(from)))
	dir := filepath.Join(to, "s")
	must(t, os.Chmod(filepath.Join(dir, "matrix.json"), 0o600))
	return dir
}

// swapKeys puts the key store of another login beside the account.
func swapKeys(t *testing.T, h *house, dir string) {
	t.Helper()
	other := t.TempDir()
	_, err := matrix.LogIn(t.Context(), matrix.Credentials{Homeserver: h.URL, User: "bot", Password: matrixtest.Password, Dir: other})
	must(t, err)
	remove(t, dir, "matrix-keys.db")
	for _, name := range []string{"matrix-keys.db", "matrix-keys.db-wal"} {
		raw, err := os.ReadFile(filepath.Join(other, name))
		if errors.Is(err, os.ErrNotExist) {
			continue
		}
		must(t, err)
		must(t, os.WriteFile(filepath.Join(dir, name), raw, 0o600))
	}
}

func TestInspect(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	_, stop := h.start(t)
	ana := h.person(t, "ana")
	_, good := h.room(t, ana, "station-1", true)
	room, muted := h.room(t, ana, "shop", true)
	levels := map[string]any{"users": map[string]int{string(ana.ID): 100}, "events_default": 50}
	ana.SetLevels(t, room, levels)
	ana.Room("officers", true)
	stop()
	places := func(addresses ...string) (list []chat.Place) {
		for _, a := range addresses {
			list = append(list, chat.Place{Backend: matrix.Name, Room: a})
		}
		return list
	}
	cases := map[string]struct {
		room string
		say  []string
	}{
		"all_well":    {good, nil},
		"muted":       {muted, []string{"may not write messages there: give it the power level 50"}},
		"not_invited": {"#officers:localhost", []string{"have somebody whom the department file knows invite @bot:localhost"}},
		"missing":     {"#nowhere:localhost", []string{"cannot be found"}},
		"no_address":  {"station 1", []string{"a room's address looks like #station-1:example.org"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			got := matrix.Inspect(t.Context(), h.config(t), places(c.room))
			if len(c.say) == 0 && len(got) > 0 || len(c.say) > 0 && (len(got) == 0 || !strings.Contains(got[0], c.say[0])) {
				t.Errorf("it says %q, want %q", got, c.say)
			}
		})
	}
	h.Kill()
	if got := matrix.Inspect(t.Context(), h.config(t), places(good)); len(got) != 1 || !strings.Contains(got[0], "does not answer") {
		t.Errorf("with the server away it says %q", got)
	}
}
