package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"time"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/story"
)

type rehearseCmd struct {
	Story  string `arg:"" optional:"" help:"Story file to play."`
	Config string `help:"Department file; the example department without it." placeholder:"FILE"`
	DB     string `name:"db" help:"Database file to keep; a passing one without it." placeholder:"FILE"`
	JSON   bool   `name:"json" help:"One object for each thing said or recorded."`
	Days   int    `help:"Instead of a story: days of made-up crews."`
	Seed   uint64 `help:"Seed of the made-up crews." default:"1"`
}

// Run plays a story or some days.
func (c *rehearseCmd) Run() error {
	if (c.Story == "") == (c.Days <= 0) {
		return errors.New("give either a story to play or --days N")
	}
	setup, err := load(c.Config)
	if err != nil {
		return err
	}
	path, remove, err := passing(c.DB)
	if err != nil {
		return err
	}
	defer remove()
	out := bufio.NewWriter(os.Stdout)
	if c.Days > 0 {
		err = c.days(setup, path, out)
	} else {
		err = c.story(setup, path, out)
	}
	return errors.Join(err, out.Flush())
}

// passing is the database file to use, and what removes it afterwards unless it
// was asked for.
func passing(path string) (string, func(), error) {
	if path != "" {
		return path, func() {}, nil
	}
	dir, err := os.MkdirTemp("", "crosslay-rehearse-")
	if err != nil {
		return "", nil, fmt.Errorf("make a place for the database: %w", err)
	}
	return dir + "/crosslay.db", func() { os.RemoveAll(dir) }, nil
}

func (c *rehearseCmd) story(setup bot.Setup, path string, out io.Writer) error {
	text, err := os.ReadFile(c.Story)
	if err != nil {
		return err
	}
	steps, err := story.Parse(c.Story, string(text))
	if err != nil {
		return err
	}
	script := story.Script{Name: c.Story, Steps: steps}
	begin, err := script.Begin(setup)
	if err != nil {
		return err
	}
	w, err := story.New(setup, path, begin, story.Options{Fast: true, Paint: drawingFor(setup)})
	if err != nil {
		return err
	}
	defer w.Close()
	w.Hear(c.printer(out))
	return script.Play(w)
}

func (c *rehearseCmd) printer(out io.Writer) func(story.Entry) {
	write := story.WriteText(out)
	if c.JSON {
		write = story.WriteJSON(out)
	}
	return func(e story.Entry) { _ = write(e) } // out keeps its first error for Flush
}

// firstDay is where rehearsed days begin.
var firstDay = dept.Date{Year: 2026, Month: time.January, Day: 5}

func (c *rehearseCmd) days(setup bot.Setup, path string, out io.Writer) error {
	began := time.Now()
	w, err := story.New(setup, path, story.BeforeChange(setup, firstDay), story.Options{Fast: true})
	if err != nil {
		return err
	}
	defer w.Close()
	if c.JSON {
		w.Hear(c.printer(out))
	}
	totals, err := story.Simulate(w, c.Days, c.Seed)
	if err != nil {
		return err
	}
	if c.JSON {
		return json.NewEncoder(out).Encode(totals)
	}
	return printTotals(out, totals, time.Since(began))
}

func printTotals(out io.Writer, t story.Totals, took time.Duration) error {
	fmt.Fprintf(out, "%d days in %.1f s\n", t.Days, took.Seconds())
	fmt.Fprintf(out, "people said %d; prompts were edited %d times; parked %d\n", t.People, t.Edited, t.Parked)
	fmt.Fprintln(out, "said:")
	counts(out, t.Said)
	fmt.Fprintln(out, "recorded:")
	return counts(out, t.Recorded)
}

func counts(out io.Writer, n map[string]int) (err error) {
	for _, kind := range slices.Sorted(maps.Keys(n)) {
		_, err = fmt.Fprintf(out, "  %-12s %d\n", kind, n[kind])
	}
	return err
}
