package slackdouble

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"mime"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Call is one request to the Web API, as a test may look at it. Error is "" for
// an answer with ok:true.
type Call struct {
	Method string
	Args   map[string]string // without the token
	At     time.Time
	Error  string
}

// Calls returns the requests of a method so far, or all of them for "".
func (w *Workspace) Calls(method string) []Call {
	w.mu.Lock()
	defer w.mu.Unlock()
	var list []Call
	for _, c := range w.calls {
		if method == "" || c.Method == method {
			list = append(list, c)
		}
	}
	return list
}

// refusal is an error code of Slack's, with the messages that go beside it.
type refusal struct {
	code     string
	messages []string
	more     object
}

func (r *refusal) Error() string { return r.code }

func refuse(code string, messages ...string) error { return &refusal{code: code, messages: messages} }

// call is a request being answered; the workspace is locked meanwhile.
type call struct {
	*Workspace
	method   *method
	args     map[string]string
	warnings []string
}

func (c *call) blame(rule Rule, format string, args ...any) {
	c.Workspace.blame(rule, c.method.name, "%s", c.scrub(fmt.Sprintf(format, args...)))
}

func (w *Workspace) mux() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("/api/{method}", w.api)
	mux.HandleFunc("POST /upload/v1/{ticket}", w.takeUpload)
	mux.HandleFunc("GET /files-pri/{file}/{name}", w.download)
	mux.HandleFunc("GET /sign-in", signIn)
	mux.HandleFunc("POST /respond/{ticket}", w.takeResponse)
	mux.HandleFunc("GET /link/", w.connect)
	return mux
}

// api answers one request: what it asks, who asks, whether it may, whether it is
// well formed, and only then what it does. The answer is written with the
// workspace unlocked.
func (w *Workspace) api(rw http.ResponseWriter, r *http.Request) {
	m := methods[r.PathValue("method")]
	if m == nil || r.Method != http.MethodPost && r.Method != http.MethodGet {
		w.blame(MethodUnknown, w.scrub(r.PathValue("method")), "%s %s", r.Method, w.scrub(r.PathValue("method")))
		writeJSON(rw, object{"ok": false, "error": "unknown_method"})
		return
	}
	args, token, err := w.arguments(m, r)
	w.mu.Lock()
	c := &call{Workspace: w, method: m, args: args}
	if err == nil {
		err = c.admit(token)
	}
	if err != nil {
		answer := c.finish(nil, err)
		w.mu.Unlock()
		c.write(rw, answer)
		return
	}
	if wait := w.limit(c); wait > 0 {
		c.log("ratelimited")
		w.mu.Unlock()
		writeLimit(rw, "header", wait)
		return
	}
	c.act(rw, r, w.fault(m.name))
}

// act does what was asked, or what a fault makes of it; it unlocks the workspace.
func (c *call) act(rw http.ResponseWriter, r *http.Request, fault Fault) {
	if fault.limit != "" {
		c.closeFor(c.bucketKeys()[0], fault.wait)
	}
	if fault.notApplied {
		c.log("fault")
		c.mu.Unlock()
		fault.before(rw)
		return
	}
	var answer object
	err := c.check()
	if err == nil {
		answer, err = c.method.do(c)
	}
	body := c.finish(answer, err)
	c.mu.Unlock()
	if !fault.after(rw, r) {
		c.write(rw, body)
	}
}

// finish makes the whole answer and keeps the call.
func (c *call) finish(answer object, err error) []byte {
	if answer == nil {
		answer = object{}
	}
	answer["ok"] = err == nil
	if r, ok := err.(*refusal); ok {
		answer["error"] = r.code
		maps.Copy(answer, r.more)
		if len(r.messages) > 0 {
			answer["response_metadata"] = object{"messages": r.messages}
		}
	}
	if len(c.warnings) > 0 {
		answer["warning"] = strings.Join(c.warnings, ",")
	}
	code, _ := answer["error"].(string)
	c.log(code)
	return encode(answer) // while nobody changes what it shows
}

func (c *call) write(rw http.ResponseWriter, body []byte) {
	rw.Header().Set("X-OAuth-Scopes", strings.Join(c.scopes(), ","))
	rw.Header().Set("X-Accepted-OAuth-Scopes", c.method.scope)
	writeBody(rw, body)
}

func (c *call) log(code string) {
	c.calls = append(c.calls, Call{Method: c.method.name, Args: c.args, At: time.Now(), Error: code})
}

func (c *call) scopes() []string {
	if c.method.app {
		return []string{"connections:write"}
	}
	return c.opts.Scopes
}

func encode(o object) []byte {
	body, err := json.Marshal(o)
	if err != nil {
		panic(err) // everything kept here came from JSON
	}
	return body
}

func writeJSON(rw http.ResponseWriter, o object) { writeBody(rw, encode(o)) }

func writeBody(rw http.ResponseWriter, body []byte) {
	rw.Header().Set("Content-Type", "application/json; charset=utf-8")
	rw.Write(body) // a client that has gone does not matter
}

// arguments reads the query and the body, and the token from where it may stand.
func (w *Workspace) arguments(m *method, r *http.Request) (args map[string]string, token string, err error) {
	args = map[string]string{}
	for k, v := range r.URL.Query() {
		args[k] = v[len(v)-1]
	}
	if _, bad := args["token"]; bad {
		w.blame(TokenInQuery, m.name, "the token stands in the address")
		return args, "", refuse("not_allowed_token_type")
	}
	kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch {
	case kind == "application/json" && m.json:
		err = jsonArguments(r.Body, args)
	case kind == "application/x-www-form-urlencoded" || kind == "multipart/form-data":
		err = formArguments(r, args)
	case r.Method == http.MethodPost && r.ContentLength != 0:
		w.blame(BodyType, m.name, "a body of type %q is not read", kind)
	}
	if err != nil {
		w.blame(BodyType, m.name, "the body is no %s: %v", kind, w.scrub(err.Error()))
		return args, "", refuse("invalid_form_data")
	}
	inBody := args["token"]
	delete(args, "token")
	token = bearer(r)
	if token != "" && inBody != "" && token != inBody {
		w.blame(TokensDiffer, m.name, "the header and the body carry different tokens")
	}
	return args, orDefault(token, inBody), nil
}

func formArguments(r *http.Request, args map[string]string) error {
	if err := r.ParseMultipartForm(1 << 20); err != nil && err != http.ErrNotMultipart {
		return err
	}
	for k, v := range r.PostForm {
		args[k] = v[len(v)-1]
	}
	return nil
}

// jsonArguments turns a JSON body into the form that the methods read: strings as
// they are, all else as JSON.
func jsonArguments(body io.Reader, args map[string]string) error {
	var o map[string]json.RawMessage
	if err := json.NewDecoder(body).Decode(&o); err != nil {
		if err == io.EOF {
			return nil
		}
		return err
	}
	for k, raw := range o {
		var s string
		if json.Unmarshal(raw, &s) != nil {
			s = string(raw)
		}
		args[k] = s
	}
	return nil
}

// admit decides whether the token may call the method.
func (c *call) admit(token string) error {
	right, wrong := c.BotToken, c.AppToken
	if c.method.app {
		right, wrong = wrong, right
	}
	switch {
	case token == "":
		c.blame(TokenMissing, "no token")
		return refuse("not_authed")
	case token == wrong:
		c.blame(TokenKind, "a token of the other kind")
		return refuse("not_allowed_token_type")
	case token != right:
		c.blame(TokenUnknown, "a token of nobody")
		return refuse("invalid_auth")
	case c.revoked[token]:
		return refuse("token_revoked")
	}
	return c.scope(c.method.scope)
}

// scope refuses what the app's manifest does not ask for.
func (c *call) scope(needed string) error {
	if needed == "" || slices.Contains(c.opts.Scopes, needed) {
		return nil
	}
	c.blame(ScopeMissing, "needs %s", needed)
	return &refusal{code: "missing_scope", more: object{"needed": needed, "provided": strings.Join(c.opts.Scopes, ",")}}
}

// check looks at the names and the shapes of the arguments.
func (c *call) check() error {
	for k := range c.args {
		if !slices.Contains(c.method.need, k) && !slices.Contains(c.method.may, k) {
			c.blame(ArgumentUnknown, "there is no argument %q", k)
		}
	}
	for _, k := range c.method.need {
		if c.args[k] == "" {
			c.blame(ArgumentMissing, "%q is needed", k)
			return refuse("invalid_arguments", "[ERROR] missing required field: "+k)
		}
	}
	return c.shapes()
}

// shapes checks the arguments whose name says what they hold.
func (c *call) shapes() error {
	for k, v := range c.args {
		bad := false
		switch k {
		case "ts", "timestamp", "thread_ts", "message_ts":
			bad = !validTS(v)
		case "oldest", "latest":
			bad = !validBound(v)
		case "limit", "length", "count", "page":
			n, err := strconv.Atoi(v)
			bad = err != nil || n < 0 || k == "limit" && n > 1000
		case "inclusive", "include_all_metadata", "exclude_archived", "return_im", "mrkdwn", "unfurl_links", "unfurl_media",
			"reply_broadcast", "link_names", "include_locale", "include_num_members", "as_user", "full":
			bad = !slices.Contains([]string{"0", "1", "true", "false"}, v)
		}
		if bad {
			c.blame(ArgumentShape, "%s is %q", k, v)
			return refuse("invalid_arguments", "[ERROR] "+k+" is malformed")
		}
	}
	return nil
}

// flag reads a boolean argument.
func (c *call) flag(name string) bool { return c.args[name] == "1" || c.args[name] == "true" }
