package bot

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/rota"
)

// Setup is a department as its file states it. It is replaced as a whole.
type Setup struct {
	Dept    *dept.Department
	Book    check.Book
	Rota    rota.Rota
	Ladders nag.Book

	called *reply.Names // what officers call things, made once
}

// Engine runs Decide over a Store. Its methods may be called from several
// goroutines, Work from one only.
type Engine struct {
	Store Store
	setup atomic.Pointer[Setup]
}

// New makes an engine for a department.
func New(store Store, setup Setup) *Engine {
	e := &Engine{Store: store}
	e.take(setup)
	return e
}

func (e *Engine) take(setup Setup) {
	called := names(setup).Ready()
	setup.called = &called
	e.setup.Store(&setup)
}

// Setup is the department as it stands.
func (e *Engine) Setup() Setup { return *e.setup.Load() }

// Replace takes up a changed department. The next decision uses it; tell says
// what to tell the officers about it, "" for nothing.
func (e *Engine) Replace(ctx context.Context, setup Setup, now time.Time, tell string) error {
	e.take(setup)
	return e.Note(ctx, chat.Reloaded, now, tell)
}

// Note puts an event of crosslay's own into the inbox: Started, Reloaded.
func (e *Engine) Note(ctx context.Context, kind chat.Kind, now time.Time, text string) error {
	ev := chat.Event{Backend: "crosslay", ID: fmt.Sprintf("%s/%d", kind, now.UnixMilli()), Kind: kind, Said: now, Arrived: now, Text: text}
	_, err := e.Store.Receive(ctx, ev.Backend, chat.Batch{Events: []chat.Event{ev}})
	return err
}

// Wake puts a tick into the inbox for every scope whose planned instant has
// come. A second call for the same instant is harmless: the tick's id is the
// scope and the instant.
func (e *Engine) Wake(ctx context.Context, now time.Time) (int, error) {
	wakes, err := e.Store.Wakes(ctx, now)
	if err != nil || len(wakes) == 0 {
		return 0, err
	}
	var batch chat.Batch
	for _, w := range wakes {
		batch.Events = append(batch.Events, chat.Event{
			Backend: "clock", ID: tickID(w, now),
			Kind: chat.Tick, Said: w.At, Arrived: now, Scope: w.Scope,
		})
	}
	return e.Store.Receive(ctx, "clock", batch)
}

// tickID names a tick by its scope and planned instant. A tick that could not be
// handled leaves its instant standing: a minute later it is tried anew.
func tickID(w Wake, now time.Time) string {
	id := fmt.Sprintf("%s/%s", w.Scope, w.At.UTC().Format("2006-01-02T15:04:05.000Z"))
	if late := now.Sub(w.At).Truncate(time.Minute); late > 0 {
		id += "/" + late.String()
	}
	return id
}

// Work decides the oldest event that is not handled; false if there is none.
func (e *Engine) Work(ctx context.Context) (bool, error) {
	setup := e.Setup()
	return e.Store.Decide(ctx, func(tx Tx, ev chat.Event) (out Outcome, err error) {
		defer func() { // one event that cannot be handled must not stop the others
			if p := recover(); p != nil {
				out, err = Outcome{}, fmt.Errorf("decide %s %s/%s: %v", ev.Kind, ev.Backend, ev.ID, p)
			}
		}()
		snap, err := look(setup, tx, ev)
		if err != nil {
			return Outcome{}, fmt.Errorf("look up %s %s/%s: %w", ev.Kind, ev.Backend, ev.ID, err)
		}
		return Decide(setup, snap, ev), nil
	})
}
