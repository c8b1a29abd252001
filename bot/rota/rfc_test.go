package rota_test

import (
	"testing"
	"time"
)

// The oracle itself against the examples of RFC 5545, section 3.8.5.3 (FOUND in test
// suites that quote it): DTSTART;TZID=America/New_York:19970902T090000. An oracle that
// got the change of clocks wrong would prove nothing of ours.
func TestOracleKnowsItsExamples(t *testing.T) {
	zone := zone(t, "America/New_York")
	cases := []struct {
		name, rule  string
		count, edt  int
		first, last string
	}{
		{"daily_ten", "FREQ=DAILY;COUNT=10", 10, 10, "1997-09-02", "1997-09-11"},
		{"daily_until", "FREQ=DAILY;UNTIL=19971224T000000Z", 113, 54, "1997-09-02", "1997-12-23"},
		{"every_ten_days", "FREQ=DAILY;INTERVAL=10;COUNT=5", 5, 5, "1997-09-02", "1997-10-12"},
		{"weekly_ten", "FREQ=WEEKLY;COUNT=10", 10, 8, "1997-09-02", "1997-11-04"},
		{"weekly_two_days", "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", 10, 10, "1997-09-02", "1997-10-02"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			all, edt := oracle(t, zone, time.Date(1997, 9, 2, 9, 0, 0, 0, zone), c.rule), 0
			for _, at := range all {
				if name, _ := at.Zone(); name == "EDT" {
					edt++
				}
				if at.Hour() != 9 {
					t.Errorf("%s is not at nine", at)
				}
			}
			if len(all) != c.count || edt != c.edt || all[0].Format(time.DateOnly) != c.first || all[len(all)-1].Format(time.DateOnly) != c.last {
				t.Errorf("%d times, %d of them EDT, %s to %s; want %d, %d, %s to %s", len(all), edt, all[0], all[len(all)-1], c.count, c.edt, c.first, c.last)
			}
		})
	}
}
