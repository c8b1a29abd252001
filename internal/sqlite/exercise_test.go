package sqlite

import (
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

var noon = time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC)

func said(id string) chat.Event {
	return chat.Event{Backend: "fake", ID: id, Kind: chat.Said, Said: noon, Arrived: noon, Text: "all good"}
}

func message(key chat.Key) chat.Message {
	return chat.Message{Key: key, Place: chat.Place{Backend: "fake", Room: "#st1"}, Tell: true}
}

// exercise makes the store use most of its statements.
func exercise(t *testing.T, s *Store) {
	t.Helper()
	ctx := t.Context()
	ok := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	_, err := s.Receive(ctx, "fake", chat.Batch{Events: []chat.Event{said("1"), said("2")}, Cursors: map[string]string{"a": "b"}})
	ok(err)
	reply, edit, newer := message("reply"), message("edit"), message("newer")
	reply.Under, edit.Edits, newer.Edits = "root", "root", "root"
	edit.Place = chat.Place{}
	_, err = s.Decide(ctx, func(tx bot.Tx, e chat.Event) (bot.Outcome, error) {
		ask(tx)
		return bot.Outcome{
			Wakes:    []bot.Wake{{Scope: "a", At: noon}, {Scope: "b"}},
			Messages: []chat.Message{message("root"), reply, edit, newer, message("gone"), message("lost")},
		}, nil
	})
	ok(err)
	_, err = s.Decide(ctx, func(bot.Tx, chat.Event) (bot.Outcome, error) {
		return bot.Outcome{Drop: []chat.Key{"gone"}}, nil
	})
	ok(err)
	_, err = s.Wakes(ctx, noon)
	ok(err)
	_, err = s.NextWake(ctx)
	ok(err)
	_, err = s.Recover(ctx)
	ok(err)
	for range 4 {
		job, found, err := s.Claim(ctx, noon)
		ok(err)
		if found {
			ok(s.Settle(ctx, job.Message.Key, outbox.Verdict{State: outbox.Sent, Now: noon, Ref: "r", Next: noon}))
		}
	}
}

// ask asks everything that a decision may ask.
func ask(tx bot.Tx) {
	_, _ = tx.KeyOf("fake", "#st1", "r")
	_, _ = tx.Standing("E1")
	_, _ = tx.Standings()
	_, _ = tx.Item("saw")
	_, _ = tx.Items()
	_, _ = tx.Defect("d")
	_, _ = tx.DefectsOf("saw", noon)
	_, _ = tx.DefectsOpen()
	_, _ = tx.DefectsOfKind("saw", "chain", noon)
	_, _ = tx.History("saw", 5)
	_, _ = tx.Rungs("E1", 5)
	_, _ = tx.Meta("m")
}
