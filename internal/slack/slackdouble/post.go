package slackdouble

import (
	"bytes"
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"strings"
	"time"
)

// Endpoint is where the app takes signed requests over HTTP: events, taps and
// commands may go to one address or to three.
type Endpoint struct {
	Events   string
	Taps     string // interactivity; Events if empty
	Commands string // slash commands; Events if empty
	// Handler takes the requests in place of whatever listens at the addresses,
	// without a network: for testing/synctest.
	Handler http.Handler
}

func (e Endpoint) client() *http.Client {
	if e.Handler == nil {
		return http.DefaultClient
	}
	return &http.Client{Transport: handled{e.Handler}}
}

// handled is a transport that hands requests to a handler in the same process.
type handled struct{ http.Handler }

func (h handled) RoundTrip(req *http.Request) (*http.Response, error) {
	answer := make(chan *http.Response, 1)
	go func() {
		rec := httptest.NewRecorder()
		h.ServeHTTP(rec, req)
		answer <- rec.Result()
	}()
	select {
	case resp := <-answer:
		return resp, nil
	case <-req.Context().Done():
		return nil, req.Context().Err()
	}
}

// DeliverTo delivers over HTTP from now on, instead of Socket Mode. Like Slack, it
// first sends a url_verification to the address of events, and an error says what
// was wrong with the answer. Events that are not answered with 200 within 3 s come
// again with X-Slack-Retry-Num and X-Slack-Retry-Reason.
func (w *Workspace) DeliverTo(ctx context.Context, e Endpoint) error {
	e.Taps, e.Commands = orDefault(e.Taps, e.Events), orDefault(e.Commands, e.Events)
	challenge := secret(32)
	body := encode(object{"type": "url_verification", "token": "unused-verification", "challenge": challenge})
	resp, answer, err := w.send(ctx, e.client(), e.Events, "application/json", body, nil)
	if err != nil {
		return fmt.Errorf("verify the address of events: %w", err)
	}
	var o struct{ Challenge string }
	if json.Unmarshal(answer, &o) != nil {
		o.Challenge = string(answer)
	}
	if resp.StatusCode != http.StatusOK || o.Challenge != challenge {
		return fmt.Errorf("verify the address of events: the answer has status %d and not the challenge", resp.StatusCode)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.endpoint = &e
	return nil
}

// Sign makes the headers of a request that Slack signed at the time; for tests
// that forge requests.
func (w *Workspace) Sign(at time.Time, body []byte) http.Header {
	stamp := strconv.FormatInt(at.Unix(), 10)
	mac := hmac.New(sha256.New, []byte(w.SigningSecret))
	fmt.Fprintf(mac, "v0:%s:%s", stamp, body)
	h := http.Header{}
	h.Set("X-Slack-Request-Timestamp", stamp)
	h.Set("X-Slack-Signature", "v0="+hex.EncodeToString(mac.Sum(nil)))
	return h
}

func (w *Workspace) send(ctx context.Context, client *http.Client, to, kind string, body []byte, more http.Header) (*http.Response, []byte, error) {
	ctx, cancel := context.WithTimeout(ctx, w.opts.AckWithin)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, to, bytes.NewReader(body))
	if err != nil {
		return nil, nil, err
	}
	req.Header = w.Sign(time.Now(), body)
	req.Header.Set("Content-Type", kind)
	req.Header.Set("User-Agent", "Slackbot 1.0 (double)")
	for k, v := range more {
		req.Header[k] = v
	}
	resp, err := client.Do(req)
	if err != nil {
		return nil, nil, err
	}
	defer resp.Body.Close()
	answer, err := io.ReadAll(resp.Body)
	return resp, answer, err
}

// postTo delivers over HTTP and learns from the answer.
func (w *Workspace) postTo(e Endpoint, d *delivery, tries int, reason string) {
	to, kind, body := e.address(d)
	more := http.Header{}
	if tries > 0 {
		more.Set("X-Slack-Retry-Num", strconv.Itoa(tries))
		more.Set("X-Slack-Retry-Reason", reason)
	}
	resp, answer, err := w.send(context.Background(), e.client(), to, kind, body, more)
	w.mu.Lock()
	defer w.mu.Unlock()
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		w.blame(AckLate, "http", "%s was not answered within %v", d.kind, w.opts.AckWithin)
		w.missed(d, "http_timeout")
	case err != nil:
		w.missed(d, "connection_failed")
	case resp.StatusCode != http.StatusOK && resp.Header.Get("X-Slack-No-Retry") == "1":
		d.tries = len(w.opts.Retries)
		w.missed(d, "http_error")
	case resp.StatusCode != http.StatusOK:
		w.missed(d, "http_error")
	default:
		d.done = true
		if d.answer != nil {
			d.answer(answer)
		}
	}
}

// address is where a delivery goes, and in which form: events as JSON, taps as a
// form with the JSON in payload, commands as a form.
func (e Endpoint) address(d *delivery) (to, kind string, body []byte) {
	const form = "application/x-www-form-urlencoded"
	switch d.kind {
	case "interactive":
		return e.Taps, form, []byte(url.Values{"payload": {string(d.payload)}}.Encode())
	case "slash_commands":
		var o map[string]any
		json.Unmarshal(d.payload, &o) // made by us
		values := url.Values{}
		for k, v := range o {
			values.Set(k, strings.Trim(fmt.Sprint(v), `"`))
		}
		return e.Commands, form, []byte(values.Encode())
	}
	return e.Events, "application/json", d.payload
}
