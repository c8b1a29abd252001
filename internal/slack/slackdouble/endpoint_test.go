package slackdouble

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"

	"github.com/slack-go/slack"
)

// endpoint is an app on HTTP that answers the challenge, verifies signatures with
// slack-go and hands on the rest, its body in X-Test-Body.
func (r *raw) endpoint(h http.HandlerFunc) {
	r.t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(rw http.ResponseWriter, req *http.Request) {
		body, _ := io.ReadAll(req.Body)
		var o struct{ Type, Challenge string }
		json.Unmarshal(body, &o)
		if o.Type == "url_verification" {
			io.WriteString(rw, o.Challenge)
			return
		}
		verifier, err := slack.NewSecretsVerifier(req.Header, r.w.SigningSecret)
		if err == nil {
			verifier.Write(body)
			err = verifier.Ensure()
		}
		if err != nil {
			r.t.Errorf("signature: %v", err)
		}
		req.Header.Set("X-Test-Body", string(body))
		h(rw, req)
	}))
	r.t.Cleanup(server.Close)
	if err := r.w.DeliverTo(r.t.Context(), Endpoint{Events: server.URL}); err != nil {
		r.t.Fatal(err)
	}
}
