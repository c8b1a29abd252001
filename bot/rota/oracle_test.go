package rota_test

import (
	"strconv"
	"testing"
	"time"

	"github.com/teambition/rrule-go"

	"crosslay/bot/dept"
)

// oracle lists the instants of an RFC 5545 rule.
func oracle(t testing.TB, z *time.Location, start time.Time, rule string) []time.Time {
	t.Helper()
	option, err := rrule.StrToROptionInLocation(rule, z)
	if err != nil {
		t.Fatal(err)
	}
	option.Dtstart = start
	r, err := rrule.NewRRule(*option)
	if err != nil {
		t.Fatal(err)
	}
	return r.All()
}

// Each position of a cycle of n days recurs every n days at the same time on the
// wall. Two years of each pattern against rrule-go v1.8.2, over four changes of
// clocks.
func TestStartsRecur(t *testing.T) {
	const days = 730
	for _, name := range []string{"America/New_York", "America/Denver", "America/Phoenix"} {
		z := zone(t, name)
		for _, p := range patterns {
			t.Run(name+"_"+p.name, func(t *testing.T) {
				r := work(t, p.cycle, "2026-01-01", z, p.changes...)
				length := len(r.Cycle) / len(r.Changes)
				for i, platoon := range r.Cycle {
					day, change := i/len(r.Changes), r.Changes[i%len(r.Changes)]
					start := time.Date(2026, 1, 1+day, int(change)/60, int(change)%60, 0, 0, z)
					rule := "FREQ=DAILY;INTERVAL=" + strconv.Itoa(length) + ";COUNT=" + strconv.Itoa(days/length)
					for _, at := range oracle(t, z, start, rule) {
						s := r.At(at)
						if s.Platoon != platoon || !s.Start.Equal(at) || s.Date != dept.DateOf(at) {
							t.Fatalf("tour %d of the cycle: at %v %+v, want %s from then", i, at, s, platoon)
						}
					}
				}
			})
		}
	}
}

// Every three days at 07:00 from 2026-02-28 keeps 07:00 local: 2026-03-06 in
// EST, 2026-03-09 in EDT (RECOMPUTED with rrule-go v1.8.2).
func TestSevenStaysSeven(t *testing.T) {
	z := zone(t, "America/New_York")
	r := work(t, "ABC", "2026-02-28", z, "07:00")
	want := map[string]string{"2026-03-03": "EST", "2026-03-06": "EST", "2026-03-09": "EDT", "2026-03-12": "EDT"}
	for _, at := range oracle(t, z, time.Date(2026, 2, 28, 7, 0, 0, 0, z), "FREQ=DAILY;INTERVAL=3;COUNT=5")[1:] {
		s := r.At(at)
		abbreviation, _ := s.Start.In(z).Zone()
		if s.Platoon != "A" || s.Start.In(z).Format("15:04") != "07:00" || abbreviation != want[s.Date.String()] {
			t.Errorf("%v: %+v %s", at, s, abbreviation)
		}
	}
}

// The oracle itself gives the published answers of RFC 5545 3.8.5.3, from
// 1997-09-02 09:00 New York.
func TestOracle(t *testing.T) {
	z := zone(t, "America/New_York")
	start := time.Date(1997, 9, 2, 9, 0, 0, 0, z)
	for rule, want := range map[string]struct {
		n    int
		last string
	}{
		"FREQ=DAILY;COUNT=10":               {10, "1997-09-11 09:00 EDT"},
		"FREQ=DAILY;UNTIL=19971224T000000Z": {113, "1997-12-23 09:00 EST"},
		"FREQ=DAILY;INTERVAL=10;COUNT=5":    {5, "1997-10-12 09:00 EDT"},
		"FREQ=WEEKLY;COUNT=10":              {10, "1997-11-04 09:00 EST"},
	} {
		all := oracle(t, z, start, rule)
		if len(all) != want.n || all[len(all)-1].Format("2006-01-02 15:04 MST") != want.last {
			t.Errorf("%s: %d, the last %v", rule, len(all), all[len(all)-1])
		}
	}
}
