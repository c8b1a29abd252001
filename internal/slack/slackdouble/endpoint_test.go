package slackdouble

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
)

// endpoint is an app on HTTP that answers the challenge and hands on the rest.
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
		h(rw, req)
	}))
	r.t.Cleanup(server.Close)
	if err := r.w.DeliverTo(r.t.Context(), Endpoint{Events: server.URL}); err != nil {
		r.t.Fatal(err)
	}
}
