package slackdouble

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// tier is how many calls of a method are taken in which span. The figures are the
// least that the documentation grants. A call frees its place after the span, or,
// with drip, places become free one by one.
type tier struct {
	n    int
	span time.Duration
	drip bool
}

var (
	// tier1 is one a minute; "a small amount of burst behavior is tolerated" is
	// read as three at once. MEMORY
	tier1   = tier{n: 3, span: 3 * time.Minute, drip: true}
	tier2   = tier{n: 20, span: time.Minute}
	tier3   = tier{n: 50, span: time.Minute}
	tier4   = tier{n: 100, span: time.Minute}
	special = tier{n: 300, span: time.Minute} // "hundreds a minute"
)

// workspacePosts is the limit on all posts of an app: "several hundred messages
// per minute". MEMORY: the figure is ours.
var workspacePosts = tier{n: 300, span: time.Minute}

// bucket holds when the places of recent calls become free, and how long a client
// was told to wait.
type bucket struct {
	free  []time.Time
	until time.Time
}

// take counts a call, or says how long to wait for the next.
func (b *bucket) take(now time.Time, t tier) (wait time.Duration) {
	b.free = slices.DeleteFunc(b.free, func(at time.Time) bool { return !now.Before(at) })
	if len(b.free) >= t.n {
		return b.free[0].Sub(now)
	}
	at := now.Add(t.span)
	if t.drip {
		at = now.Add(t.span / time.Duration(t.n))
		if i := len(b.free); i > 0 {
			at = b.free[i-1].Add(t.span / time.Duration(t.n))
		}
	}
	b.free = append(b.free, at)
	return 0
}

// limit decides whether a call may go on. A client that comes back before the end
// of its wait breaks a rule and waits on.
func (w *Workspace) limit(c *call) (wait time.Duration) {
	now := time.Now()
	for _, key := range c.bucketKeys() {
		b := w.bucket(key)
		if left := b.until.Sub(now); left > 0 {
			w.blame(RateIgnored, c.method.name, "%s too early for %s", left.Round(time.Millisecond), key)
			return left
		}
	}
	for _, key := range c.bucketKeys() {
		if wait := w.bucket(key).take(now, w.tierOf(c.method, key)); wait > 0 {
			w.closeFor(key, wait)
			return wait
		}
	}
	return 0
}

// closeFor notes that the client was told to wait. The answer says whole seconds,
// so that is what has to be waited.
func (w *Workspace) closeFor(key string, wait time.Duration) {
	w.bucket(key).until = time.Now().Add(time.Duration(seconds(wait)) * time.Second)
}

func (w *Workspace) bucket(key string) *bucket {
	if w.buckets[key] == nil {
		w.buckets[key] = &bucket{}
	}
	return w.buckets[key]
}

// bucketKeys are the limits that a call counts against, the narrowest first.
func (c *call) bucketKeys() []string {
	if !c.method.posts {
		return []string{c.method.name}
	}
	return []string{fmt.Sprintf("%s in %s", c.method.name, c.room()), "posts"}
}

// room is the channel that a post goes to, by its id if it has one yet.
func (c *call) room() string {
	named := c.args["channel"]
	for _, ch := range c.channels {
		if ch.with == named && named != "" || ch.name == strings.TrimPrefix(named, "#") && ch.name != "" {
			return ch.id
		}
	}
	return named
}

func (w *Workspace) tierOf(m *method, key string) tier {
	switch n := w.opts.PerMinute[m.name]; {
	case key == "posts" && n > 0:
		return tier{n: n, span: time.Minute}
	case key == "posts":
		return workspacePosts
	case m.posts:
		return tier{n: w.opts.PostBurst, span: w.opts.PostEvery}
	case n > 0:
		return tier{n: n, span: time.Minute}
	default:
		return m.tier
	}
}
