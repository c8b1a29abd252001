package slackdouble

import (
	"io"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"
)

const aView = `{"type":"modal","title":{"type":"plain_text","text":"Checks"},"submit":{"type":"plain_text","text":"Send"},
	"blocks":[{"type":"input","block_id":"fuel","label":{"type":"plain_text","text":"fuel"},
	"element":{"type":"plain_text_input","action_id":"v"}}]}`

// breaches has, for each rule, requests that break it. Each must record that rule.
var breaches = map[Rule]map[string]func(*raw){
	TokenMissing: {"none": func(r *raw) { r.send(r.request("auth.test", "", "", "")) }},
	TokenUnknown: {"made_up": func(r *raw) { r.send(r.request("auth.test", "", "", "xoxb-1")) }},
	TokenKind: {
		"app_for_bot": func(r *raw) { r.send(r.request("auth.test", "", "", r.w.AppToken)) },
		"bot_for_app": func(r *raw) { r.send(r.request("apps.connections.open", "", "", r.w.BotToken)) },
	},
	TokenInQuery: {
		"method":   func(r *raw) { r.send(r.request("auth.test?token="+r.w.BotToken, "", "", "")) },
		"download": func(r *raw) { r.get(r.photo()+"?token="+r.w.BotToken, "") },
	},
	TokensDiffer:  {"two": func(r *raw) { r.call("auth.test", "token", "xoxb-2") }},
	ScopeMissing:  {"join": func(r *raw) { r.call("conversations.join", "channel", r.channel) }},
	MethodUnknown: {"typo": func(r *raw) { r.call("chat.postMesage", "channel", r.channel, "text", "x") }},
	ArgumentUnknown: {
		"form": func(r *raw) { r.call("chat.postMessage", "channel", r.channel, "text", "x", "thread", r.root) },
		"json": func(r *raw) {
			r.send(r.request("views.open", "application/json", `{"trigger":"1","view":`+aView+`}`, r.w.BotToken))
		},
		"answer": func(r *raw) {
			r.answering(object{"text": "x", "to": "ines"})
			r.w.Slash(r.ines, r.channel, "status")
		},
	},
	ArgumentMissing: {
		"channel":  func(r *raw) { r.call("chat.postMessage", "text", "x") },
		"no_text":  func(r *raw) { r.call("chat.postMessage", "channel", r.channel) },
		"no_users": func(r *raw) { r.call("conversations.open") },
		"trigger":  func(r *raw) { r.call("views.open", "view", aView) },
	},
	ArgumentShape: {
		"ts":          func(r *raw) { r.call("chat.update", "channel", r.channel, "ts", "12.5", "text", "x") },
		"oldest":      func(r *raw) { r.call("conversations.history", "channel", r.channel, "oldest", "yesterday") },
		"limit":       func(r *raw) { r.call("conversations.history", "channel", r.channel, "limit", "2000") },
		"flag":        func(r *raw) { r.call("conversations.history", "channel", r.channel, "inclusive", "yes") },
		"cursor":      func(r *raw) { r.call("conversations.history", "channel", r.channel, "cursor", "bmV4dDo1") },
		"emoji":       func(r *raw) { r.call("reactions.add", "channel", r.channel, "timestamp", r.root, "name", "👍") },
		"types":       func(r *raw) { r.call("conversations.list", "types", "private") },
		"length":      func(r *raw) { r.call("files.getUploadURLExternal", "filename", "a.png", "length", "0") },
		"files":       func(r *raw) { r.call("files.completeUploadExternal", "files", "F1") },
		"attachments": func(r *raw) { r.call("chat.postMessage", "channel", r.channel, "text", "x", "attachments", "{}") },
		"thread_of_no_channel": func(r *raw) {
			o := r.call("files.getUploadURLExternal", "filename", "a.png", "length", "3")
			r.respond(o["upload_url"].(string), "png")
			r.call("files.completeUploadExternal", "files", `[{"id":"`+o["file_id"].(string)+`"}]`, "thread_ts", r.root)
		},
	},
	BodyType: {
		"json_for_history": func(r *raw) {
			r.send(r.request("conversations.history", "application/json", `{"channel":"`+r.channel+`"}`, r.w.BotToken))
		},
		"broken": func(r *raw) { r.send(r.request("chat.postMessage", "application/json", `{"channel":`, r.w.BotToken)) },
	},
	BlockLimit: {
		"unknown_kind": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "blocks", `[{"type":"headr"}]`)
		},
		"no_array": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "blocks", `{"type":"divider"}`)
		},
	},
	ViewLimit: {
		"long_title": func(r *raw) {
			r.call("views.open", "trigger_id", r.w.Trigger(r.ines), "view", strings.Replace(aView, `"Checks"`, `"The checks of Engine 1 this morning"`, 1))
		},
		"no_json": func(r *raw) { r.call("views.open", "trigger_id", r.w.Trigger(r.ines), "view", "modal") },
		"home":    func(r *raw) { r.call("views.publish", "user_id", r.ines, "view", `{"type":"home","blocks":[]}`) },
	},
	TextMissing: {"blocks_alone": func(r *raw) {
		r.call("chat.postMessage", "channel", r.channel, "blocks", `[{"type":"divider"}]`)
	}},
	TextLong: {"4001": func(r *raw) {
		r.call("chat.postMessage", "channel", r.channel, "text", strings.Repeat("é", 4001))
	}},
	TextRaw: {
		"ampersand": func(r *raw) { r.call("chat.postMessage", "channel", r.channel, "text", "oil & fuel") },
		"less":      func(r *raw) { r.call("chat.postMessage", "channel", r.channel, "text", "fuel < 3/4") },
		"mrkdwn": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "blocks",
				`[{"type":"section","text":{"type":"mrkdwn","text":"fuel > 3/4"}}]`)
		},
	},
	MetadataShape: {
		"no_payload": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "metadata", `{"event_type":"a"}`)
		},
		"string": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "metadata", `{"event_type":"a","event_payload":"b"}`)
		},
		"no_json": func(r *raw) { r.call("chat.postMessage", "channel", r.channel, "text", "x", "metadata", `k`) },
		"large": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "metadata",
				`{"event_type":"a","event_payload":{"b":"`+strings.Repeat("x", 8000)+`"}}`)
		},
	},
	ThreadRoot: {
		"nothing": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "thread_ts", "1700000000.000001")
		},
		"reply": func(r *raw) {
			r.call("chat.postMessage", "channel", r.channel, "text", "x", "thread_ts", r.w.Say(r.ines, r.channel, r.root, "hi"))
		},
	},
	OthersMessage: {
		"update": func(r *raw) {
			r.call("chat.update", "channel", r.channel, "text", "x", "ts", r.w.Say(r.ines, r.channel, "", "hi"))
		},
		"delete": func(r *raw) { r.call("chat.delete", "channel", r.channel, "ts", r.w.Say(r.ines, r.channel, "", "hi")) },
	},
	RateIgnored: {
		"header": func(r *raw) { r.limited(Limit(time.Minute)) },
		"bare":   func(r *raw) { r.limited(LimitBare()) },
		"ok":     func(r *raw) { r.limited(LimitOK()) },
	},
	TicketUsed: {
		"twice": func(r *raw) {
			address := r.call("apps.connections.open")["url"].(string)
			r.dial(address)
			r.w.Dialer().Dial(address, nil)
		},
		"made_up": func(r *raw) { r.w.Dialer().Dial("ws://"+r.w.addr+"/link/?ticket=1", nil) },
	},
	AckUnknown: {"made_up": func(r *raw) { r.ack(r.socket(), object{"envelope_id": "1"}, nil) }},
	AckTwice: {"twice": func(r *raw) {
		conn := r.socket()
		r.w.Say(r.ines, r.channel, "", "hi")
		e := r.frame(conn)
		r.ack(conn, e, nil)
		r.ack(conn, e, nil)
	}},
	AckLate: {
		"never": func(r *raw) {
			r.socket()
			r.w.Say(r.ines, r.channel, "", "hi")
		},
		"http": func(r *raw) {
			r.endpoint(func(rw http.ResponseWriter, req *http.Request) { <-req.Context().Done() })
			r.w.Say(r.ines, r.channel, "", "hi")
		},
	},
	AckPayload: {
		"to_an_event": func(r *raw) {
			conn := r.socket()
			r.w.Say(r.ines, r.channel, "", "hi")
			r.ack(conn, r.frame(conn), object{"text": "hello"})
		},
		"no_object": func(r *raw) {
			r.answering("hello")
			r.w.Slash(r.ines, r.channel, "status")
		},
		"wrong_action": func(r *raw) {
			r.answering(object{"response_action": "vanish"})
			r.w.SubmitView(r.ines, r.view(), map[string]string{"fuel": "1"})
		},
		"no_error": func(r *raw) {
			r.answering(object{"response_action": "errors"})
			r.w.SubmitView(r.ines, r.view(), map[string]string{"fuel": "1"})
		},
		"submission_no_object": func(r *raw) {
			r.answering("hello")
			r.w.SubmitView(r.ines, r.view(), map[string]string{"fuel": "1"})
		},
		"error_of_nothing": func(r *raw) {
			r.answering(object{"response_action": "errors", "errors": object{"oil": "how much?"}})
			r.w.SubmitView(r.ines, r.view(), map[string]string{"fuel": "1"})
		},
	},
	SocketJunk: {
		"no_json": func(r *raw) { r.socket().WriteMessage(1, []byte("hello")) },
		"no_id":   func(r *raw) { r.socket().WriteMessage(1, []byte(`{"ok":true}`)) },
	},
	PongMissing: {"silent": func(r *raw) { r.socket().SetPingHandler(func(string) error { return nil }) }},
	TriggerUsed: {"twice": func(r *raw) {
		trigger := r.w.Trigger(r.ines)
		r.call("views.open", "trigger_id", trigger, "view", aView)
		r.call("views.open", "trigger_id", trigger, "view", aView)
	}},
	TriggerLate: {"four_seconds": func(r *raw) {
		trigger := r.w.Trigger(r.ines)
		r.w.age(trigger, 4*time.Second)
		r.call("views.open", "trigger_id", trigger, "view", aView)
	}},
	TriggerUnknown: {"made_up": func(r *raw) { r.call("views.open", "trigger_id", "1.2", "view", aView) }},
	ResponseURLUsed: {
		"made_up": func(r *raw) { r.respond("http://"+r.w.addr+"/respond/1", `{"text":"x"}`) },
		"sixth": func(r *raw) {
			r.w.mu.Lock()
			address := r.w.newResponseURL(r.w.channel(r.channel), r.ines, nil)
			r.w.mu.Unlock()
			for range 6 {
				r.respond(address, `{"text":"x"}`)
			}
		},
	},
	UploadLength: {"short": func(r *raw) { r.upload(4, "png") }},
	UploadUsed: {
		"twice":   func(r *raw) { a := r.upload(3, "png"); r.respond(a, "png") },
		"made_up": func(r *raw) { r.respond("http://"+r.w.addr+"/upload/v1/1", "png") },
	},
	DownloadToken: {"none": func(r *raw) { r.get(r.photo(), "") }, "app": func(r *raw) { r.get(r.photo(), r.w.AppToken) }},
}

func (r *raw) limited(f Fault) {
	r.w.Fail("chat.update", f)
	for range 2 {
		r.call("chat.update", "channel", r.channel, "ts", r.root, "text", "x")
	}
}

// answering acknowledges what comes on a new socket with a payload.
func (r *raw) answering(payload any) {
	conn := r.socket()
	go func() {
		for {
			e := object{}
			if conn.ReadJSON(&e) != nil {
				return
			}
			o := object{"envelope_id": e["envelope_id"]}
			if e["accepts_response_payload"] == true {
				o["payload"] = payload
			}
			conn.WriteJSON(o)
		}
	}()
}

// view opens a view for ines and returns its id.
func (r *raw) view() string {
	o := r.call("views.open", "trigger_id", r.w.Trigger(r.ines), "view", aView)
	return o["view"].(object)["id"].(string)
}

// photo lets ines send one and returns its address.
func (r *raw) photo() string {
	r.w.Say(r.ines, r.channel, "", "look", Upload{Name: "hose.jpg", Data: []byte("jpg")})
	return r.w.fileURL(r.w.files[r.aFile()])
}

func (r *raw) aFile() string {
	for id := range r.w.files {
		return id
	}
	return ""
}

func (r *raw) get(address, token string) string {
	req, _ := http.NewRequest(http.MethodGet, address, nil)
	if token != "" {
		req.Header.Set("Authorization", "Bearer "+token)
	}
	resp, err := r.w.Client().Do(req)
	if err != nil {
		return err.Error()
	}
	defer resp.Body.Close()
	body, _ := io.ReadAll(resp.Body)
	return string(body)
}

func (r *raw) respond(address, body string) int {
	req, _ := http.NewRequest(http.MethodPost, address, strings.NewReader(body))
	req.Header.Set("Content-Type", "application/json")
	resp, err := r.w.Client().Do(req)
	if err != nil {
		return 0
	}
	defer resp.Body.Close()
	return resp.StatusCode
}

// upload announces n bytes and sends others.
func (r *raw) upload(n int, data string) string {
	o := r.call("files.getUploadURLExternal", "filename", "a.png", "length", string(rune('0'+n)))
	address := o["upload_url"].(string)
	r.respond(address, data)
	return address
}

// TestBreaches: each rule has requests that break it, and the double says so.
func TestBreaches(t *testing.T) {
	for rule, cases := range breaches {
		for name, do := range cases {
			t.Run(string(rule)+"/"+name, func(t *testing.T) {
				o := Options{}
				switch rule { // short spans where they have to pass
				case AckLate:
					o.AckWithin = 50 * time.Millisecond
				case PongMissing:
					o.PingEvery = 20 * time.Millisecond
				}
				r := newRaw(t, o)
				do(r)
				eventually(t, func() bool { return r.has(rule) })
				for _, v := range r.w.Violations() {
					for _, secret := range r.w.Secrets() {
						if strings.Contains(v.String(), secret) {
							t.Errorf("%s tells a token", v.Rule)
						}
					}
				}
			})
		}
	}
}

// TestBreaches_complete: no rule is left without a request that breaks it.
func TestBreaches_complete(t *testing.T) {
	source, err := os.ReadFile("violation.go")
	if err != nil {
		t.Fatal(err)
	}
	rules := regexp.MustCompile(`(?m)^\t\w+ +Rule = "([a-z-]+)"`).FindAllStringSubmatch(string(source), -1)
	if len(rules) < 30 {
		t.Fatalf("violation.go has %d rules", len(rules))
	}
	for _, m := range rules {
		if len(breaches[Rule(m[1])]) == 0 {
			t.Errorf("nothing breaks %q", m[1])
		}
	}
}
