package slackdouble

import (
	"encoding/json"
	"slices"
	"time"
)

type view struct {
	id, hash, user string
	root, previous string
	content        object
	closed         bool
}

// trigger lets the app open one view for a person, soon after they did something.
type trigger struct {
	user   string
	born   time.Time
	used   bool
	within *view // the view in which they did it
}

func (w *Workspace) newTrigger(user string, within *view) string {
	id := w.id("") + "." + secret(32)
	w.triggers[id] = &trigger{user: user, born: time.Now(), within: within}
	return id
}

func (w *Workspace) viewJSON(v *view) object {
	o := object{
		"id": v.id, "hash": v.hash, "team_id": w.TeamID, "app_id": w.AppID, "bot_id": w.BotID, "root_view_id": v.root,
		"previous_view_id": nil, "app_installed_team_id": w.TeamID, "state": object{"values": object{}},
		"private_metadata": "", "callback_id": "", "external_id": "", "close": nil, "submit": nil,
		"clear_on_close": false, "notify_on_close": false,
	}
	if v.previous != "" {
		o["previous_view_id"] = v.previous
	}
	for k, value := range v.content {
		o[k] = value
	}
	return o
}

// readView reads and checks the view argument.
func (c *call) readView() (object, error) {
	var o object
	if json.Unmarshal([]byte(c.args["view"]), &o) != nil {
		c.blame(ViewLimit, "view is no JSON object")
		return nil, refuse("invalid_arguments")
	}
	if err := c.checkView(o); err != nil {
		return nil, err
	}
	return o, nil
}

func (c *call) checkView(o object) error {
	wrong, pictures := c.viewProblems(o)
	if len(wrong) == 0 {
		c.share(pictures)
		nameBlocks(c.Workspace, o)
		return nil
	}
	for _, what := range wrong {
		c.blame(ViewLimit, "%s", what)
	}
	return refuse("invalid_arguments", wrong...)
}

// nameBlocks gives block and action ids to what has none, as Slack does.
func nameBlocks(w *Workspace, o object) {
	blocks, _ := o["blocks"].([]any)
	for _, b := range blocks {
		w.nameBlock(b.(object))
	}
}

func (w *Workspace) nameBlock(b object) {
	if b["block_id"] == nil {
		b["block_id"] = secret(5)
	}
	for _, e := range elementsOf(b) {
		if e["action_id"] == nil && e["type"] != "image" {
			e["action_id"] = secret(5)
		}
	}
}

// elementsOf are the interactive elements of a block.
func elementsOf(b object) []object {
	candidates := []any{b["element"], b["accessory"]}
	if b["type"] == "actions" {
		list, _ := b["elements"].([]any)
		candidates = append(candidates, list...)
	}
	var list []object
	for _, c := range candidates {
		if o, ok := c.(object); ok {
			list = append(list, o)
		}
	}
	return list
}

// spend uses a trigger up.
func (c *call) spend() (*trigger, error) {
	t := c.triggers[orDefault(c.args["trigger_id"], c.args["interactivity_pointer"])]
	switch {
	case c.args["trigger_id"] == "" && c.args["interactivity_pointer"] == "":
		c.blame(ArgumentMissing, "trigger_id is needed")
		return nil, refuse("invalid_arguments", "[ERROR] missing required field: trigger_id")
	case t == nil:
		c.blame(TriggerUnknown, "this trigger was never given")
		return nil, refuse("invalid_trigger_id")
	case t.used:
		c.blame(TriggerUsed, "this trigger has opened a view")
		return nil, refuse("exchanged_trigger_id")
	case time.Since(t.born) > c.opts.AckWithin:
		c.blame(TriggerLate, "this trigger is %v old", time.Since(t.born).Round(time.Millisecond))
		return nil, refuse("expired_trigger_id")
	}
	t.used = true
	return t, nil
}

func (c *call) openView(push bool) (object, error) {
	o, err := c.readView()
	if err != nil {
		return nil, err
	}
	t, err := c.spend()
	if err != nil {
		return nil, err
	}
	below := c.top(t.user)
	if push && (below == nil || c.depth(t.user) >= 3) {
		return nil, refuse("push_limit_reached")
	}
	if !push {
		c.closeViews(t.user)
		below = nil
	}
	return object{"view": c.viewJSON(c.pushView(t.user, o, below))}, nil
}

func (w *Workspace) pushView(user string, o object, below *view) *view {
	v := &view{id: w.id("V"), user: user, content: o, hash: w.stamp() + "." + secret(8)}
	v.root = v.id
	if below != nil {
		v.root, v.previous = below.root, below.id
	}
	w.views = append(w.views, v)
	return v
}

// top is the view that a person has in front of them.
func (w *Workspace) top(user string) *view {
	for _, v := range slices.Backward(w.views) {
		if v.user == user && !v.closed {
			return v
		}
	}
	return nil
}

func (w *Workspace) depth(user string) int {
	n := 0
	for _, v := range w.views {
		if v.user == user && !v.closed {
			n++
		}
	}
	return n
}

func (w *Workspace) closeViews(user string) {
	for _, v := range w.views {
		if v.user == user {
			v.closed = true
		}
	}
}

func (w *Workspace) view(id string) *view {
	i := slices.IndexFunc(w.views, func(v *view) bool { return v.id == id })
	if i < 0 {
		return nil
	}
	return w.views[i]
}

func (c *call) updateView() (object, error) {
	o, err := c.readView()
	if err != nil {
		return nil, err
	}
	v := c.view(c.args["view_id"])
	if ext := c.args["external_id"]; v == nil && ext != "" {
		for _, candidate := range c.views {
			if candidate.content["external_id"] == ext {
				v = candidate
			}
		}
	}
	switch {
	case v == nil || v.closed:
		return nil, refuse("not_found")
	case c.args["hash"] != "" && c.args["hash"] != v.hash:
		return nil, refuse("hash_conflict")
	}
	v.content, v.hash = o, c.stamp()+"."+secret(8)
	return object{"view": c.viewJSON(v)}, nil
}

func (c *call) publishView() (object, error) {
	c.blame(ViewLimit, "the app's manifest has no home tab")
	return nil, refuse("not_enabled")
}
