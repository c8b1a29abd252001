package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"

	"crosslay/bot"
	"crosslay/bot/chat"
)

// TestVet_online: what each service says is printed with its name, and counts as
// wrong.
func TestVet_online(t *testing.T) {
	was := inspectors["terminal"]
	defer func() {
		delete(inspectors, "terminal")
		if was != nil {
			inspectors["terminal"] = was
		}
	}()
	path := filepath.Join("..", "..", "config", "example.yaml")
	cases := map[string]struct {
		says []string
		want string // in what is printed
		err  string
	}{
		"well":  {nil, "terminal: all is well with 7 rooms", ""},
		"wrong": {[]string{"Room #shop: the bot is not in it.", "Room #officers: it cannot be read."}, "terminal: Room #shop: the bot is not in it.", "2 things are missing"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			inspectors["terminal"] = func(_ context.Context, _ bot.Setup, secrets string, rooms []chat.Place) []string {
				if len(rooms) != 7 || secrets != "secrets" {
					t.Errorf("asked about %d rooms with the secrets in %q", len(rooms), secrets)
				}
				return c.says
			}
			var out bytes.Buffer
			err := (&vetCmd{File: path, DB: "crosslay.db"}).inspect(&out)
			if !strings.Contains(out.String(), c.want) || (err == nil) != (c.err == "") || err != nil && err.Error() != c.err {
				t.Errorf("it prints %q and ends with %v; want %q and %q", out.String(), err, c.want, c.err)
			}
		})
	}
	delete(inspectors, "terminal")
	var out bytes.Buffer
	if err := (&vetCmd{File: path}).inspect(&out); err != nil || !strings.Contains(out.String(), "terminal: nothing to ask for 7 rooms") {
		t.Errorf("without an inspector it prints %q and ends with %v", out.String(), err)
	}
}

// TestMatrixLogin: what is not given is asked for, and a mistake is a sentence
// without the password in it.
func TestMatrixLogin(t *testing.T) {
	address := homeserver(t)
	typed := address + "\nbot\nsecret words\n\n"
	var out bytes.Buffer
	c := matrixLoginCmd{DB: filepath.Join(t.TempDir(), "crosslay.db")}
	err := c.login(t.Context(), &asker{in: bufio.NewReader(strings.NewReader(typed)), out: &out}, &out)
	if err == nil || !strings.Contains(err.Error(), "does not take the user bot") {
		t.Errorf("it ends with %v", err)
	}
	for _, question := range []string{"Homeserver", "account", "password"} {
		if !strings.Contains(out.String(), question) {
			t.Errorf("it does not ask for the %s: %q", question, out.String())
		}
	}
	if all := out.String() + err.Error(); strings.Contains(all, "secret words") {
		t.Errorf("the password is shown: %q", all)
	}
	out.Reset()
	given := matrixLoginCmd{Homeserver: address, User: "bot", DB: c.DB}
	_ = given.login(t.Context(), &asker{in: bufio.NewReader(strings.NewReader("secret words\n\n")), out: &out}, &out)
	if strings.Contains(out.String(), "Homeserver (") || strings.Contains(out.String(), "account (") {
		t.Errorf("it asks for what was given: %q", out.String())
	}
}

// homeserver answers, and takes no password.
func homeserver(t *testing.T) string {
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/versions") {
			fmt.Fprint(w, `{"versions": ["v1.11"]}`)
			return
		}
		w.WriteHeader(http.StatusForbidden)
		fmt.Fprint(w, `{"errcode": "M_FORBIDDEN", "error": "no"}`)
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// TestMatrixLogin_stops_early: nobody types a password for an address at which
// nothing answers, or for no account.
func TestMatrixLogin_stops_early(t *testing.T) {
	for name, c := range map[string]struct{ typed, want string }{
		"no_address":  {"\n", "No homeserver's address was given"},
		"nothing":     {"", "No homeserver's address was given"},
		"unreachable": {"http://127.0.0.1:9\n", "No homeserver answers at http://127.0.0.1:9"},
		"no_account":  {homeserver(t) + "\n\n", "no account was given"},
	} {
		t.Run(name, func(t *testing.T) {
			var out bytes.Buffer
			login := matrixLoginCmd{DB: filepath.Join(t.TempDir(), "crosslay.db")}
			err := login.login(t.Context(), &asker{in: bufio.NewReader(strings.NewReader(c.typed)), out: &out}, &out)
			if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(out.String(), "password") {
				t.Errorf("it ends with %v after %q", err, out.String())
			}
		})
	}
}
