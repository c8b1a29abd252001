package slackdouble

import (
	"net/http"
	"strconv"
	"time"
)

// Fault is one thing that goes wrong with one request. Make it with the functions
// below and hand it to Fail.
type Fault struct {
	refuse     string        // an error code in a 200 answer
	limit      string        // a shape of 429
	wait       time.Duration // of a limit
	status     int           // an HTTP status with a page that is no JSON
	dropEarly  bool
	dropLate   bool
	delay      time.Duration
	garbage    bool
	notApplied bool // set for faults that answer before the method acts
}

// CommitAndDrop does what the request asks and cuts the connection instead of
// answering.
func CommitAndDrop() Fault { return Fault{dropLate: true} }

// Drop cuts the connection without doing anything.
func Drop() Fault { return Fault{dropEarly: true, notApplied: true} }

// Refuse answers ok:false with the given error code and does nothing.
func Refuse(code string) Fault { return Fault{refuse: code, notApplied: true} }

// Limit is a 429 with Retry-After; wait is rounded up to seconds.
func Limit(wait time.Duration) Fault { return Fault{limit: "header", wait: wait, notApplied: true} }

// LimitBare is a 429 without the header; nothing before a second is over.
func LimitBare() Fault { return Fault{limit: "bare", wait: time.Second, notApplied: true} }

// LimitOK is a 200 with the error "ratelimited"; nothing before a second is over.
func LimitOK() Fault { return Fault{limit: "ok", wait: time.Second, notApplied: true} }

// Status answers with an HTTP status and an HTML page, and does nothing.
func Status(code int) Fault { return Fault{status: code, notApplied: true} }

// CommitAndStatus does what the request asks and answers with an HTTP status.
func CommitAndStatus(code int) Fault { return Fault{status: code} }

// CommitAndGarble does what the request asks and answers with half a JSON object.
func CommitAndGarble() Fault { return Fault{garbage: true} }

// Slow does what the request asks and answers after d, or when the client has
// gone.
func Slow(d time.Duration) Fault { return Fault{delay: d} }

// Fail lets the next requests of a method go wrong, one fault each, in order.
// The method is a name like "chat.postMessage", "upload" or "download" for the
// addresses of files, "answer" for response addresses, or "*" for whatever comes
// next.
func (w *Workspace) Fail(method string, faults ...Fault) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.faults[method] = append(w.faults[method], faults...)
}

// Unspent names the methods with faults that never happened: a test that meant to
// provoke them has shown nothing.
func (w *Workspace) Unspent() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	var list []string
	for method, faults := range w.faults {
		if len(faults) > 0 {
			list = append(list, method)
		}
	}
	return list
}

func (w *Workspace) fault(method string) Fault {
	for _, key := range []string{method, "*"} {
		if list := w.faults[key]; len(list) > 0 {
			w.faults[key] = list[1:]
			return list[0]
		}
	}
	return Fault{}
}

// before answers in place of the method; it tells whether it did.
func (f Fault) before(rw http.ResponseWriter) bool {
	switch {
	case !f.notApplied:
		return false
	case f.dropEarly:
		cut(rw)
	case f.refuse != "":
		writeJSON(rw, object{"ok": false, "error": f.refuse})
	case f.limit != "":
		writeLimit(rw, f.limit, f.wait)
	case f.status != 0:
		page(rw, f.status)
	}
	return true
}

// after answers in place of the method's own answer; it tells whether it did.
func (f Fault) after(rw http.ResponseWriter, r *http.Request) bool {
	switch {
	case f.dropLate:
		cut(rw)
	case f.status != 0:
		page(rw, f.status)
	case f.garbage:
		rw.Header().Set("Content-Type", "application/json; charset=utf-8")
		rw.Write([]byte(`{"ok":true,"chan`))
	case f.delay > 0:
		select {
		case <-time.After(f.delay):
		case <-r.Context().Done():
		}
		return false
	default:
		return false
	}
	return true
}

// cut ends the connection without an answer.
func cut(rw http.ResponseWriter) {
	conn, _, err := http.NewResponseController(rw).Hijack()
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	conn.Close()
}

func page(rw http.ResponseWriter, status int) {
	rw.Header().Set("Content-Type", "text/html")
	rw.WriteHeader(status)
	rw.Write([]byte("<html><body>Something went wrong</body></html>"))
}

func writeLimit(rw http.ResponseWriter, shape string, wait time.Duration) {
	if shape == "header" {
		rw.Header().Set("Retry-After", strconv.Itoa(seconds(wait)))
	}
	if shape != "ok" {
		rw.Header().Set("Content-Type", "application/json; charset=utf-8")
		rw.WriteHeader(http.StatusTooManyRequests)
	}
	writeJSON(rw, object{"ok": false, "error": "ratelimited"})
}

// seconds rounds up to whole ones, at least one.
func seconds(d time.Duration) int {
	return max(1, int((d+time.Second-1)/time.Second))
}
