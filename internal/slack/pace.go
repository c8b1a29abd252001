package slack

import (
	"context"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"crosslay/bot/chat"
)

// Limits are how fast the backend goes, by Slack's published tiers with some air.
type Limits struct {
	Channel   time.Duration // between two posts to one channel
	Workspace time.Duration // between two calls of any kind
	Connect   time.Duration // between two connections
}

// Published are the limits that Slack publishes: about one post a second and
// channel, a few hundred a minute in all, one new connection a minute.
var Published = Limits{Channel: 1050 * time.Millisecond, Workspace: 200 * time.Millisecond, Connect: time.Minute}

// tiers are the calls a minute that Slack takes of a method. Methods that are not
// here are bound by the workspace's limit alone.
var tiers = map[string]int{
	"chat.update": 50, "conversations.history": 50, "conversations.replies": 50, "conversations.info": 50, "conversations.list": 20,
	"users.info": 100, "files.getUploadURLExternal": 100, "files.completeUploadExternal": 100, "files.info": 50,
	"auth.test": 100,
}

// patience is the longest pause that a caller sits out; a longer one is told to
// the outbox, which leaves the room alone meanwhile.
const patience = 10 * time.Second

// pace keeps to the limits, and to what Slack asks beyond them.
type pace struct {
	limits Limits

	mu       sync.Mutex
	all      *rate.Limiter
	channels map[string]*rate.Limiter
	methods  map[string]*rate.Limiter
	until    map[string]time.Time // methods that Slack wants to be left alone
}

func newPace(l Limits) *pace {
	return &pace{limits: l, all: rate.NewLimiter(rate.Every(l.Workspace), 5), channels: map[string]*rate.Limiter{},
		methods: map[string]*rate.Limiter{}, until: map[string]time.Time{}}
}

// wait waits for the turn of a call; channel is "" unless it posts. The error is
// chat.Wait if the turn is far off, or the context's.
func (p *pace) wait(ctx context.Context, method, channel string) error {
	if err := p.sitOut(ctx, method); err != nil {
		return err
	}
	for _, l := range p.buckets(method, channel) {
		if err := l.Wait(ctx); err != nil {
			return err
		}
	}
	return p.sitOut(ctx, method) // somebody else may have been told to wait meanwhile
}

// sitOut sits out what Slack asked to wait before a method is called again.
func (p *pace) sitOut(ctx context.Context, method string) error {
	left := p.left(method)
	if left > patience {
		return chat.Wait{For: left}
	}
	return sleep(ctx, left)
}

func (p *pace) left(method string) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	return time.Until(p.until[method])
}

func (p *pace) buckets(method, channel string) []*rate.Limiter {
	p.mu.Lock()
	defer p.mu.Unlock()
	var list []*rate.Limiter
	if channel != "" {
		if p.channels[channel] == nil {
			p.channels[channel] = rate.NewLimiter(rate.Every(p.limits.Channel), 1)
		}
		list = append(list, p.channels[channel])
	}
	if n := tiers[method]; n > 0 {
		if p.methods[method] == nil {
			const burst = 4 // with the rate below, a minute never sees more than n
			p.methods[method] = rate.NewLimiter(rate.Every(time.Minute/time.Duration(n-burst)), burst)
		}
		list = append(list, p.methods[method])
	}
	return append(list, p.all)
}

// heed notes what Slack asked for in an answer.
func (p *pace) heed(method string, err error) {
	wait, ok := asked(err)
	if !ok {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if until := time.Now().Add(wait); until.After(p.until[method]) {
		p.until[method] = until
	}
}

// sleep waits, or returns the context's error.
func sleep(ctx context.Context, d time.Duration) error {
	if d <= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return nil
	}
}
