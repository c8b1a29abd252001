package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"sync/atomic"
	"syscall"
	"time"

	"crosslay/bot"
	"crosslay/internal/matrix"
	"crosslay/internal/outbox"
	"crosslay/internal/serve"
	"crosslay/internal/slack"
	"crosslay/internal/sqlite"
	"crosslay/internal/story"
	"crosslay/internal/terminal"
)

type serveCmd struct {
	Config string `required:"" help:"Department file; taken up again whenever it changes." placeholder:"FILE"`
	DB     string `name:"db" required:"" help:"Database file." placeholder:"FILE"`
	Health string `default:"127.0.0.1:8640" help:"Loopback address of /healthz; empty for none."`
	Log    string `help:"File to append the log to; standard error without it." placeholder:"FILE"`
	secretsFlag
}

// Run serves until it is told to stop.
func (c *serveCmd) Run() error {
	setup, err := load(c.Config)
	if err != nil {
		return err
	}
	if err := serve.Fits(setup, backendNames()); err != nil {
		return err
	}
	log, err := openLog(c.Log)
	if err != nil {
		return err
	}
	defer log.Close()
	store, err := sqlite.Open(c.DB, sqlite.Options{})
	if err != nil {
		return err
	}
	defer store.Close()
	logger := slog.New(slog.NewJSONHandler(log, nil))
	var now latest
	now.Store(&setup)
	backends, err := openBackends(parts{setup: now.setup, store: store, secrets: c.dir(c.DB), log: logger})
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	return serve.Run(ctx, serve.Options{
		Store: store, Queue: store, Setup: setup, Backends: backends,
		File: c.Config, Load: func() (bot.Setup, error) { return now.load(c.Config) },
		Health: c.Health, Backlog: backlog(store), Paint: painter(now.setup, store),
		Log: logger,
	})
}

// secretsFlag says where tokens and keys are kept.
type secretsFlag struct {
	Secrets string `help:"Directory of tokens and keys; next to the database without it." placeholder:"DIR"`
}

// dir is the directory of secrets that goes with a database.
func (f secretsFlag) dir(db string) string {
	if f.Secrets != "" {
		return f.Secrets
	}
	return filepath.Join(filepath.Dir(db), "secrets")
}

// latest is the department file as it was last read without mistakes.
type latest struct{ atomic.Pointer[bot.Setup] }

func (l *latest) setup() bot.Setup { return *l.Load() }

func (l *latest) load(path string) (bot.Setup, error) {
	setup, err := load(path)
	if err == nil && serve.Fits(setup, backendNames()) == nil {
		l.Store(&setup)
	}
	return setup, err
}

func openLog(path string) (io.WriteCloser, error) {
	if path == "" {
		return kept{os.Stderr}, nil
	}
	return os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
}

// kept is a writer that stays open: what went wrong is still to be said on it.
type kept struct{ io.Writer }

func (kept) Close() error { return nil }

// makers are the backends that are in this build, by the name that department
// files call them.
var makers = map[string]func(parts) (serve.Backend, error){
	terminal.Name: openTerminal,
	matrix.Name:   openMatrix,
	slack.Name:    openSlack,
}

// parts are what backends are made of.
type parts struct {
	setup   func() bot.Setup // the department as its file states it now
	store   *sqlite.Store
	secrets string // the directory of tokens and keys
	log     *slog.Logger
}

func backendNames() []string {
	var names []string
	for name := range makers {
		names = append(names, name)
	}
	return names
}

// openBackends makes the backends that the rooms of a department are on.
func openBackends(p parts) ([]serve.Backend, error) {
	var open []serve.Backend
	for _, name := range serve.Used(p.setup()) {
		b, err := makers[name](p)
		if err != nil {
			return nil, fmt.Errorf("open backend %s: %w", name, err)
		}
		open = append(open, b)
	}
	return relayed(open), nil
}

func openTerminal(p parts) (serve.Backend, error) {
	setup, store := p.setup(), p.store
	session := "s" + strconv.FormatInt(time.Now().UnixNano(), 36) + "-"
	svc := terminal.NewService(session, time.Now)
	if _, err := story.Restore(svc, store); err != nil {
		return nil, err
	}
	guide := story.NewGuide(setup, time.Now())
	return &terminal.Live{Station: terminal.Station{
		Hall: story.NewHall(setup.Dept, svc), Zone: setup.Dept.Zone, Now: time.Now,
		Welcome: greeting(setup.Dept.Name, guide.Who),
		Who:     guide.Who, Where: guide.Where,
	}, In: os.Stdin, Out: os.Stdout}, nil
}

// greeting is the first screen of a served terminal. Without a speaker nothing that
// is typed would be anybody's.
func greeting(department, who string) []string {
	lines := []string{department + ". /help: how to use this screen."}
	if who == "" {
		lines = append(lines, "Nobody in the department file has an account on the terminal, so nobody is heard here. Give people one: accounts: {terminal: ana}.")
	}
	return lines
}

// backlog counts what an operator should know of.
func backlog(store *sqlite.Store) func(context.Context) (serve.Backlog, error) {
	return func(ctx context.Context) (serve.Backlog, error) {
		var b serve.Backlog
		waiting, err := store.Outgoing(ctx, outbox.Ready, outbox.Sending)
		if err != nil {
			return b, err
		}
		uncertain, err := store.Outgoing(ctx, outbox.Uncertain)
		if err != nil {
			return b, err
		}
		parked, err := store.Parked(ctx)
		b = serve.Backlog{Outbox: len(waiting), Uncertain: len(uncertain), Parked: len(parked)}
		return b, err
	}
}
