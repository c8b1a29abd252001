package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/story"
	"crosslay/internal/terminal"
)

type tryCmd struct {
	Config string `help:"Department file; the example department without it." placeholder:"FILE"`
	DB     string `name:"db" help:"Database file to go on with; a new one without it." placeholder:"FILE"`
}

// Run opens the station on the terminal.
func (c *tryCmd) Run() error {
	setup, err := load(c.Config)
	if err != nil {
		return err
	}
	path := c.DB
	if path == "" {
		if path, err = freshFile(); err != nil {
			return err
		}
	}
	now := time.Now()
	begin := story.BeforeChange(setup, dept.DateOf(now.In(setup.Dept.Zone)))
	w, err := story.New(setup, path, begin, story.Options{
		Session: "t" + strconv.FormatInt(now.UnixNano(), 36) + "-", Paint: drawingFor(setup),
	})
	if err != nil {
		return err
	}
	defer w.Close()
	st := station(w, path)
	if w.Now().After(begin) {
		st.Welcome = again(setup, w.Now(), path)
	}
	w.Hear(func(e story.Entry) {
		if e.What == story.WasParked || e.What == story.WasTrouble {
			st.Note(fmt.Sprintf("%s %s: %s", e.What, e.Key, e.Text))
		}
	})
	return st.Run(os.Stdin, os.Stdout)
}

// freshFile names a database file that does not exist yet.
func freshFile() (string, error) {
	dir, err := os.MkdirTemp("", "crosslay-try-")
	if err != nil {
		return "", fmt.Errorf("make a place for the database: %w", err)
	}
	return filepath.Join(dir, "crosslay.db"), nil
}

func station(w *story.World, path string) *terminal.Station {
	setup := w.Setup()
	guide := story.NewGuide(setup, w.Now())
	return &terminal.Station{
		Hall: w.Hall, Zone: setup.Dept.Zone, Now: w.Now, Send: w.Send, Pass: w.Advance,
		Restart: func() error {
			if err := w.Kill(); err != nil {
				return err
			}
			return w.Start()
		},
		Welcome: welcome(setup, guide, w.Now(), path),
		Who:     guide.Who, Where: guide.Where,
	}
}

// welcome is the first screen: where one is, and a morning to type along.
func welcome(setup bot.Setup, g story.Guide, now time.Time, path string) []string {
	d := setup.Dept
	lines := []string{
		fmt.Sprintf("%s, %s by a clock that you set going.", d.Name, now.In(d.Zone).Format("Mon Jan 2 15:04")),
		"Everything is kept in " + path,
		fmt.Sprintf("You are %s. A first morning: type what stands on the left.", person(d, g.Who)),
		"",
	}
	lines = append(lines, g.Lines...)
	return append(lines, "", "Then anything a crew, the shop or a chief would say. /help: three lines more.")
}

// again is the first screen of a file that was begun before.
func again(setup bot.Setup, now time.Time, path string) []string {
	return []string{
		fmt.Sprintf("%s goes on at %s.", setup.Dept.Name, now.In(setup.Dept.Zone).Format("Mon Jan 2 15:04")),
		"Everything is kept in " + path,
		"/help: how to use this screen.",
	}
}

func person(d *dept.Department, account string) string {
	p, ok := d.PersonAt(terminal.Name, account)
	if !ok {
		return account
	}
	if c, ok := d.Company(p.Company); ok {
		return account + " of " + c.Name
	}
	return account
}
