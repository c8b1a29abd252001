package matrix

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"time"

	"maunium.net/go/mautrix"

	"crosslay/bot/chat"
)

// revoked is what to do about a token that the server does not take any more.
const revoked = "the homeserver does not accept the access token any more (logged out, or the password was changed): run crosslay matrix login again"

// sentError is what a failed attempt to send says of the message: chat.ErrUnsure
// if it may have arrived, chat.ErrRefused if trying again does not help, a
// chat.Wait if the server asks for it; any other if it did not arrive.
func sentError(err error) error {
	if err == nil {
		return nil
	}
	if known := refusedOrWait(err); known != nil {
		return known
	}
	var dial *net.OpError
	if errors.As(err, &dial) && dial.Op == "dial" {
		return fmt.Errorf("the homeserver cannot be reached: %w", plainly(err))
	}
	return fmt.Errorf("%w: %w", chat.ErrUnsure, plainly(err))
}

// askedError is what a failed request that sent no message says of a message that
// it was made for: never that it may have arrived.
func askedError(doing string, err error) error {
	if err == nil {
		return nil
	}
	if known := refusedOrWait(err); known != nil {
		return fmt.Errorf("%s: %w", doing, known)
	}
	return fmt.Errorf("%s: %w", doing, plainly(err))
}

// refusedOrWait is the meaning of an answer that the server certainly gave
// instead of taking the message; nil for all others.
func refusedOrWait(err error) error {
	var answer mautrix.HTTPError
	if !errors.As(err, &answer) || answer.Response == nil {
		return nil
	}
	status := answer.Response.StatusCode
	switch {
	case status == http.StatusTooManyRequests || errors.Is(err, mautrix.MLimitExceeded):
		return chat.Wait{For: waitFor(answer)}
	case status == http.StatusUnauthorized:
		return errors.New(revoked)
	case status == http.StatusRequestTimeout, status < 400, status >= 500:
		return nil
	}
	return fmt.Errorf("%w: %w", chat.ErrRefused, plainly(err))
}

// waitFor is how long the server asks to be left alone: by its body, by its
// header, or for a while.
func waitFor(answer mautrix.HTTPError) time.Duration {
	if answer.RespError != nil {
		if ms, ok := answer.RespError.ExtraData["retry_after_ms"].(float64); ok && ms > 0 {
			return time.Duration(ms) * time.Millisecond
		}
	}
	if s, err := strconv.Atoi(answer.Response.Header.Get("Retry-After")); err == nil && s > 0 {
		return time.Duration(s) * time.Second
	}
	return 5 * time.Second
}

// plainly is an error without addresses and bodies, which may have secrets or
// people's words in them; what errors.Is finds in it stays.
func plainly(err error) error {
	var answer mautrix.HTTPError
	switch {
	case errors.As(err, &answer) && answer.RespError != nil:
		return fmt.Errorf("%s: %s", answer.RespError.ErrCode, answer.RespError.Err)
	case errors.As(err, &answer) && answer.Response != nil:
		return fmt.Errorf("the homeserver answers with status %d", answer.Response.StatusCode)
	case errors.Is(err, context.Canceled):
		return context.Canceled
	case errors.Is(err, context.DeadlineExceeded):
		return context.DeadlineExceeded
	}
	var op *net.OpError
	if errors.As(err, &op) {
		return op
	}
	return errors.New("the connection to the homeserver broke")
}

// isRevoked reports whether the server does not take the token any more.
func isRevoked(err error) bool {
	var answer mautrix.HTTPError
	return errors.Is(err, mautrix.MUnknownToken) || errors.Is(err, mautrix.MMissingToken) ||
		errors.As(err, &answer) && answer.Response != nil && answer.Response.StatusCode == http.StatusUnauthorized
}

// isGone reports whether what was asked for does not exist or is not for us.
func isGone(err error) bool {
	var answer mautrix.HTTPError
	return errors.As(err, &answer) && answer.Response != nil &&
		(answer.Response.StatusCode == http.StatusNotFound || answer.Response.StatusCode == http.StatusForbidden)
}
