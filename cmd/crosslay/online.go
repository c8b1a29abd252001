package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/signal"
	"syscall"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/matrix"
	"crosslay/internal/serve"
	"crosslay/internal/slack"
)

// inspectors ask the chat services what is missing, by the name that department
// files call the backend. Each returns sentences, none when all is well.
var inspectors = map[string]func(ctx context.Context, setup bot.Setup, secrets string, rooms []chat.Place) []string{
	matrix.Name: inspectMatrix,
	slack.Name:  inspectSlack,
}

// inspect asks every service that the rooms of the file are on, and prints what
// is missing and what to do about it.
func (c *vetCmd) inspect(out io.Writer) error {
	setup, err := load(c.File)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	missing := 0
	for _, name := range serve.Used(setup) {
		rooms := roomsOn(setup, name)
		ask, ok := inspectors[name]
		if !ok {
			fmt.Fprintf(out, "%s: nothing to ask for %s\n", name, counted(len(rooms), "room", "rooms"))
			continue
		}
		wrong := ask(ctx, setup, c.dir(c.DB), rooms)
		for _, line := range wrong {
			fmt.Fprintf(out, "%s: %s\n", name, line)
		}
		if len(wrong) == 0 {
			fmt.Fprintf(out, "%s: all is well with %s\n", name, counted(len(rooms), "room", "rooms"))
		}
		missing += len(wrong)
	}
	if missing > 0 {
		return errors.New(counted(missing, "thing is missing", "things are missing"))
	}
	return nil
}

// roomsOn lists the rooms of the file that are on a backend.
func roomsOn(setup bot.Setup, backend string) []chat.Place {
	var rooms []chat.Place
	for _, r := range setup.Dept.Rooms {
		if r.Backend == backend {
			rooms = append(rooms, chat.Place{Backend: r.Backend, Room: r.Address})
		}
	}
	return rooms
}
