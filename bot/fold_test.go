package bot

import (
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
)

// words is a statement of one result, said minute minutes into the shift.
func words(who string, minute int, state check.State, change ...func(*Statement)) Statement {
	r := reply.Result{Ref: check.Ref{Item: "hose", Check: "cover"}, State: state}
	s := Statement{Event: who + time.Duration(minute).String(), Author: who, Said: time.Unix(int64(minute)*60, 0), Results: []reply.Result{r}}
	for _, f := range change {
		f(&s)
	}
	return s
}

func officer(s *Statement) { s.Officer = true }
func blanket(s *Statement) { s.Results[0].Blanket = true }
func gone(s *Statement)    { s.Gone = true }
func which(s *Statement)   { s.Results[0].Doubt.Why = reply.WhichItem }

func TestFold(t *testing.T) {
	for name, c := range map[string]struct {
		said []Statement
		want check.State
	}{
		"nothing_said_is_open":                  {nil, check.Open},
		"ruling_1_pass_to_fault_by_anybody":     {[]Statement{words("ana", 1, check.OK), words("bo", 2, check.Fail)}, check.Fail},
		"ruling_1_own_fault_taken_back":         {[]Statement{words("ana", 1, check.Fail), words("ana", 2, check.OK)}, check.OK},
		"ruling_1_confirmed_by_another":         {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.Fail), words("ana", 3, check.OK)}, check.Unsure},
		"ruling_1_anothers_ok_makes_unsure":     {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.OK)}, check.Unsure},
		"ruling_1_said_twice_is_not_two_people": {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.OK), words("bo", 3, check.OK)}, check.Unsure},
		"ruling_1_reporter_settles_the_doubt":   {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.OK), words("ana", 3, check.OK)}, check.OK},
		"ruling_1_officer_settles":              {[]Statement{words("ana", 1, check.Fail), words("lt", 2, check.OK, officer)}, check.OK},
		"ruling_1_blanket_never_over_fault":     {[]Statement{words("ana", 1, check.Fail), words("ana", 2, check.OK, blanket)}, check.Fail},
		"ruling_1_officers_blanket_neither":     {[]Statement{words("ana", 1, check.Fail), words("lt", 2, check.OK, blanket, officer)}, check.Fail},
		"ruling_1_blanket_never_over_unsure":    {[]Statement{words("ana", 1, check.Unsure), words("ana", 2, check.OK, blanket)}, check.Unsure},
		"ruling_1_confirmed_stays_confirmed":    {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.Fail), words("bo", 3, check.OK), words("bo", 4, check.OK)}, check.Unsure},
		"ruling_1_a_doubt_hides_no_contest":     {[]Statement{words("ana", 1, check.Fail), words("bo", 2, check.OK), words("bo", 3, check.Unsure), words("bo", 4, check.OK)}, check.Unsure},
		"doubt_does_not_clear_a_fault":          {[]Statement{words("ana", 1, check.Fail), words("ana", 2, check.Unsure)}, check.Fail},
		"latest_word_wins":                      {[]Statement{words("ana", 1, check.OK), words("ana", 2, check.Unsure)}, check.Unsure},
		"which_item_unsettles_nothing":          {[]Statement{words("ana", 1, check.OK), words("bo", 2, check.Unsure, which)}, check.OK},
		"ruling_3_said_decides_the_order":       {[]Statement{words("bo", 5, check.Fail), words("ana", 1, check.OK)}, check.Fail},
		"taken_back_counts_for_nothing":         {[]Statement{words("ana", 1, check.OK), words("bo", 2, check.Fail, gone)}, check.OK},
	} {
		t.Run(name, func(t *testing.T) {
			got := fold(c.said)[check.Ref{Item: "hose", Check: "cover"}].result.State
			if got != c.want {
				t.Errorf("state %q, want %q", got, c.want)
			}
		})
	}
}

// Keys are on record for years: this test guards their form.
func TestKeysGolden(t *testing.T) {
	d := time.Date(2026, 3, 8, 0, 0, 0, 0, time.UTC)
	date := dept.DateOf(d)
	if got := promptKey("E21", date, "A"); got != "prompt/E21/2026-03-08/A" {
		t.Errorf("prompt key %s", got)
	}
	if got := threadOf("prompt/E21/2026-03-08/A/edit/3"); got.company != "E21" || got.date != date || got.platoon != "A" {
		t.Errorf("thread of an edited prompt: %+v", got)
	}
	id := defectID(check.Ref{Item: "e21-hose", Check: "cover"}, d.Add(7*time.Hour))
	if id != "e21-hose-cover-2026-03-08-070000" || threadOf(defectKey(id)).defect != id {
		t.Errorf("defect id %s", id)
	}
	if got := threadOf("nag/unanswered/E21/2026-03-08/A/2"); got != (thread{}) {
		t.Errorf("a reminder's key names no thread: %+v", got)
	}
}
