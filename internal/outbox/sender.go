package outbox

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"crosslay/bot/chat"
)

// Options of a Sender; the zero value has sensible ones.
type Options struct {
	// Now is the clock of Run. Step is handed its time instead.
	Now func() time.Time
	// Settle is how long a service is given to show what it may have taken,
	// before it is searched.
	Settle time.Duration
	// Backoff is the first pause after an error; it doubles up to Longest.
	Backoff, Longest time.Duration
	// Timeout ends one attempt; the message is then in doubt.
	Timeout time.Duration
	// Workers is how many rooms Run serves at a time.
	Workers int
	// Report hears of every error that Run survives, and of what was refused or
	// became uncertain.
	Report func(error)
	// Sent is called after a message was settled as sent; the inbox may hold an
	// event about it then. It must not block, nor take a step.
	Sent func(chat.Key)
	// Paint draws the pictures whose source has the draw: scheme, right before
	// they are sent. Without it, and where it fails, a message goes without them.
	Paint Painter
}

// Sender works through a queue.
type Sender struct {
	queue   Queue
	posters map[string]Poster
	opt     Options
	kick    chan struct{}

	mu        sync.Mutex
	recovered bool
	owed      map[chat.Key]Verdict // what the queue could not be told yet
}

// New makes a sender of the queue to the backends by name.
func New(q Queue, posters map[string]Poster, opt Options) *Sender {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Report == nil {
		opt.Report = func(error) {}
	}
	if opt.Sent == nil {
		opt.Sent = func(chat.Key) {}
	}
	opt.Settle = cmp.Or(opt.Settle, 3*time.Second)
	opt.Backoff = cmp.Or(opt.Backoff, 2*time.Second)
	opt.Longest = cmp.Or(opt.Longest, 5*time.Minute)
	opt.Timeout = cmp.Or(opt.Timeout, time.Minute)
	opt.Workers = cmp.Or(opt.Workers, 4)
	return &Sender{queue: q, posters: posters, opt: opt, kick: make(chan struct{}, 1), owed: map[chat.Key]Verdict{}}
}

// Kick tells Run that there may be something to send. It never blocks.
func (s *Sender) Kick() {
	select {
	case s.kick <- struct{}{}:
	default:
	}
}

// Next is the earliest instant at which Step would find work; zero if none
// waits for time alone.
func (s *Sender) Next(ctx context.Context) (time.Time, error) {
	if err := s.recover(ctx); err != nil {
		return time.Time{}, err
	}
	return s.queue.Next(ctx)
}

// Step does one piece of work, and reports whether there was one. Its error is
// the queue's; what a service answers goes into the queue. Steps may run at the
// same time: the queue gives no two of them the same room.
func (s *Sender) Step(ctx context.Context, now time.Time) (bool, error) {
	if err := s.recover(ctx); err != nil {
		return false, err
	}
	job, ok, err := s.queue.Claim(ctx, now)
	if err != nil || !ok {
		return false, err
	}
	s.Kick() // another worker may look for more while this one is busy
	within, cancel := context.WithTimeout(ctx, s.opt.Timeout)
	defer cancel()
	v := s.carry(within, job, now)
	v.Now = now
	s.tell(job, v)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.owed[job.Message.Key] = v
	// What is known now must be written even while shutting down.
	return true, s.pay(context.WithoutCancel(ctx))
}

// pay tells the queue what became of the jobs. What it cannot be told, because
// the disk is full, is kept for the next step: the message would count as in
// flight for ever.
func (s *Sender) pay(ctx context.Context) error {
	for key, v := range s.owed {
		err := s.queue.Settle(ctx, key, v)
		if err == nil || errors.Is(err, ErrNotClaimed) {
			delete(s.owed, key)
		}
		if err != nil {
			return fmt.Errorf("settle %s: %w", key, err)
		}
		if v.State == Sent {
			s.opt.Sent(key)
		}
	}
	return nil
}

// recover does once what comes before the first claim, and pays what is owed.
func (s *Sender) recover(ctx context.Context) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.recovered {
		return s.pay(ctx)
	}
	if _, err := s.queue.Recover(ctx); err != nil {
		return err
	}
	s.recovered = true
	return nil
}

// carry takes a job to its backend, after any doubt about it is settled.
func (s *Sender) carry(ctx context.Context, job Job, now time.Time) Verdict {
	poster, ok := s.posters[job.Place.Backend]
	if !ok {
		return s.later(job, now, fmt.Errorf("no backend %q is set up", job.Place.Backend))
	}
	message, err := s.painted(ctx, job.Message) // before any search, which may complete what arrived in part
	if err != nil {
		s.opt.Report(err)
	}
	job.Message = message
	if job.Doubt {
		if v, settled := s.settle(ctx, poster, job, now); settled {
			return v
		}
	}
	ref, err := poster.Post(ctx, job.Message, job.Place, job.Target)
	if err == nil {
		return Verdict{State: Sent, Ref: ref}
	}
	return s.failed(poster, job, now, err)
}

// settle settles the doubt about a job; not settled means that it is to be sent.
func (s *Sender) settle(ctx context.Context, p Poster, job Job, now time.Time) (Verdict, bool) {
	if job.Target != "" || keyed(p) {
		return Verdict{}, false // showing it again changes nothing
	}
	finder, ok := p.(Finder)
	if !ok {
		return unknowable("the connection or the bot broke off while it was sent"), true
	}
	if ready := job.Last.Add(s.opt.Settle); now.Before(ready) {
		return Verdict{State: Sending, Next: ready, Last: job.Last}, true
	}
	ref, found, err := finder.Find(ctx, job.Message, job.Place, job.First.Add(-clocks))
	switch {
	case err != nil:
		v := s.later(job, now, fmt.Errorf("search for it: %w", err))
		v.State, v.Last = Sending, job.Last
		return v, true
	case found:
		return Verdict{State: Sent, Ref: ref}, true
	}
	return Verdict{}, false
}

// clocks is by how much a service's clock may differ from ours.
const clocks = 10 * time.Minute

// failed is the verdict on a message that Post did not show for certain. A
// context that ends in mid-air is no better than a broken connection.
func (s *Sender) failed(p Poster, job Job, now time.Time, err error) Verdict {
	switch {
	case errors.Is(err, chat.ErrRefused):
		return Verdict{State: Refused, Reason: err.Error()}
	case errors.Is(err, chat.ErrUnsure), errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		_, finds := p.(Finder)
		if !finds && !keyed(p) && job.Target == "" {
			return unknowable(err.Error())
		}
		v := s.later(job, now, err)
		v.State = Sending
		if ready := now.Add(s.opt.Settle); finds && v.Next.Before(ready) {
			v.Next = ready
		}
		return v
	}
	return s.later(job, now, err)
}

func unknowable(why string) Verdict { return Verdict{State: Uncertain, Reason: why} }

// later leaves the room alone for as long as the service asks, or else for a
// while that doubles with every try.
func (s *Sender) later(job Job, now time.Time, err error) Verdict {
	pause := s.opt.Backoff << min(job.Tries, 16)
	pause = min(pause, s.opt.Longest)
	if wait := (chat.Wait{}); errors.As(err, &wait) {
		pause = max(wait.For, time.Millisecond)
	}
	return Verdict{State: Ready, Next: now.Add(pause), Reason: err.Error()}
}

func keyed(p Poster) bool {
	k, ok := p.(Keyed)
	return ok && k.Keyed()
}

// tell reports what an operator should hear of.
func (s *Sender) tell(job Job, v Verdict) {
	if v.State == Sent || v.Reason == "" {
		return
	}
	s.opt.Report(&Trouble{Key: job.Message.Key, Place: job.Place, State: v.State, Reason: v.Reason})
}

// Trouble is what kept a message from being sent.
type Trouble struct {
	Key    chat.Key
	Place  chat.Place
	State  State
	Reason string
}

func (t *Trouble) Error() string {
	what := "is tried again"
	switch t.State {
	case Refused:
		what = "was refused"
	case Uncertain:
		what = "may or may not have arrived; look, and resolve it"
	}
	return fmt.Sprintf("%s to %s %s %s: %s", t.Key, t.Place.Backend, t.Place.Room, what, t.Reason)
}

// Run sends until the context ends, to several rooms at a time. It wakes when
// kicked, and when a room need not be left alone any longer.
func (s *Sender) Run(ctx context.Context) error {
	var workers sync.WaitGroup
	for range s.opt.Workers {
		workers.Go(func() { s.work(ctx) })
	}
	workers.Wait()
	return ctx.Err()
}

func (s *Sender) work(ctx context.Context) {
	for ctx.Err() == nil {
		worked, err := s.Step(ctx, s.opt.Now())
		if worked && err == nil {
			continue
		}
		if err != nil && ctx.Err() == nil {
			s.opt.Report(err)
		}
		s.rest(ctx, err != nil)
	}
}

// rest waits for the next thing to do; after trouble with the queue, for a pause.
func (s *Sender) rest(ctx context.Context, trouble bool) {
	pause := s.opt.Longest
	if trouble {
		pause = s.opt.Backoff
	} else if next, err := s.queue.Next(ctx); err == nil && !next.IsZero() {
		pause = min(pause, next.Sub(s.opt.Now()))
	}
	timer := time.NewTimer(max(pause, time.Millisecond))
	defer timer.Stop()
	select {
	case <-ctx.Done():
	case <-timer.C:
	case <-s.kick:
	}
}
