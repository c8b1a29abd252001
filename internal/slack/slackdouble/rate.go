package slackdouble

import (
	"fmt"
	"slices"
	"time"
)

// tier is how many calls of a method are taken in which span. The figures are the
// least that the documentation grants.
type tier struct {
	n    int
	span time.Duration
}

var (
	// tier1 is one a minute; "a small amount of burst behavior is tolerated" is
	// read as three at once, refilled at one a minute. MEMORY
	tier1   = tier{3, 3 * time.Minute}
	tier2   = tier{20, time.Minute}
	tier3   = tier{50, time.Minute}
	tier4   = tier{100, time.Minute}
	special = tier{300, time.Minute} // "hundreds a minute"
)

// workspacePosts is the limit on all posts of an app: "several hundred messages
// per minute". MEMORY: the figure is ours.
var workspacePosts = tier{300, time.Minute}

// bucket holds the calls of a span, and how long a client was told to wait.
type bucket struct {
	taken []time.Time
	until time.Time
}

// take counts a call, or says how long to wait for the next.
func (b *bucket) take(now time.Time, t tier) (wait time.Duration) {
	b.taken = slices.DeleteFunc(b.taken, func(at time.Time) bool { return now.Sub(at) >= t.span })
	if len(b.taken) < t.n {
		b.taken = append(b.taken, now)
		return 0
	}
	return t.span - now.Sub(b.taken[len(b.taken)-t.n])
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
	return []string{fmt.Sprintf("%s in %s", c.method.name, c.args["channel"]), "posts"}
}

func (w *Workspace) tierOf(m *method, key string) tier {
	switch n := w.opts.PerMinute[m.name]; {
	case key == "posts":
		return workspacePosts
	case m.posts:
		return tier{w.opts.PostBurst, w.opts.PostEvery}
	case n > 0:
		return tier{n, time.Minute}
	default:
		return m.tier
	}
}
