package main

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/internal/outbox"
	"crosslay/internal/serve"
	"crosslay/internal/terminal"
)

// elsewhere is a second service, with the rooms that are not on Slack.
type elsewhere struct {
	*terminal.Service
	mu      sync.Mutex
	shown   []chat.Message
	receive serve.Receive
}

func (e *elsewhere) Name() string { return terminal.Name }

func (e *elsewhere) Run(ctx context.Context, receive serve.Receive) error {
	e.receive = receive
	<-ctx.Done()
	return nil
}

func (e *elsewhere) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	e.mu.Lock()
	e.shown = append(e.shown, m)
	e.mu.Unlock()
	return e.Service.Post(ctx, m, place, target)
}

// Fetch has what its own people sent.
func (e *elsewhere) Fetch(_ context.Context, pic chat.Picture) ([]byte, error) {
	if pic.Source == "station" {
		return []byte("\xff\xd8\xff\xe0 of the shop"), nil
	}
	return nil, chat.ErrRefused
}

// TestSlack_with_the_shop_elsewhere: the crews are on Slack, the shop and the
// officers on another service. The report reaches the shop with its photo, and
// what the shop says reaches the crew's thread.
func TestSlack_with_the_shop_elsewhere(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		script := storyOf(t, "morning.story")
		shop := &elsewhere{Service: terminal.NewService("m", time.Now)}
		w := newSlackTown(t, beginOf(t, script), func(r dept.Room) bool { return r.Purpose == dept.ForStation || r.Purpose == dept.ForCompany })
		w.extra = []serve.Backend{shop}
		w.start()
		w.until(w.clock.Add(time.Minute))
		at, err := w.find(w.users["ines"], "E1")
		if err != nil {
			t.Fatal(err)
		}
		w.Say(w.users["ines"], at.channel, at.thread, "left hose has a nick in the cover", jpeg)
		w.settle()
		i := slices.IndexFunc(shop.shown, func(m chat.Message) bool { return m.Kind == chat.Defect })
		if i < 0 || len(shop.shown[i].Pics) != 1 || string(shop.shown[i].Pics[0].Data) != string(jpeg.Data) {
			t.Fatalf("the shop is shown %+v", shop.shown)
		}
		ev := shop.Say("wim", shop.Defects()[0].Thread(), "waiting for parts until friday")
		if err := shop.receive(t.Context(), chat.Batch{Events: []chat.Event{ev}}); err != nil {
			t.Fatal(err)
		}
		w.settle()
		said := w.Thread(at.channel, at.thread)
		if last := said[len(said)-1]; !strings.Contains(last.Text, "Fri") || !strings.Contains(last.Text, "HH-01") {
			t.Errorf("the crew is told %q", last.Text)
		}
		w.end()
	})
}

func TestRelay_keeps_what_its_backend_can(t *testing.T) {
	finds := struct {
		serve.Backend
		outbox.Finder
	}{}
	list := relayed([]serve.Backend{finds, keyedOne{}, &elsewhere{Service: &terminal.Service{}}})
	for i, want := range []struct{ finds, keys bool }{{true, false}, {false, true}, {false, true}} {
		_, f := list[i].(outbox.Finder)
		k, keys := list[i].(outbox.Keyed)
		if f != want.finds || (keys && k.Keyed()) != want.keys {
			t.Errorf("backend %d: finds %v, keyed %v", i, f, keys)
		}
	}
}

type keyedOne struct{ serve.Backend }

func (keyedOne) Keyed() bool { return true }
