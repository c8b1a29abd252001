//go:build goolm

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"maunium.net/go/mautrix/id"

	"crosslay/internal/matrix/matrixtest"
	"crosslay/internal/story"
)

// up starts the bot.
func (w *matrixTown) up() {
	w.t.Helper()
	log, err := os.OpenFile(w.log, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	w.must(err)
	defer log.Close()
	w.health = freePort(w.t)
	w.bot = exec.Command(w.bin, "serve", "--config", w.file, "--db", w.db, "--health", w.health)
	w.bot.Stderr = log
	w.must(w.bot.Start())
	w.t.Cleanup(w.kill)
}

// kill ends the bot without a word.
func (w *matrixTown) kill() {
	if w.bot != nil {
		_ = w.bot.Process.Kill()
		_ = w.bot.Wait()
		w.bot = nil
	}
}

// poll waits until done, and fails the test with the bot's log after a while.
func (w *matrixTown) poll(what string, done func() bool) {
	w.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		if done() {
			return
		}
	}
	log, _ := os.ReadFile(w.log)
	w.t.Fatalf("it does not come about that %s; the bot's log:\n%s\nthe homeserver's:\n%s", what, log, w.Said())
}

// settle waits until the bot has said all that it has to say.
func (w *matrixTown) settle() {
	w.t.Helper()
	quiet := 0
	w.poll("the bot is at rest", func() bool {
		resp, err := http.Get("http://" + w.health + "/healthz")
		if err != nil {
			return false
		}
		defer resp.Body.Close()
		var h struct {
			InboxAge float64 `json:"inbox_age_seconds"`
			Outbox   int     `json:"outbox"`
			Parked   int     `json:"parked"`
		}
		if json.NewDecoder(resp.Body).Decode(&h) != nil || h.Parked > 0 {
			return false
		}
		if quiet++; h.InboxAge > 0 || h.Outbox > 0 {
			quiet = 0
		}
		return quiet >= 3
	})
}

// heard waits until the bot has heard an event.
func (w *matrixTown) heard(ref id.EventID) {
	w.t.Helper()
	w.poll("the bot hears "+string(ref), func() bool {
		log, _ := os.ReadFile(w.log)
		return bytes.Contains(log, []byte(ref))
	})
}

// act does what a person does, and returns the event that it made.
func (w *matrixTown) act(s story.Step) id.EventID {
	w.t.Helper()
	p := w.people[s.Who]
	own := w.said[s.Who]
	switch s.Verb {
	case story.Edit:
		return p.Edit(own[len(own)-1].room, own[len(own)-1].ref, s.Text)
	case story.Delete:
		return p.Redact(own[len(own)-1].room, own[len(own)-1].ref)
	case story.React:
		room, root := w.find(p, s.Place)
		w.thumb[s.Who] = post{room, p.React(room, root, s.Text)}
		return w.thumb[s.Who].ref
	case story.Unreact:
		return p.Redact(w.thumb[s.Who].room, w.thumb[s.Who].ref)
	case story.Say:
		room, root := w.find(p, s.Place)
		var ref id.EventID
		if s.Photo {
			ref = p.Photo(room, root, photoOf(w.t), s.Text)
		} else {
			ref = p.Say(room, root, s.Text)
		}
		w.said[s.Who] = append(own, post{room, ref})
		return ref
	}
	w.t.Fatalf("line %d: %s cannot be played here", s.Line, s.Verb)
	return ""
}

// find is the room and thread that a line of a story names.
func (w *matrixTown) find(p *matrixtest.Person, place string) (id.RoomID, id.EventID) {
	w.t.Helper()
	key, n, room := "prompt/"+place+"/", 1, w.rooms["room-st1"]
	switch {
	case place == "direct":
		return w.rooms["direct"], ""
	case strings.HasPrefix(place, "#"):
		return w.rooms[strings.TrimPrefix(place, "#")], ""
	case strings.HasPrefix(place, "defect "):
		key, room = "defect/", w.rooms["shop"]
		fmt.Sscan(strings.TrimPrefix(place, "defect "), &n)
	}
	var roots []id.EventID
	w.poll(place+" is there", func() bool {
		roots = nil
		for _, s := range p.All(room, w.me) {
			if s.Thread == "" && strings.HasPrefix(keyOf(s), key) {
				roots = append(roots, s.ID)
			}
		}
		return len(roots) >= n
	})
	return room, roots[n-1]
}

func keyOf(s matrixtest.Seen) string {
	m, _ := s.Raw["crosslay.message"].(map[string]any)
	key, _ := m["key"].(string)
	return key
}

func photoOf(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 4, 3))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
