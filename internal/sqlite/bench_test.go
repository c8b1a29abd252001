package sqlite

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
)

// BenchmarkBareInsert is the yardstick: one durable insert and nothing else.
func BenchmarkBareInsert(b *testing.B) {
	s := benchStore(b)
	if _, err := s.w.conn.ExecContext(b.Context(), `CREATE TABLE bare (id INTEGER PRIMARY KEY, body TEXT)`); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := s.w.exec(`INSERT INTO bare (body) VALUES (?)`, "saw full, good, tight, 3 min"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReply is what a reply costs: received, decided with the snapshot and
// the changes of a usual one, the answer queued.
func BenchmarkReply(b *testing.B) {
	for _, years := range []int{0, 10} {
		b.Run(fmt.Sprintf("years_%d", years), func(b *testing.B) {
			s := benchStore(b)
			past(b, s, years)
			i := 0
			for b.Loop() {
				i++
				reply(b, s, fmt.Sprintf("%d/%d", years, i))
			}
		})
	}
}

func benchStore(b *testing.B) *Store {
	b.Helper()
	s, err := Open(filepath.Join(b.TempDir(), "c.db"), Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { s.Close() })
	return s
}

// past fills the tables with years of records, events and messages.
func past(b *testing.B, s *Store, years int) {
	b.Helper()
	for year := range years {
		out := bot.Outcome{}
		for i := range 10_000 {
			id := fmt.Sprintf("%d/%d", year, i)
			out.Records = append(out.Records, record(id))
			out.Followups = append(out.Followups, said("past/"+id))
		}
		err := s.w.within(b.Context(), "past", func() (bool, error) {
			if err := s.w.apply(out, noon); err != nil {
				return false, err
			}
			return true, s.w.exec(`UPDATE inbox SET state = 'handled' WHERE state = 'new'`)
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}

func record(id string) bot.Record {
	return bot.Record{
		ID: "reading/" + id, Kind: bot.OnReading, At: noon, Arrived: noon, Company: "E1", Item: "saw",
		Check: "fuel", State: "ok", Words: "saw full", Who: "ana", Message: "fake/" + id,
	}
}

func reply(b *testing.B, s *Store, id string) {
	e := said(id)
	if _, err := s.Receive(b.Context(), "fake", chat.Batch{Events: []chat.Event{e}}); err != nil {
		b.Fatal(err)
	}
	_, err := s.Decide(b.Context(), func(tx bot.Tx, e chat.Event) (bot.Outcome, error) {
		standing, err := tx.Standing("E1")
		if err != nil {
			return bot.Outcome{}, err
		}
		if standing == nil {
			standing = &bot.Standing{Company: "E1"}
		}
		m := message(chat.Key("echo/" + e.ID))
		m.Place.Room = "#bench"
		m.Blocks = []chat.Block{chat.Text(chat.Body, "saw: fuel full, bar oil ok, chain ok, ran 3 min")}
		return bot.Outcome{
			Standings: []*bot.Standing{standing}, Records: []bot.Record{record(e.ID)},
			Messages: []chat.Message{m}, Wakes: []bot.Wake{{Scope: "company/E1", At: e.Said.Add(time.Hour)}},
		}, nil
	})
	if err != nil {
		b.Fatal(err)
	}
}
