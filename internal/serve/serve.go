package serve

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/robfig/cron/v3"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// Receive takes in what a backend heard. It is durable when it returns nil; only
// then may the backend acknowledge.
type Receive = func(ctx context.Context, batch chat.Batch) error

// Backend is one chat service.
type Backend interface {
	outbox.Poster
	// Name is what department files call it.
	Name() string
	// Run listens until the context ends, or, where a person can leave it, until
	// that: then it returns nil and the bot stops.
	Run(ctx context.Context, receive Receive) error
}

// Options of Run.
type Options struct {
	Store    bot.Store
	Queue    outbox.Queue
	Setup    bot.Setup
	Backends []Backend
	File     string                    // the department file, watched for changes; "" for none
	Load     func() (bot.Setup, error) // reads and vets it
	Health   string                    // loopback address; "" for none
	Backlog  func(context.Context) (Backlog, error)
	Paint    outbox.Painter // draws the pictures that messages name; nil leaves them out
	Log      *slog.Logger
}

// server is a running bot.
type server struct {
	Options
	engine *bot.Engine
	sender *outbox.Sender
	poke   chan struct{}
	busy   atomic.Int64 // since when the inbox has not been empty, Unix ms; 0 if it is
	began  time.Time
}

// Run runs the bot until the context ends, which is no error.
func Run(ctx context.Context, opt Options) error {
	s := &server{Options: opt, engine: bot.New(parking{opt.Store, opt.Log}, opt.Setup), poke: make(chan struct{}, 1), began: time.Now()}
	posters := map[string]outbox.Poster{}
	for _, b := range opt.Backends {
		posters[b.Name()] = b
	}
	s.sender = outbox.New(opt.Queue, posters, outbox.Options{Report: s.trouble, Sent: func(chat.Key) { s.wake() }, Paint: opt.Paint})
	if err := s.engine.Note(ctx, chat.Started, time.Now(), ""); err != nil {
		return fmt.Errorf("start: %w", err)
	}
	health, err := s.listen()
	if err != nil {
		return err
	}
	clock := cron.New()
	if _, err := clock.AddFunc("* * * * *", s.wake); err != nil {
		return err
	}
	clock.Start()
	defer clock.Stop()
	s.Log.Info("started", "department", opt.Setup.Dept.Name, "backends", names(opt.Backends))
	err = s.together(ctx, append(s.listeners(), s.decide, s.sender.Run, s.watch, health))
	s.Log.Info("stopped", "error", text(err))
	return err
}

// together runs all until the first of them returns or the context ends, and
// waits for every one.
func (s *server) together(ctx context.Context, runs []func(context.Context) error) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var wg sync.WaitGroup
	for _, run := range runs {
		wg.Go(func() {
			err := run(ctx)
			if err == nil {
				err = errStop
			}
			cancel(err)
		})
	}
	wg.Wait()
	if err := context.Cause(ctx); !errors.Is(err, errStop) && !errors.Is(err, context.Canceled) {
		return err
	}
	return nil
}

var errStop = errors.New("somebody left")

// listeners are the backends, each with its door to the inbox.
func (s *server) listeners() []func(context.Context) error {
	var runs []func(context.Context) error
	for _, b := range s.Backends {
		runs = append(runs, func(ctx context.Context) error {
			err := b.Run(ctx, func(ctx context.Context, batch chat.Batch) error { return s.receive(ctx, b.Name(), batch) })
			if err != nil && ctx.Err() == nil {
				return fmt.Errorf("backend %s: %w", b.Name(), err)
			}
			return err
		})
	}
	return runs
}

// receive stores what was heard. The log has its names and never its words.
func (s *server) receive(ctx context.Context, backend string, batch chat.Batch) error {
	n, err := s.Store.Receive(ctx, backend, batch)
	if err != nil {
		s.Log.Error("not stored", "backend", backend, "events", len(batch.Events), "error", err.Error())
		return err
	}
	for _, ev := range batch.Events {
		s.Log.Info("heard", "backend", backend, "event", ev.ID, "kind", ev.Kind)
	}
	if n > 0 {
		s.wake()
	}
	return nil
}

// wake has the inbox and the clock looked at. It never blocks.
func (s *server) wake() {
	select {
	case s.poke <- struct{}{}:
	default:
	}
}

// pause is how long is waited after trouble with the store.
const pause = 2 * time.Second

// decide works off the inbox whenever there is something in it, and at every
// planned instant.
func (s *server) decide(ctx context.Context) error {
	for ctx.Err() == nil {
		wait := time.Minute
		if err := s.work(ctx); err != nil {
			s.Log.Error("decide", "error", err.Error())
			wait = pause
		} else if next, err := s.Store.NextWake(ctx); err == nil && !next.IsZero() {
			wait = min(wait, max(time.Until(next), time.Millisecond))
		}
		timer := time.NewTimer(wait)
		select {
		case <-ctx.Done():
		case <-timer.C:
		case <-s.poke:
		}
		timer.Stop()
	}
	return nil
}

func (s *server) work(ctx context.Context) error {
	if _, err := s.engine.Wake(ctx, time.Now()); err != nil {
		return err
	}
	s.busy.CompareAndSwap(0, time.Now().UnixMilli())
	for ctx.Err() == nil {
		more, err := s.engine.Work(ctx)
		if err != nil {
			return err
		}
		if !more {
			s.busy.Store(0)
			return nil
		}
		s.sender.Kick()
	}
	return nil
}

// trouble logs what kept a message from being sent.
func (s *server) trouble(err error) {
	var t *outbox.Trouble
	if errors.As(err, &t) {
		s.Log.Warn("not sent", "key", t.Key, "backend", t.Place.Backend, "room", t.Place.Room, "state", t.State, "reason", t.Reason)
		return
	}
	s.Log.Error("outbox", "error", err.Error())
}

// parking is the store, with a line in the log for every event that could not be
// decided.
type parking struct {
	bot.Store
	log *slog.Logger
}

// Decide implements bot.Store.
func (p parking) Decide(ctx context.Context, f func(bot.Tx, chat.Event) (bot.Outcome, error)) (bool, error) {
	return p.Store.Decide(ctx, func(tx bot.Tx, ev chat.Event) (bot.Outcome, error) {
		out, err := f(tx, ev)
		if err != nil {
			p.log.Error("parked", "backend", ev.Backend, "event", ev.ID, "kind", ev.Kind, "error", err.Error())
		}
		return out, err
	})
}

// Used lists the backends that the rooms of a department are on.
func Used(setup bot.Setup) []string {
	var used []string
	for _, r := range setup.Dept.Rooms {
		if !slices.Contains(used, r.Backend) {
			used = append(used, r.Backend)
		}
	}
	return used
}

// Fits reports whether every room is on one of the backends.
func Fits(setup bot.Setup, have []string) error {
	for _, r := range setup.Dept.Rooms {
		if !slices.Contains(have, r.Backend) {
			return &NoBackendError{Room: string(r.ID), Backend: r.Backend, Have: have}
		}
	}
	return nil
}

// NoBackendError says that a room is on a backend that is not there.
type NoBackendError struct {
	Room, Backend string
	Have          []string
}

func (e *NoBackendError) Error() string {
	return fmt.Sprintf("room %s is on %q, a backend that is not in this build; it has: %s",
		e.Room, e.Backend, strings.Join(e.Have, ", "))
}

func names(backends []Backend) []string {
	var list []string
	for _, b := range backends {
		list = append(list, b.Name())
	}
	return list
}

func text(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
