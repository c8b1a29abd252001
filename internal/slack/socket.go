package slack

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/gorilla/websocket"
)

// What a connection is given.
const (
	greeting = 10 * time.Second // for the hello
	silence  = time.Minute      // without a ping or a word: it is dead
	writing  = 5 * time.Second  // for an acknowledgement
)

// sockets keeps a Socket Mode connection open. Slack ends each one now and then,
// and says so; whatever ends it, no two are opened within the limit of one a
// minute, and what does not get better is tried less and less often.
func (b *Backend) sockets(ctx context.Context, d *door) error {
	failures := 0
	for ctx.Err() == nil {
		began := time.Now()
		greeted, err := b.connection(ctx, d)
		if ctx.Err() != nil {
			break
		}
		b.report(err)
		failures++
		if greeted {
			failures = 0
		}
		pause := reconnect(err, failures, time.Since(began), b.cfg.Limits.Connect)
		if err := sleep(ctx, pause); err != nil {
			break
		}
	}
	return ctx.Err()
}

// reconnect is the pause before the next connection. What is wrong with the app
// itself will not pass in a minute.
func reconnect(err error, failures int, lasted, least time.Duration) time.Duration {
	pause := max(0, least-lasted)
	switch {
	case errors.Is(err, errDisabled), isLocked(err):
		pause = max(pause, backoff(10))
	case failures > 0:
		pause = max(pause, backoff(failures-1))
	}
	if wait, ok := asked(err); ok {
		pause = max(pause, wait)
	}
	return pause
}

// errDisabled means that somebody switched Socket Mode off for the app.
var errDisabled = errors.New("the app's Socket Mode is switched off; switch it on under Socket Mode in the app's settings")

// connection lives through one connection: nil when Slack asked for another, and
// whether it was greeted.
func (b *Backend) connection(ctx context.Context, d *door) (greeted bool, err error) {
	conn, err := b.dial(ctx)
	if err != nil {
		return false, err
	}
	defer conn.Close()
	defer context.AfterFunc(ctx, func() { conn.Close() })()
	conn.SetReadLimit(mostBody)
	until := func(d time.Duration) { _ = conn.SetReadDeadline(time.Now().Add(d)) } // what is broken shows at the next read
	conn.SetPingHandler(func(data string) error {
		until(silence)
		return conn.WriteControl(websocket.PongMessage, []byte(data), time.Now().Add(writing))
	})
	until(greeting)
	for {
		var env envelope
		if err := conn.ReadJSON(&env); err != nil {
			if broken(err) {
				return greeted, fmt.Errorf("the connection to Slack broke: %w", err)
			}
			b.report(fmt.Errorf("a message of Slack cannot be read: %w", err))
			continue
		}
		until(silence)
		switch env.Type {
		case "hello":
			greeted = true
			b.begin(ctx, d)
		case "disconnect":
			return greeted, disconnected(env.Reason)
		default:
			b.hear(ctx, d, conn, env)
		}
	}
}

// broken reports whether a connection gives nothing more, as against one message
// that is not JSON.
func broken(err error) bool {
	var syntax *json.SyntaxError
	var shape *json.UnmarshalTypeError
	return !errors.As(err, &syntax) && !errors.As(err, &shape)
}

func (b *Backend) dial(ctx context.Context) (*websocket.Conn, error) {
	_, address, err := b.api.StartSocketModeContext(ctx)
	if err != nil {
		return nil, fmt.Errorf("open a connection: %w", answerOf(err))
	}
	conn, answer, err := b.cfg.Dialer.DialContext(ctx, address, nil)
	if answer != nil && answer.Body != nil {
		answer.Body.Close()
	}
	if err != nil {
		return nil, fmt.Errorf("connect to Slack: %w", err)
	}
	return conn, nil
}

func disconnected(reason string) error {
	switch reason {
	case "link_disabled":
		return errDisabled
	case "warning", "refresh_requested", "":
		return nil
	}
	return fmt.Errorf("the connection was ended by Slack: %s", reason)
}

// hear takes one envelope in and acknowledges it, once it is stored. One of a
// sort that is not known is acknowledged too, or it would come for ever.
func (b *Backend) hear(ctx context.Context, d *door, conn *websocket.Conn, env envelope) {
	if env.ID == "" {
		return
	}
	answer, err := d.take(ctx, env.Type, env.Payload)
	if err != nil {
		b.report(err) // not acknowledged: Slack will deliver it again
		return
	}
	ack := map[string]any{"envelope_id": env.ID}
	if answer != nil {
		ack["payload"] = answer
	}
	if err := conn.SetWriteDeadline(time.Now().Add(writing)); err != nil {
		b.report(fmt.Errorf("acknowledge: %w", err))
		return
	}
	if err := conn.WriteJSON(ack); err != nil {
		b.report(fmt.Errorf("acknowledge: %w", err))
	}
}
