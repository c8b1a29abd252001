package serve

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"
)

// Backlog is what waits in the database.
type Backlog struct {
	Outbox    int `json:"outbox"`    // messages that are not sent yet
	Parked    int `json:"parked"`    // events that could not be decided
	Uncertain int `json:"uncertain"` // messages that may or may not have arrived
}

// report is the body of /healthz.
type report struct {
	OK       bool    `json:"ok"`
	Up       float64 `json:"up_seconds"`
	InboxAge float64 `json:"inbox_age_seconds"` // how long the inbox has not been empty
	Backlog
	Error string `json:"error,omitempty"`
}

// stuck is how long the inbox may go on not being empty before the bot does not
// call itself healthy.
const stuck = time.Minute

// listen opens the health address and returns what serves it. Nobody but this
// machine gets to see it.
func (s *server) listen() (func(context.Context) error, error) {
	idle := func(ctx context.Context) error { <-ctx.Done(); return nil }
	if s.Health == "" {
		return idle, nil
	}
	if err := loopback(s.Health); err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp", s.Health)
	if err != nil {
		return nil, fmt.Errorf("health on %s: %w; choose another address with --health, or --health= for none", s.Health, err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", s.healthz)
	web := &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second}
	return func(ctx context.Context) error {
		stop := context.AfterFunc(ctx, func() { web.Close() })
		defer stop()
		if err := web.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	}, nil
}

func loopback(address string) error {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return fmt.Errorf("%q is no address for health; write it like 127.0.0.1:8640", address)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return fmt.Errorf("health answers on this machine alone: %q is not a loopback address", host)
	}
	return nil
}

func (s *server) healthz(w http.ResponseWriter, r *http.Request) {
	h := report{OK: true, Up: time.Since(s.began).Seconds()}
	if since := s.busy.Load(); since > 0 {
		h.InboxAge = time.Since(time.UnixMilli(since)).Seconds()
	}
	var err error
	if h.Backlog, err = s.Backlog(r.Context()); err != nil {
		h.Error = err.Error()
	}
	h.OK = err == nil && h.InboxAge < stuck.Seconds()
	w.Header().Set("Content-Type", "application/json")
	if !h.OK {
		w.WriteHeader(http.StatusServiceUnavailable)
	}
	_ = json.NewEncoder(w).Encode(h) // the one who asked may be gone
}
