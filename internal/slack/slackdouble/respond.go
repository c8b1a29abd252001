package slackdouble

import (
	"encoding/json"
	"io"
	"net/http"
	"slices"
	"time"
)

// responseURL is an address for answers to one tap or command: five of them within
// 30 minutes.
type responseURL struct {
	channel *channel
	user    string
	on      *message // the message that was tapped on
	born    time.Time
	used    int
}

func (w *Workspace) newResponseURL(ch *channel, user string, on *message) string {
	path := "/respond/" + secret(24)
	w.answers[path] = &responseURL{channel: ch, user: user, on: on, born: time.Now()}
	return "http://" + w.addr + path
}

// takeResponse takes an answer at a response address.
func (w *Workspace) takeResponse(rw http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	w.mu.Lock()
	fault := w.fault("answer")
	if err == nil && !fault.notApplied {
		if why := w.respond(r.URL.Path, body); why != "" {
			w.mu.Unlock()
			http.Error(rw, why, http.StatusNotFound)
			return
		}
	}
	w.mu.Unlock()
	if fault.before(rw) || fault.after(rw, r) {
		return
	}
	io.WriteString(rw, "ok")
}

// respond shows an answer, or says why not.
func (w *Workspace) respond(path string, body []byte) string {
	u := w.answers[path]
	if u == nil || u.used >= 5 || time.Since(u.born) > 30*time.Minute {
		w.blame(ResponseURLUsed, "answer", "five answers within 30 minutes")
		return "used_url"
	}
	u.used++
	if !w.answer("answer", u, body) {
		return "invalid_payload"
	}
	return ""
}

// answer shows what a command or tap was answered with; by default to the person
// alone.
func (w *Workspace) answer(request string, u *responseURL, body []byte) bool {
	var o object
	if json.Unmarshal(body, &o) != nil {
		w.blame(AckPayload, request, "an answer that is no JSON object")
		return false
	}
	known := words("text blocks attachments response_type replace_original delete_original thread_ts metadata mrkdwn unfurl_links unfurl_media")
	for k := range o {
		if !slices.Contains(known, k) {
			w.blame(ArgumentUnknown, request, "an answer has no field %q", k)
		}
	}
	if o["delete_original"] == true {
		if u.on != nil {
			w.delete(u.channel, u.on)
		}
		return true
	}
	return w.showAnswer(request, u, o)
}

func (w *Workspace) showAnswer(request string, u *responseURL, o object) bool {
	c := &call{Workspace: w, method: &method{name: request}, args: map[string]string{}}
	for _, k := range words("text blocks attachments metadata") {
		if s, ok := o[k].(string); ok {
			c.args[k] = s
		} else if o[k] != nil {
			raw, _ := json.Marshal(o[k]) // came from JSON
			c.args[k] = string(raw)
		}
	}
	m, err := c.content(message{user: w.BotUser, bot: true, ephemeral: u.user})
	if err != nil {
		return false
	}
	if o["replace_original"] == true && u.on != nil {
		before := w.json(u.channel, u.on, false)
		u.on.text, u.on.blocks, u.on.edited, u.on.editor = m.text, m.blocks, w.stamp(), w.BotUser
		w.tell(u.channel, w.changedEvent(u.channel, u.on, before))
		return true
	}
	if o["response_type"] == "in_channel" {
		m.ephemeral = ""
	}
	m.thread, _ = o["thread_ts"].(string)
	m.ts = w.stamp()
	u.channel.messages = append(u.channel.messages, &m)
	if m.ephemeral == "" {
		w.tell(u.channel, w.messageEvent(u.channel, &m))
	}
	return true
}
