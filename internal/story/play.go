package story

import (
	"fmt"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
)

// Script is a story that is ready to be played.
type Script struct {
	Name  string
	Steps []Step
}

// Begin is the instant at which a story begins: its first line says so, or else
// it is a minute before a shift change of the department.
func (s Script) Begin(setup bot.Setup) (time.Time, error) {
	if first := s.Steps[0]; first.Verb == At {
		if first.Date == "" {
			return time.Time{}, &Error{s.Name, first.Line, "the first line needs a date: at 2026-11-25 06:59"}
		}
		return s.instant(first, setup.Dept.Zone, time.Time{})
	}
	return BeforeChange(setup, dept.Date{Year: 2026, Month: time.November, Day: 25}), nil
}

// BeforeChange is a minute before the first shift change of a date.
func BeforeChange(setup bot.Setup, d dept.Date) time.Time {
	return setup.Rota.On(d)[0].Start.Add(-time.Minute)
}

// Play plays the story in w, which stands at its beginning. The error is of type
// *Error where the story is to blame.
func (s Script) Play(w *World) error {
	var heard []Entry
	w.Hear(func(e Entry) { heard = append(heard, e) })
	for i, step := range s.Steps {
		if step.Verb == Expect {
			if wrong := step.Want.check(heard); wrong != "" {
				return &Error{s.Name, step.Line, wrong}
			}
			continue
		}
		if i == 0 && step.Verb == At {
			continue
		}
		heard = nil
		if err := s.step(w, step); err != nil {
			return &Error{s.Name, step.Line, err.Error()}
		}
	}
	return nil
}

func (s Script) step(w *World, step Step) error {
	switch step.Verb {
	case At:
		t, err := s.instant(step, w.setup.Dept.Zone, w.now)
		if err != nil {
			return err
		}
		return w.Advance(t.Sub(w.now))
	case Pass:
		return w.Advance(step.For)
	case Kill:
		return w.Kill()
	case Start:
		return w.Start()
	case Say, Edit, Delete, React, Unreact:
		ev, err := w.act(step)
		if err != nil {
			return err
		}
		return w.Send(ev)
	case Expect:
	}
	return nil
}

// instant is the time of an At line: on its date, or the next time after now at
// which the wall clock shows it.
func (s Script) instant(step Step, zone *time.Location, now time.Time) (time.Time, error) {
	clock, err := dept.ParseClock(step.Clock)
	if err != nil {
		return now, err
	}
	if step.Date == "" {
		today := dept.DateOf(now.In(zone))
		if t := clock.On(today, zone); t.After(now) {
			return t, nil
		}
		return clock.On(today.AddDays(1), zone), nil
	}
	date, err := dept.ParseDate(step.Date)
	if err != nil {
		return now, err
	}
	t := clock.On(date, zone)
	if t.Before(now) {
		return now, fmt.Errorf("time does not run backwards: it is %s already", now.In(zone).Format("2006-01-02 15:04"))
	}
	return t, nil
}

// act does at the service what a person does.
func (w *World) act(step Step) (chat.Event, error) {
	who, err := w.Hall.Account(step.Who)
	if err != nil {
		return chat.Event{}, err
	}
	switch step.Verb {
	case Edit, Delete:
		own := w.Hall.By(who)
		n := step.N
		if n == 0 {
			n = len(own)
		}
		if n < 1 || n > len(own) {
			return chat.Event{}, fmt.Errorf("%s has said %d messages so far", who, len(own))
		}
		if step.Verb == Delete {
			return w.Hall.Delete(who, own[n-1].Ref)
		}
		return w.Hall.Edit(who, own[n-1].Ref, step.Text)
	case React:
		p, err := w.Hall.Message(step.Place)
		if err != nil {
			return chat.Event{}, err
		}
		return w.Hall.React(who, p.Ref, step.Text)
	case Unreact:
		return w.Hall.Unreact(who)
	}
	place, err := w.Hall.Find(who, step.Place)
	if err != nil {
		return chat.Event{}, err
	}
	return w.Hall.Say(who, place, step.Text, photo(step.Photo)...), nil
}

func photo(with bool) []chat.Picture {
	if !with {
		return nil
	}
	return []chat.Picture{{Name: "photo.jpg", Type: "image/jpeg", Source: "story"}}
}
