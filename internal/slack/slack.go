package slack

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// Name is what department files call the backend.
const Name = "slack"

// Config is what a Backend is made of.
type Config struct {
	Tokens Tokens
	// Rooms lists the addresses of the rooms on Slack as the department file states
	// them now: channel ids, or names with a #.
	Rooms func() []string
	// Bookmark gives back what was stored under a name with a batch's Cursors.
	Bookmark func(ctx context.Context, name string) (string, error)
	// Listen is the address at which Slack's signed HTTP requests are taken; empty
	// for Socket Mode.
	Listen string
	// Report hears of trouble that the backend lives through. Its errors have no
	// secrets.
	Report func(error)

	URL    string            // of the Web API; Slack's own if empty
	HTTP   *http.Client      // if nil, one with a time-out
	Dialer *websocket.Dialer // if nil, the usual one
	Limits Limits            // Published if zero
}

// Receive takes in what was heard; it is durable when it returns nil.
type Receive = func(ctx context.Context, batch chat.Batch) error

// Backend speaks with one workspace.
type Backend struct {
	cfg    Config
	api    *api.Client
	pace   *pace
	rooms  *rooms
	people *people

	uploads sync.Mutex
	carried map[chat.Key]*carried // pictures on their way

	waiting  atomic.Bool // a catch-up is to begin
	catching sync.Mutex
	door     sync.Mutex // one event at a time, whichever way it comes in
}

// callTimeout ends one call to Slack.
const callTimeout = 30 * time.Second

// New makes a backend. Nothing is asked of Slack before Run or Post.
func New(cfg Config) (*Backend, error) {
	if cfg.URL == "" && testing.Testing() {
		return nil, errors.New("a test must name the address of its own Slack")
	}
	if err := cfg.Tokens.enough(""); err != nil {
		return nil, err
	}
	if cfg.HTTP == nil && !private(cfg.URL) {
		return nil, errors.New("the address of Slack's Web API must begin with https://, or the tokens could be read on the way")
	}
	if cfg.Listen != "" && cfg.Tokens.Signing == "" {
		return nil, fmt.Errorf("requests at %s cannot be told from forged ones without the signing secret (%s)", cfg.Listen, kept[2].env)
	}
	if cfg.Listen == "" && cfg.Tokens.App == "" {
		return nil, fmt.Errorf("the app token is missing (%s), which Socket Mode needs", kept[1].env)
	}
	cfg.fill()
	options := []api.Option{api.OptionAppLevelToken(cfg.Tokens.App), api.OptionHTTPClient(cfg.HTTP)}
	if cfg.URL != "" {
		options = append(options, api.OptionAPIURL(strings.TrimSuffix(cfg.URL, "/")+"/"))
	}
	b := &Backend{cfg: cfg, api: api.New(cfg.Tokens.Bot, options...), pace: newPace(cfg.Limits),
		carried: map[chat.Key]*carried{}}
	b.rooms = &rooms{api: b.api, pace: b.pace, ids: map[string]string{}}
	b.people = &people{api: b.api, pace: b.pace, names: map[string]known{}}
	return b, nil
}

// private reports whether nobody on the way reads what is sent to an address.
func private(address string) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	ip := net.ParseIP(u.Hostname())
	return address == "" || u.Scheme == "https" || u.Hostname() == "localhost" || ip != nil && ip.IsLoopback()
}

func (c *Config) fill() {
	if c.HTTP == nil {
		c.HTTP = &http.Client{Timeout: callTimeout}
	}
	if c.Dialer == nil {
		c.Dialer = &websocket.Dialer{Proxy: http.ProxyFromEnvironment, HandshakeTimeout: 10 * time.Second}
	}
	if c.Limits == (Limits{}) {
		c.Limits = Published
	}
	if c.Report == nil {
		c.Report = func(error) {}
	}
	if c.Rooms == nil {
		c.Rooms = func() []string { return nil }
	}
	if c.Bookmark == nil {
		c.Bookmark = func(context.Context, string) (string, error) { return "", nil }
	}
}

// Name is what department files call the backend.
func (b *Backend) Name() string { return Name }

func (b *Backend) report(err error) {
	if err != nil {
		b.cfg.Report(b.cfg.Tokens.scrub(err))
	}
}
