package slack

import (
	"context"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// Codes of Slack's errors, by what they mean for a message.
var (
	// passing means that Slack is in trouble itself; it may have done the deed.
	passing = []string{"internal_error", "fatal_error", "service_unavailable", "request_timeout", "team_added_to_org", "accesslimited"}
	// locked means that the app has no access any more. No message is to blame:
	// they wait until somebody has put it right.
	locked = []string{
		"invalid_auth", "not_authed", "account_inactive", "token_revoked", "token_expired", "missing_scope", "no_permission",
		"org_login_required", "ekm_access_denied", "not_allowed_token_type", "team_access_not_granted", "access_denied",
		"enterprise_is_restricted", "two_factor_setup_required",
	}
	busy = []string{"ratelimited", "rate_limited", "message_limit_exceeded"}
)

// remedy is what to do about a code, in a sentence for the operator.
var remedy = map[string]string{
	"not_in_channel":    "invite the app to the channel: /invite @crosslay",
	"channel_not_found": "the channel is not there, or is private and the app was not invited; write its id (C...) as the room's address",
	"is_archived":       "the channel is archived; unarchive it, or give the room another address",
	"invalid_auth":      "the token is not valid; install the app again and put the new token in place",
	"token_revoked":     "the token was revoked; install the app again and put the new token in place",
	"account_inactive":  "the app was removed from the workspace; install it again",
	"missing_scope":     "the app lacks a scope; crosslay vet --online says which, and the manifest in config has them all",
	"restricted_action": "the workspace's settings keep the app from posting there",
}

// pauseWithout is how long Slack is left alone when it asks for it without saying
// how long.
const pauseWithout = 30 * time.Second

// explain translates what a call that shows something came back with: chat.Wait,
// chat.ErrRefused, chat.ErrUnsure, or an error that says the message did not
// arrive.
func explain(deed string, err error) error {
	if err == nil {
		return nil
	}
	if wait, ok := asked(err); ok {
		return fmt.Errorf("%s: %w", deed, chat.Wait{For: wait})
	}
	var answer api.SlackErrorResponse
	var status api.StatusCodeError
	switch {
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("%s: %w: %w", deed, err, chat.ErrUnsure)
	case errors.As(err, &answer):
		return fmt.Errorf("%s: %w", deed, ofCode(answer))
	case errors.As(err, &status):
		if status.Code >= http.StatusInternalServerError {
			return fmt.Errorf("%s: Slack answers %s: %w", deed, status.Status, chat.ErrUnsure)
		}
		return fmt.Errorf("%s: Slack answers %s", deed, status.Status)
	case neverLeft(err):
		return fmt.Errorf("%s: %w", deed, err)
	}
	return fmt.Errorf("%s: %w: %w", deed, err, chat.ErrUnsure)
}

// asked is how long Slack wants to be left alone. It says so in three shapes.
func asked(err error) (time.Duration, bool) {
	var limited *api.RateLimitedError
	var status api.StatusCodeError
	var answer api.SlackErrorResponse
	switch {
	case errors.As(err, &limited):
		return max(limited.RetryAfter, time.Second), true
	case errors.As(err, &status) && status.Code == http.StatusTooManyRequests:
		return pauseWithout, true
	case errors.As(err, &answer) && slices.Contains(busy, answer.Err):
		return pauseWithout, true
	}
	return 0, false
}

func ofCode(answer api.SlackErrorResponse) error {
	code := answer.Err
	text := code
	if what := remedy[code]; what != "" {
		text += " (" + what + ")"
	}
	if answer.Needed != "" {
		text += ", needed: " + answer.Needed
	}
	for _, m := range answer.ResponseMetadata.Messages {
		text += "; " + m
	}
	switch {
	case slices.Contains(passing, code):
		return answered{text, []error{answer, chat.ErrUnsure}}
	case slices.Contains(locked, code):
		return answered{text, []error{answer}}
	}
	return answered{text, []error{answer, chat.ErrRefused}}
}

// answered is an error that Slack answered with, and what it means.
type answered struct {
	text string
	is   []error
}

func (a answered) Error() string   { return "Slack says " + a.text }
func (a answered) Unwrap() []error { return a.is }

// isLocked reports whether the app has no access to the workspace any more.
func isLocked(err error) bool {
	var answer api.SlackErrorResponse
	return errors.As(err, &answer) && slices.Contains(locked, answer.Err)
}

// isCode reports whether Slack answered with the code.
func isCode(err error, code string) bool {
	var answer api.SlackErrorResponse
	return errors.As(err, &answer) && answer.Err == code
}

// neverLeft reports whether a request did not get as far as Slack.
func neverLeft(err error) bool {
	var op *net.OpError
	var dns *net.DNSError
	var unknown x509.UnknownAuthorityError
	var wrongHost x509.HostnameError
	return errors.As(err, &op) && op.Op == "dial" || errors.As(err, &dns) || errors.As(err, &unknown) || errors.As(err, &wrongHost)
}

// secretive are the shapes of what must not be told: tokens, and the addresses
// that open something by themselves.
var secretive = regexp.MustCompile(`x(?:ox|app)[a-z.]*-[0-9A-Za-z-]+|(ticket|secret|token|pub_secret)=[^&\s"]+`)

// scrubbed is an error without secrets in its text.
type scrubbed struct {
	error
	text string
}

func (s scrubbed) Error() string { return s.text }
func (s scrubbed) Unwrap() error { return s.error }

// scrub takes the tokens and whatever looks like one out of an error's text.
func (t Tokens) scrub(err error) error {
	if err == nil {
		return nil
	}
	text := err.Error()
	for _, secret := range []string{t.Bot, t.App, t.Signing} {
		if secret != "" {
			text = strings.ReplaceAll(text, secret, "[secret]")
		}
	}
	text = secretive.ReplaceAllString(text, "[secret]")
	return scrubbed{err, text}
}
