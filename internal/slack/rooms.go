package slack

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// rooms finds the channel that an address of the department file means: an id, or
// a name with a #, which is looked up once.
type rooms struct {
	api  *api.Client
	pace *pace

	mu     sync.Mutex
	ids    map[string]string // by "#name"
	listed time.Time
}

// id is the channel of an address. A name that no channel has is refused, with
// what to do about it.
func (r *rooms) id(ctx context.Context, address string) (string, error) {
	if id, ok := r.cached(address); ok {
		return id, nil
	}
	if err := r.list(ctx); err != nil {
		return "", err
	}
	if id, ok := r.known(address); ok {
		return id, nil
	}
	return "", fmt.Errorf("no channel is called %s, or it is private and the app was not invited: %w", address, chat.ErrRefused)
}

// cached is the channel of an address as far as it is known already.
func (r *rooms) cached(address string) (string, bool) {
	if !strings.HasPrefix(address, "#") {
		return address, true
	}
	return r.known(address)
}

func (r *rooms) known(address string) (string, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	id, ok := r.ids[strings.ToLower(address)]
	return id, ok
}

// address is what the department file calls a channel: its id, or the name that it
// has. Names that are new in the file are looked up, if that can be done in time.
func (r *rooms) address(ctx context.Context, id string, addresses []string) string {
	if slices.Contains(addresses, id) {
		return id
	}
	if a, ok := r.named(id, addresses); ok {
		return a
	}
	fresh := func(a string) bool { _, ok := r.known(a); return strings.HasPrefix(a, "#") && !ok }
	if slices.ContainsFunc(addresses, fresh) {
		ctx, cancel := context.WithTimeout(ctx, hurry)
		defer cancel()
		if r.list(ctx) == nil {
			if a, ok := r.named(id, addresses); ok {
				return a
			}
		}
	}
	return id
}

func (r *rooms) named(id string, addresses []string) (string, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for _, a := range addresses {
		if r.ids[strings.ToLower(a)] == id {
			return a, true
		}
	}
	return "", false
}

// again is the least time between two looks at the list of channels.
const again = time.Minute

// list looks up all channels by name.
func (r *rooms) list(ctx context.Context) error {
	r.mu.Lock()
	fresh := !r.listed.IsZero() && time.Since(r.listed) < again
	r.mu.Unlock()
	if fresh {
		return nil
	}
	found := map[string]string{}
	err := eachChannel(ctx, r.api, r.pace, func(c api.Channel) { found["#"+strings.ToLower(c.Name)] = c.ID })
	if err != nil {
		return explainRead("list the channels", err)
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.ids, r.listed = found, time.Now()
	return nil
}

// eachChannel goes through the channels that the app can see, archived ones left
// out.
func eachChannel(ctx context.Context, client *api.Client, pace *pace, f func(api.Channel)) error {
	const method = "conversations.list"
	params := &api.GetConversationsParameters{Types: []string{"public_channel", "private_channel"}, ExcludeArchived: true, Limit: 500}
	for {
		if err := pace.wait(ctx, method, ""); err != nil {
			return err
		}
		page, next, err := client.GetConversationsContext(ctx, params)
		if err != nil {
			pace.heed(method, err)
			return err
		}
		for _, c := range page {
			f(c)
		}
		if next == "" {
			return nil
		}
		params.Cursor = next
	}
}

// people knows how Slack shows its users.
type people struct {
	api  *api.Client
	pace *pace

	mu    sync.Mutex
	names map[string]known
}

type known struct {
	name  string
	until time.Time // when to ask again
}

// hurry is the longest that an event waits for its author's name.
const hurry = 500 * time.Millisecond

// called is how a user is shown; the id where Slack does not say in time.
func (p *people) called(ctx context.Context, user string) string {
	p.mu.Lock()
	k, ok := p.names[user]
	p.mu.Unlock()
	if ok && time.Now().Before(k.until) {
		return k.name
	}
	k = known{user, time.Now().Add(10 * time.Minute)}
	if name, err := p.ask(ctx, user); err == nil && name != "" {
		k = known{name, time.Now().Add(24 * time.Hour)}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.names[user] = k
	return k.name
}

func (p *people) ask(ctx context.Context, user string) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, hurry)
	defer cancel()
	const method = "users.info"
	if err := p.pace.wait(ctx, method, ""); err != nil {
		return "", err
	}
	u, err := p.api.GetUserInfoContext(ctx, user)
	if err != nil {
		p.pace.heed(method, err)
		return "", err
	}
	for _, name := range []string{u.Profile.DisplayName, u.RealName, u.Profile.RealName, u.Name} {
		if name != "" {
			return name, nil
		}
	}
	return "", nil
}
