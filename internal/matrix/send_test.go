//go:build goolm

package matrix_test

import (
	"bytes"
	"errors"
	"io"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"

	"crosslay/bot/chat"
	"crosslay/internal/matrix"
	"crosslay/internal/matrix/matrixtest"
)

// wire is the way to the homeserver, on which a test may do harm.
type wire struct {
	harm atomic.Pointer[func(*http.Request) (*http.Response, error)] // nil, nil leaves a request alone
}

func (w *wire) RoundTrip(req *http.Request) (*http.Response, error) {
	if harm := w.harm.Load(); harm != nil {
		if resp, err := (*harm)(req); resp != nil || err != nil {
			return resp, err
		}
	}
	return http.DefaultTransport.RoundTrip(req)
}

func (w *wire) set(harm func(*http.Request) (*http.Response, error)) {
	if harm == nil {
		w.harm.Store(nil)
		return
	}
	w.harm.Store(&harm)
}

// on puts the wire between a house's bot and its homeserver.
func (w *wire) on(h *house) {
	h.tune = func(c *matrix.Config) {
		c.Web = &http.Client{Transport: w}
		c.Grace = time.Nanosecond
	}
}

func sends(req *http.Request) bool { return strings.Contains(req.URL.Path, "/send/m.room") }

func answer(status int, body string) *http.Response {
	return &http.Response{StatusCode: status, Header: http.Header{}, Body: io.NopCloser(strings.NewReader(body))}
}

func textMessage(key chat.Key, text string) chat.Message {
	return chat.Message{Key: key, Kind: chat.Answer, Blocks: []chat.Block{chat.Text(chat.Body, text)}}
}

var errBroken = errors.New("read: connection reset by peer")

func TestPost_answer_lost(t *testing.T) {
	t.Parallel()
	w := &wire{}
	h := newHouse(t)
	w.on(h)
	b, stop := h.start(t)
	ana := h.person(t, "ana")
	cases := map[string]struct {
		encrypted bool
		nth       int  // whose answer is lost: the message's, or its picture's
		killed    bool // the server, too: its transaction ids are gone with it
	}{
		"encrypted": {true, 1, true}, "open": {false, 1, true},
		"encrypted-picture": {true, 2, false}, "open-picture": {false, 2, false},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			room, address := h.room(t, ana, name, c.encrypted)
			place := chat.Place{Backend: matrix.Name, Room: address}
			m := textMessage(chat.Key("k/"+name), "once")
			m.Pics = []chat.Picture{{Name: "board.png", Type: "image/png", Data: drawing(t)}}
			since := time.Now().Add(-time.Minute)

			w.set(loses(c.nth))
			if _, err := b.Post(t.Context(), m, place, ""); !errors.Is(err, chat.ErrUnsure) {
				t.Fatalf("error %v, want chat.ErrUnsure", err)
			}
			w.set(nil)
			if c.killed {
				h.Kill()
				h.Up(t)
			}
			ref := settled(t, b, m, place, since)
			if again := settled(t, b, m, place, since); again != ref {
				t.Errorf("the second time %s is found, want %s", again, ref)
			}
			ana.Wait(t, "the picture", room, func(s matrixtest.Seen) bool { return s.Type == event.MsgImage })
			ana.Say(room, "", "that is all")
			ana.Wait(t, "her own word", room, func(s matrixtest.Seen) bool { return s.Body == "that is all" })
			if all := ana.All(room, h.me); len(all) != 2 || string(all[0].ID) != string(ref) || all[0].Secret != c.encrypted || all[1].Secret != c.encrypted {
				t.Errorf("ana sees %+v; want the message and its picture, once each", all)
			}
		})
	}
	stop()
}

// loses loses the server's answer to the nth message and to all that follow.
func loses(nth int) func(*http.Request) (*http.Response, error) {
	return func(req *http.Request) (*http.Response, error) {
		if !sends(req) {
			return nil, nil
		}
		if nth--; nth > 0 {
			return nil, nil
		}
		if resp, err := http.DefaultTransport.RoundTrip(req); err == nil {
			resp.Body.Close()
		}
		return nil, errBroken
	}
}

// settled settles the doubt about a message as the outbox does: it searches after a
// while, and sends again what is not there. A server that was killed may take a
// moment to show what it has, and may have lost what it said it had.
func settled(t *testing.T, b *matrix.Backend, m chat.Message, place chat.Place, since time.Time) chat.Ref {
	t.Helper()
	for deadline := time.Now().Add(3 * time.Second); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
		ref, found, err := b.Find(t.Context(), m, place, since)
		if err != nil {
			t.Fatal(err)
		}
		if found {
			return ref
		}
	}
	t.Log("the server has lost what it accepted")
	ref, err := b.Post(t.Context(), m, place, "")
	if err != nil {
		t.Fatal(err)
	}
	return ref
}

func TestPost_what_the_server_answers(t *testing.T) {
	t.Parallel()
	w := &wire{}
	h := newHouse(t)
	w.on(h)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	_, address := h.room(t, ana, "station-1", true)
	place := chat.Place{Backend: matrix.Name, Room: address}
	if _, err := b.Post(t.Context(), textMessage("k/0", "the room has its key"), place, ""); err != nil {
		t.Fatal(err)
	}
	cases := map[string]struct {
		resp    *http.Response
		err     error
		wait    time.Duration
		unsure  bool
		refused bool
		say     string
	}{
		"limited":       {resp: answer(429, `{"errcode":"M_LIMIT_EXCEEDED","error":"slow down","retry_after_ms":1500}`), wait: 1500 * time.Millisecond, say: "wait"},
		"limited_bare":  {resp: answer(429, `{}`), wait: 5 * time.Second, say: "wait"},
		"too_large":     {resp: answer(413, `{"errcode":"M_TOO_LARGE","error":"too large"}`), refused: true, say: "M_TOO_LARGE"},
		"gateway":       {resp: answer(502, `<html>secret words</html>`), unsure: true, say: "502"},
		"server_error":  {resp: answer(500, `{"errcode":"M_UNKNOWN","error":"oops"}`), unsure: true, say: "oops"},
		"broken":        {err: errBroken, unsure: true, say: "connection"},
		"token_revoked": {resp: answer(401, `{"errcode":"M_UNKNOWN_TOKEN","error":"no"}`), say: "crosslay matrix login"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			w.set(func(req *http.Request) (*http.Response, error) {
				if sends(req) {
					return c.resp, c.err
				}
				return nil, nil
			})
			defer w.set(nil)
			_, err := b.Post(t.Context(), textMessage(chat.Key("k/"+name), "secret words"), place, "")
			var wait chat.Wait
			errors.As(err, &wait)
			if wait.For != c.wait || errors.Is(err, chat.ErrUnsure) != c.unsure || errors.Is(err, chat.ErrRefused) != c.refused {
				t.Errorf("error %v; want wait %s, unsure %v, refused %v", err, c.wait, c.unsure, c.refused)
			}
			if err == nil || !strings.Contains(err.Error(), c.say) {
				t.Errorf("error %v does not say %q", err, c.say)
			}
			clean(t, h, err)
		})
	}
}

// clean makes sure that an error has neither the token nor anybody's words.
func clean(t *testing.T, h *house, err error) {
	t.Helper()
	account, _ := matrix.LoadAccount(h.dir)
	for _, secret := range []string{account.Token, string(account.Pickle), matrixtest.Password, "secret words"} {
		if err != nil && strings.Contains(err.Error(), secret) {
			t.Errorf("the error has a secret in it: %v", err)
		}
	}
}

func TestPost_thrown_out_and_back(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	(&wire{}).on(h)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	room, address := h.room(t, ana, "station-1", true)
	place := chat.Place{Backend: matrix.Name, Room: address}
	if _, err := b.Post(t.Context(), textMessage("k/1", "in"), place, ""); err != nil {
		t.Fatal(err)
	}
	if _, err := ana.Client.KickUser(t.Context(), room, &mautrix.ReqKickUser{UserID: h.me}); err != nil {
		t.Fatal(err)
	}
	for _, key := range []chat.Key{"k/2", "k/3"} {
		_, err := b.Post(t.Context(), textMessage(key, "out"), place, "")
		if err == nil || !strings.Contains(err.Error(), "is not in room "+address) {
			t.Errorf("%s: error %v, want one that says that the bot is not in the room", key, err)
		}
		if key == "k/3" && !errors.Is(err, chat.ErrRefused) {
			t.Errorf("%s: error %v, want chat.ErrRefused after the time of grace", key, err)
		}
	}
	if _, err := ana.Client.InviteUser(t.Context(), room, invite(h.me)); err != nil {
		t.Fatal(err)
	}
	ana.Members(t, room, h.me)
	if _, err := b.Post(t.Context(), textMessage("k/4", "back"), place, ""); err != nil {
		t.Fatal(err)
	}
	ana.Wait(t, "the bot again", room, func(s matrixtest.Seen) bool { return s.Body == "back" })
	ana.Say(room, "", "welcome")
	h.inbox.wait(t, "a word after it came back", says("welcome"))
}

func TestRun_token_revoked(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	log := &h.inbox.log
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	room, address := h.room(t, ana, "station-1", true)
	ana.Say(room, "", "hello")
	h.inbox.wait(t, "a word", says("hello"))

	owner, err := mautrix.NewClient(h.URL, "", h.config(t).Account.Token)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := owner.Logout(t.Context()); err != nil {
		t.Fatal(err)
	}
	ana.Say(room, "", "are you there?") // a sync that waits is let go
	for deadline := time.Now().Add(40 * time.Second); !strings.Contains(log.String(), "run crosslay matrix login again"); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("the log does not say what to do about a token that was revoked:\n%s", log.String())
		}
	}
	_, err = b.Post(t.Context(), textMessage("k/1", "secret words"), chat.Place{Backend: matrix.Name, Room: address}, "")
	if err == nil || !strings.Contains(err.Error(), "crosslay matrix login") || errors.Is(err, chat.ErrUnsure) || errors.Is(err, chat.ErrRefused) {
		t.Errorf("Post says %v, want that it did not arrive and what to do", err)
	}
	clean(t, h, err)
	clean(t, h, errors.New(log.String()))
}

func TestPost_pictures_of_people(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	station, _ := h.room(t, ana, "station-1", true)
	shop, address := h.room(t, ana, "shop", true)
	ana.Photo(station, "", drawing(t), "the nick")
	ev := h.inbox.wait(t, "the photo", says("the nick"))
	m := chat.Message{Key: "defect/1", Kind: chat.Defect, Blocks: []chat.Block{chat.Text(chat.Title, "Defect")}, Pics: ev.Pics}
	root, err := b.Post(t.Context(), m, chat.Place{Backend: matrix.Name, Room: address}, "")
	if err != nil {
		t.Fatal(err)
	}
	got := ana.Wait(t, "the photo in the shop", shop, func(s matrixtest.Seen) bool { return s.Type == event.MsgImage })
	if string(got.Thread) != string(root) || got.Content.File == nil || got.Content.Info.Width != 7 {
		t.Errorf("the photo is %+v in thread %s; want it encrypted, 7 wide, in the thread of %s", got.Content.Info, got.Thread, root)
	}
	data, err := ana.Client.DownloadBytes(t.Context(), got.Content.File.URL.ParseOrIgnore())
	if err == nil {
		err = got.Content.File.DecryptInPlace(data)
	}
	if err != nil || !bytes.Equal(data, drawing(t)) {
		t.Errorf("the photo comes to the shop as %d bytes, %v", len(data), err)
	}
}
