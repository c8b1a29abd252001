package slack

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"time"

	api "github.com/slack-go/slack"
)

// mostBody is the longest request that is read.
const mostBody = 4 << 20

// review is how often a bot that is reached by HTTP looks for what it missed: it
// never learns that it was out of reach.
const review = 15 * time.Minute

// listen takes Slack's HTTP requests until the context ends.
func (b *Backend) listen(ctx context.Context, d *door) error {
	server := &http.Server{Addr: b.cfg.Listen, Handler: b.hook(d.take), ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second}
	failed := make(chan error, 1)
	go func() { failed <- server.ListenAndServe() }()
	tick := time.NewTicker(review)
	defer tick.Stop()
	for {
		b.begin(ctx, d)
		select {
		case err := <-failed:
			return fmt.Errorf("take Slack's requests at %s: %w", b.cfg.Listen, err)
		case <-ctx.Done():
			stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
			defer cancel()
			return server.Shutdown(stop)
		case <-tick.C:
		}
	}
}

// taker takes in one payload of a sort.
type taker = func(ctx context.Context, sort string, payload []byte) (any, error)

// hook is the address that Slack sends its requests to: events, interactions and
// slash commands alike. What is not signed by Slack is refused; what could not be
// stored is answered with an error, so that it comes again.
func (b *Backend) hook(take taker) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, code, err := b.signed(r)
		if err != nil {
			b.report(err)
			http.Error(w, http.StatusText(code), code)
			return
		}
		sort, payload, challenge := sorted(r.Header.Get("Content-Type"), body)
		if challenge != "" {
			w.Header().Set("Content-Type", "text/plain")
			io.WriteString(w, challenge)
			return
		}
		answer, err := take(r.Context(), sort, payload)
		if err != nil {
			b.report(err)
			http.Error(w, http.StatusText(http.StatusInternalServerError), http.StatusInternalServerError)
			return
		}
		if answer != nil {
			w.Header().Set("Content-Type", "application/json")
			_ = json.NewEncoder(w).Encode(answer) // a broken connection: Slack sends it again
		}
	})
}

// signed reads a request that Slack has signed, within the last five minutes.
func (b *Backend) signed(r *http.Request) (body []byte, code int, err error) {
	if r.Method != http.MethodPost {
		return nil, http.StatusMethodNotAllowed, errors.New("a request that is no POST")
	}
	body, err = io.ReadAll(io.LimitReader(r.Body, mostBody+1))
	if err != nil || len(body) > mostBody {
		return nil, http.StatusRequestEntityTooLarge, fmt.Errorf("a request of more than %d bytes, or cut short", mostBody)
	}
	verifier, err := api.NewSecretsVerifier(r.Header, b.cfg.Tokens.Signing)
	if err != nil {
		return nil, http.StatusUnauthorized, fmt.Errorf("a request without Slack's signature, or too old: %w", err)
	}
	if _, err := verifier.Write(body); err != nil {
		return nil, http.StatusInternalServerError, err
	}
	if err := verifier.Ensure(); err != nil {
		return nil, http.StatusUnauthorized, errors.New("a request that Slack has not signed; is the signing secret right?")
	}
	return body, 0, nil
}

// sorted tells what sort of request a body is, as Socket Mode would name it. A
// challenge is to be sent back: Slack tries the address by it.
func sorted(contentType string, body []byte) (sort string, payload []byte, challenge string) {
	if strings.HasPrefix(contentType, "application/json") {
		var cb callback
		if json.Unmarshal(body, &cb) == nil && cb.Type == "url_verification" {
			return "", nil, cb.Challenge
		}
		return eventsAPI, body, ""
	}
	form, err := url.ParseQuery(string(body))
	if err != nil {
		return "", nil, ""
	}
	if p := form.Get("payload"); p != "" {
		return interactive, []byte(p), ""
	}
	fields := map[string]string{}
	for key := range form {
		fields[key] = form.Get(key)
	}
	payload, _ = json.Marshal(fields) // strings always go
	return slashCommands, payload, ""
}
