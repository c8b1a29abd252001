package slackdouble

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"time"
)

// ErrNoAnswer says that the app did not acknowledge a tap, a command or a view in
// time; the person sees a warning sign. Slack does not try again.
var ErrNoAnswer = errors.New("the app did not answer in time")

// ask delivers an interaction and waits for what the app says to it. It must be
// called with the workspace locked, and unlocks it.
func (w *Workspace) ask(kind string, payload object, accepts bool) ([]byte, error) {
	type result struct {
		answer []byte
		err    error
	}
	got := make(chan result, 1)
	d := &delivery{
		kind: kind, id: w.id("In"), payload: encode(payload), accepts: accepts,
		answer: func(p []byte) { got <- result{answer: p} },
		lost:   func() { got <- result{err: ErrNoAnswer} },
	}
	w.attempt(d)
	w.mu.Unlock()
	r := <-got
	return r.answer, r.err
}

func (w *Workspace) person(id string) object {
	u := w.user(id)
	if u == nil {
		panic("slackdouble: no user " + id)
	}
	return object{"id": u.id, "username": u.name, "name": u.name, "team_id": w.TeamID}
}

// interaction holds what all interactive payloads have.
func (w *Workspace) interaction(kind, user string, within *view) object {
	return object{
		"type": kind, "user": w.person(user), "api_app_id": w.AppID, "token": "unused-verification",
		"team": object{"id": w.TeamID, "domain": "cedar-valley"}, "enterprise": nil, "is_enterprise_install": false,
		"trigger_id": w.newTrigger(user, within),
	}
}

// Click lets a person tap a button of a message: the one with the action id, or
// with the text. It waits for the acknowledgement.
func (w *Workspace) Click(user, channelID, ts, button string) error {
	w.mu.Lock()
	ch := w.mustChannel(channelID)
	m := w.mustMessage(ch, ts)
	action := w.actionOf(m.blocks, button)
	if action == nil {
		w.mu.Unlock()
		return fmt.Errorf("message %s has no button %q", ts, button)
	}
	p := w.interaction("block_actions", user, nil)
	container := object{
		"type": "message", "message_ts": m.ts, "channel_id": ch.id, "is_ephemeral": m.ephemeral != "", "is_app_unfurl": false,
	}
	put(container, "thread_ts", m.thread)
	maps.Copy(p, object{
		"container": container, "channel": object{"id": ch.id, "name": orDefault(ch.name, "directmessage")},
		"message": w.json(ch, m, true), "state": object{"values": object{}}, "actions": []any{action},
		"response_url": w.newResponseURL(ch, user, m),
	})
	_, err := w.ask("interactive", p, false)
	return err
}

// actionOf is what a tap on a button says of it.
func (w *Workspace) actionOf(blocks []any, button string) object {
	for _, b := range blocks {
		block, _ := b.(object)
		for _, e := range elementsOf(block) {
			label, _ := e["text"].(object)
			if e["type"] != "button" || e["action_id"] != button && label["text"] != button {
				continue
			}
			a := object{"block_id": block["block_id"], "action_ts": w.stamp()}
			for _, k := range words("type action_id text value style") {
				if e[k] != nil {
					a[k] = e[k]
				}
			}
			return a
		}
	}
	return nil
}

// Slash lets a person type /crosslay and the text in a channel. Threads know no
// commands. It returns what the app answered at once, for the person alone or for
// the channel; it is shown there too.
func (w *Workspace) Slash(user, channelID, text string) (answer string, err error) {
	w.mu.Lock()
	ch := w.mustChannel(channelID)
	u := w.person(user)
	p := object{
		"token": "unused-verification", "team_id": w.TeamID, "team_domain": "cedar-valley", "channel_id": ch.id,
		"channel_name": orDefault(ch.name, "directmessage"), "user_id": user, "user_name": u["username"], "command": "/crosslay",
		"text": text, "api_app_id": w.AppID, "is_enterprise_install": "false", "trigger_id": w.newTrigger(user, nil),
		"response_url": w.newResponseURL(ch, user, nil),
	}
	raw, err := w.ask("slash_commands", p, true)
	if err != nil || len(raw) == 0 || string(raw) == "null" {
		return "", err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	var o object
	switch {
	case json.Unmarshal(raw, &o) == nil && len(o) == 0:
		return "", nil
	case o == nil && w.endpoint != nil: // over HTTP an answer can be bare text
		o = object{"text": string(raw)}
		raw = encode(o)
	}
	w.answer("answer to a command", &responseURL{channel: ch, user: user}, raw)
	answer, _ = o["text"].(string)
	return answer, nil
}

// SubmitView lets a person fill in a view and send it. Values go by block id: a
// text or number as typed, the value of an option, options of checkboxes with
// commas between; what has none keeps its initial value. Slack's client checks
// first, and so does this: an input that must be filled in, a text too long, a
// number out of bounds are an error and do not reach the app. Problems are the
// texts that the app put beside inputs.
func (w *Workspace) SubmitView(user, viewID string, values map[string]string) (problems map[string]string, err error) {
	w.mu.Lock()
	v := w.view(viewID)
	if v == nil || v.closed || v.user != user {
		w.mu.Unlock()
		return nil, fmt.Errorf("%s has no open view %s", user, viewID)
	}
	state, err := filled(v.content, values)
	if err != nil {
		w.mu.Unlock()
		return nil, err
	}
	p := w.interaction("view_submission", user, v)
	shown := w.viewJSON(v)
	shown["state"] = object{"values": state}
	p["view"], p["response_urls"] = shown, []any{}
	raw, err := w.ask("interactive", p, true)
	if err != nil {
		return nil, err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.afterSubmit(v, raw), nil
}

// afterSubmit does with the view what the app answered.
func (w *Workspace) afterSubmit(v *view, raw []byte) map[string]string {
	var o struct {
		Action string            `json:"response_action"`
		Errors map[string]string `json:"errors"`
		View   object            `json:"view"`
	}
	if len(raw) > 0 && json.Unmarshal(raw, &o) != nil {
		w.blame(AckPayload, "view_submission", "an answer that is no JSON object")
	}
	switch o.Action {
	case "":
		v.closed = true
	case "clear":
		w.closeViews(v.user)
	case "errors":
		w.checkErrors(v, o.Errors)
		return o.Errors
	case "update", "push":
		c := &call{Workspace: w, method: &method{name: "view_submission"}, args: map[string]string{}}
		if c.checkView(o.View) != nil {
			break
		}
		if o.Action == "push" {
			w.pushView(v.user, o.View, v)
		} else {
			v.content, v.hash = o.View, w.stamp()
		}
	default:
		w.blame(AckPayload, "view_submission", "response_action is %q", o.Action)
	}
	return nil
}

func (w *Workspace) checkErrors(v *view, problems map[string]string) {
	if len(problems) == 0 {
		w.blame(AckPayload, "view_submission", "errors without any")
	}
	for id := range problems {
		if b := blockOf(v.content, id); b == nil || b["type"] != "input" {
			w.blame(AckPayload, "view_submission", "an error for %q, which is no input block", id)
		}
	}
}

// ClickView lets a person tap a button inside a view.
func (w *Workspace) ClickView(user, viewID, button string) error {
	w.mu.Lock()
	v := w.view(viewID)
	if v == nil || v.closed || v.user != user {
		w.mu.Unlock()
		return fmt.Errorf("%s has no open view %s", user, viewID)
	}
	blocks, _ := v.content["blocks"].([]any)
	action := w.actionOf(blocks, button)
	if action == nil {
		w.mu.Unlock()
		return fmt.Errorf("view %s has no button %q", viewID, button)
	}
	p := w.interaction("block_actions", user, v)
	p["container"] = object{"type": "view", "view_id": v.id}
	p["view"], p["actions"] = w.viewJSON(v), []any{action}
	_, err := w.ask("interactive", p, false)
	return err
}

// CloseView lets a person close a view without sending it. The app hears of it if
// it asked to.
func (w *Workspace) CloseView(user, viewID string) error {
	w.mu.Lock()
	v := w.view(viewID)
	if v == nil || v.closed {
		w.mu.Unlock()
		return fmt.Errorf("%s has no open view %s", user, viewID)
	}
	v.closed = true
	if v.content["notify_on_close"] != true {
		w.mu.Unlock()
		return nil
	}
	p := w.interaction("view_closed", user, v)
	delete(p, "trigger_id")
	p["view"], p["is_cleared"] = w.viewJSON(v), false
	_, err := w.ask("interactive", p, false)
	return err
}

// Trigger makes a trigger as if the person had just tapped something; for tests
// of the double and of late views.
func (w *Workspace) Trigger(user string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.newTrigger(user, nil)
}

// age lets a trigger grow old.
func (w *Workspace) age(id string, by time.Duration) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.triggers[id].born = w.triggers[id].born.Add(-by)
}
