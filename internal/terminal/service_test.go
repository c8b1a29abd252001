package terminal

import (
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/chattest"
)

func fixed() time.Time { return time.Date(2026, 11, 25, 14, 0, 0, 0, time.UTC) }

func TestService_passes_the_suite(t *testing.T) {
	chattest.Suite(t, func(t *testing.T) chattest.Bench {
		svc := NewService("t", fixed)
		return chattest.Bench{
			Name: Name, Room: "#shop", Post: svc, NoRefusal: true,
			Shown: func() []chattest.Shown {
				var shown []chattest.Shown
				for _, p := range svc.Posts() {
					m := chat.Message{Key: p.Key, Kind: p.Kind, Blocks: []chat.Block{chat.Text(chat.Body, strings.Split(p.Text, "\n")...)}}
					shown = append(shown, chattest.Shown{Ref: p.Ref, Place: p.Place, Message: m})
				}
				return shown
			},
			Plain: true,
		}
	})
}

func TestService_people(t *testing.T) {
	svc := NewService("t", fixed)
	said := svc.Say("ana", chat.Place{Room: "#shop"}, "half")
	if said.Backend != Name || said.Place.Backend != Name || said.Ref == "" || said.Author != "ana" {
		t.Errorf("said %+v", said)
	}
	edit, err := svc.Edit("ana", said.Ref, "3/4")
	if err != nil || edit.Kind != chat.Edited || edit.Target != said.Ref || edit.Text != "3/4" {
		t.Errorf("edit %+v %v", edit, err)
	}
	if _, err := svc.Edit("bo", said.Ref, "full"); err == nil {
		t.Error("bo may edit what ana said")
	}
	if _, err := svc.Unreact("bo"); err == nil {
		t.Error("bo takes back what he never put on")
	}
	if _, err := svc.React("bo", said.Ref, "👍"); err != nil {
		t.Error(err)
	}
	if ev, err := svc.Unreact("bo"); err != nil || ev.Target != said.Ref || ev.Emoji != "👍" {
		t.Errorf("unreact %+v %v", ev, err)
	}
	if ev, err := svc.Delete("ana", said.Ref); err != nil || ev.Target != said.Ref {
		t.Errorf("delete %+v %v", ev, err)
	}
	if _, err := svc.Edit("ana", said.Ref, "full"); err == nil {
		t.Error("what was deleted can be edited")
	}
}

func TestService_events_differ(t *testing.T) {
	svc := NewService("t", fixed)
	place := chat.Place{Room: "#shop"}
	one, two := svc.Say("ana", place, "ok"), svc.Say("ana", place, "ok")
	other := NewService("u", fixed).Say("ana", place, "ok")
	if one.ID == two.ID || one.ID == other.ID {
		t.Errorf("ids %s %s %s", one.ID, two.ID, other.ID)
	}
}

func hall() *Hall {
	return &Hall{
		Service:   NewService("t", fixed),
		Rooms:     []Room{{"#station-1", "Engine 1"}, {"#shop", "the shop"}},
		People:    []Person{{"ana", "Ana Ruizo", "crew"}, {"wim", "Wim Torvalley", "shop"}},
		Companies: []Company{{ID: "E1", Name: "Engine 1", Names: []string{"engine one"}, Room: "#station-1"}},
	}
}

func post(t *testing.T, h *Hall, key chat.Key, kind chat.MessageKind, room, text string) {
	t.Helper()
	m := chat.Message{Key: key, Kind: kind, Blocks: []chat.Block{chat.Text(chat.Body, strings.Split(text, "\n")...)}}
	if _, err := h.Post(t.Context(), m, chat.Place{Backend: Name, Room: room}, ""); err != nil {
		t.Fatal(err)
	}
}

func TestHall_find(t *testing.T) {
	h := hall()
	post(t, h, "prompt/E1/2026-11-25/A", chat.Prompt, "#station-1", "Engine 1")
	post(t, h, "defect/saw-chain-2026-11-25", chat.Defect, "#shop", "Defect: saw")
	cases := map[string]struct {
		name string
		want chat.Place
	}{
		"room":         {"#shop", chat.Place{Backend: Name, Room: "#shop"}},
		"room_no_sign": {"shop", chat.Place{Backend: Name, Room: "#shop"}},
		"company":      {"E1", chat.Place{Backend: Name, Room: "#station-1", Thread: "prompt/E1/2026-11-25/A"}},
		"by_name":      {"engine one", chat.Place{Backend: Name, Room: "#station-1", Thread: "prompt/E1/2026-11-25/A"}},
		"number":       {"1", chat.Place{Backend: Name, Room: "#station-1", Thread: "prompt/E1/2026-11-25/A"}},
		"defect":       {"defect", chat.Place{Backend: Name, Room: "#shop", Thread: "defect/saw-chain-2026-11-25"}},
		"defect_1":     {"defect 1", chat.Place{Backend: Name, Room: "#shop", Thread: "defect/saw-chain-2026-11-25"}},
		"direct":       {"direct", chat.Place{Backend: Name, Room: "ana", Direct: true}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			got, err := h.Find("ana", c.name)
			if err != nil || got != c.want {
				t.Errorf("%q is %+v %v, want %+v", c.name, got, err, c.want)
			}
		})
	}
	for _, name := range []string{"E9", "#nowhere", "99", "defect 2", "defect x", ""} {
		if _, err := h.Find("ana", name); err == nil {
			t.Errorf("%q is a place", name)
		}
	}
	if _, err := h.Account("bob"); err == nil || !strings.Contains(err.Error(), "ana, wim") {
		t.Errorf("error %v does not say who there is", err)
	}
}

func TestShowTellsOfPictures(t *testing.T) {
	lines := []chat.Block{chat.Text(chat.Body, "Board")}
	cases := map[string]struct {
		m    chat.Message
		want string
	}{
		"alt_text":      {chat.Message{Blocks: lines, Pics: []chat.Picture{{Name: "b.png", Alt: "All checked."}}}, "Board\n[picture] All checked."},
		"name_at_least": {chat.Message{Blocks: lines, Pics: []chat.Picture{{Name: "b.png"}}}, "Board\n[picture] b.png"},
		"nothing_else":  {chat.Message{Pics: []chat.Picture{{Source: "draw:board"}}}, "[picture] draw:board"},
		"none":          {chat.Message{Blocks: lines, Choices: []chat.Choice{{Say: "ok"}}}, "Board\n[ok]"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			if got := Show(c.m); got != c.want {
				t.Errorf("shown %q, want %q", got, c.want)
			}
		})
	}
}
