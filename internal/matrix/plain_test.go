//go:build !goolm

package matrix

import (
	"errors"
	"net/http"
	"strings"
	"testing"

	"crosslay/bot/chat"
)

// TestPlain_refuses: a build without encryption says so, and never writes into an
// encrypted room what others could read.
func TestPlain_refuses(t *testing.T) {
	f := &fake{state: strings.Replace(ownState, "[", `[{"type":"m.room.encryption","state_key":"","sender":"@ana:localhost","event_id":"$c","content":{"algorithm":"m.megolm.v1.aes-sha2"}},`, 1)}
	b, err := Open(t.Context(), Config{
		Account: Account{Homeserver: "http://fake", User: "@bot:localhost", Device: "DEV", Token: "token"}, Dir: t.TempDir(),
		Web: &http.Client{Transport: f}, Rooms: func() []string { return nil },
	})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	_, err = b.Post(t.Context(), prompt(), chat.Place{Room: "#st1:localhost"}, "")
	if !errors.Is(err, chat.ErrRefused) || !strings.Contains(err.Error(), "this build of crosslay has no encryption") {
		t.Errorf("error %v, want one that says that the build has no encryption", err)
	}
}

// TestPlain_says_so: whoever runs the tests without the tag is told what they did
// not try.
func TestPlain_says_so(t *testing.T) {
	t.Skip("encryption is not in this build; all tests run with: go test -tags goolm ./...")
}
