package sqlite

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// outcome stores an event and applies the outcome for it.
func outcome(t *testing.T, s *Store, id string, out bot.Outcome, fail error) {
	t.Helper()
	if _, err := s.Receive(t.Context(), "fake", batch(id, 3)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Decide(t.Context(), func(bot.Tx, chat.Event) (bot.Outcome, error) { return out, fail }); err != nil {
		t.Fatal(err)
	}
}

func TestRecordsInOrderWithWhatSupersedesThem(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	defer s.Close()
	at := func(id string, minutes int, change func(*bot.Record)) bot.Record {
		r := record(id)
		r.ID, r.At = id, noon.Add(time.Duration(minutes)*time.Minute)
		if change != nil {
			change(&r)
		}
		return r
	}
	outcome(t, s, "1", bot.Outcome{Records: []bot.Record{
		at("b", 2, nil), at("a", 1, nil),
		at("truck", 3, func(r *bot.Record) { r.Company, r.Item = "T9", "fan" }),
	}}, nil)
	outcome(t, s, "2", bot.Outcome{Records: []bot.Record{
		at("c", 5, func(r *bot.Record) { r.Supersedes, r.Kind = "a", bot.OnRun }),
		at("d", 4, func(r *bot.Record) { r.Supersedes = "a" }),
	}}, nil)
	cases := map[string]struct {
		filter Filter
		want   []string
	}{
		"all":     {Filter{}, []string{"a<d", "b<", "truck<", "d<", "c<"}},
		"item":    {Filter{Item: "fan"}, []string{"truck<"}},
		"company": {Filter{Company: "E1"}, []string{"a<d", "b<", "d<", "c<"}},
		"kind":    {Filter{Kind: bot.OnRun}, []string{"c<"}},
		"since":   {Filter{Since: noon.Add(4 * time.Minute)}, []string{"d<", "c<"}},
		"until":   {Filter{Until: noon.Add(2 * time.Minute)}, []string{"a<d"}},
		"none":    {Filter{Item: "fan", Company: "E1"}, nil},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var have []string
			err := s.Records(t.Context(), c.filter, func(r bot.Record, by string) error {
				have = append(have, r.ID+"<"+by)
				return nil
			})
			if diff := cmp.Diff(c.want, have); err != nil || diff != "" {
				t.Errorf("error %v (-want +got):\n%s", err, diff)
			}
		})
	}
	stop := errors.New("enough")
	if err := s.Records(t.Context(), Filter{}, func(bot.Record, string) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("error %v, want that of the callback", err)
	}
}

func TestParkedIsShownAndComesBack(t *testing.T) {
	s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
	defer s.Close()
	outcome(t, s, "1", bot.Outcome{}, errors.New("no sheet for the ladder"))
	parked, err := s.Parked(t.Context())
	if err != nil || len(parked) != 1 || parked[0].Event.ID != "1" || parked[0].Reason != "no sheet for the ladder" {
		t.Fatalf("parked %+v, error %v", parked, err)
	}
	if err := s.Unpark(t.Context(), parked[0].Seq); err != nil {
		t.Fatal(err)
	}
	if err := s.Unpark(t.Context(), parked[0].Seq); err == nil {
		t.Error("it came back twice")
	}
	if ok, err := s.Decide(t.Context(), func(bot.Tx, chat.Event) (bot.Outcome, error) { return bot.Outcome{}, nil }); !ok || err != nil {
		t.Errorf("decided %v, error %v", ok, err)
	}
}

func TestUncertainIsResolved(t *testing.T) {
	for name, arrived := range map[string]bool{"arrived": true, "not_arrived": false} {
		t.Run(name, func(t *testing.T) {
			s := fresh(t, filepath.Join(t.TempDir(), "c.db"))
			defer s.Close()
			outcome(t, s, "1", bot.Outcome{Messages: []chat.Message{message("root")}}, nil)
			if _, _, err := s.Claim(t.Context(), noon); err != nil {
				t.Fatal(err)
			}
			if err := s.Resolve(t.Context(), "root", arrived, noon); err == nil {
				t.Error("resolved, and nobody was uncertain")
			}
			if err := s.Settle(t.Context(), "root", outbox.Verdict{State: outbox.Uncertain, Now: noon, Reason: "broken"}); err != nil {
				t.Fatal(err)
			}
			list, err := s.Outgoing(t.Context(), outbox.Uncertain, outbox.Refused)
			if err != nil || len(list) != 1 || list[0].Reason != "broken" || list[0].Tries != 1 || !list[0].Tried.Equal(noon) {
				t.Fatalf("uncertain are %+v, error %v", list, err)
			}
			if err := s.Resolve(t.Context(), "root", arrived, noon); err != nil {
				t.Fatal(err)
			}
			if _, again, err := s.Claim(t.Context(), noon); again == arrived || err != nil {
				t.Errorf("sent again %v, error %v", again, err)
			}
			if told, err := s.Decide(t.Context(), func(bot.Tx, chat.Event) (bot.Outcome, error) { return bot.Outcome{}, nil }); told != arrived || err != nil {
				t.Errorf("told of as accepted %v, error %v", told, err)
			}
		})
	}
}
