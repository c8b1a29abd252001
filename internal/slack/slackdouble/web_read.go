package slackdouble

import (
	"encoding/base64"
	"slices"
	"strconv"
	"strings"
)

// readable finds a channel whose messages the app may read: it is in it, and the
// scope for channels of that kind was granted.
func (c *call) readable() (*channel, error) {
	ch := c.channel(c.args["channel"])
	if ch == nil || ch.kind != public && !ch.has(c.BotUser) {
		return nil, refuse("channel_not_found")
	}
	if err := c.scope(scopeOf(ch, "history")); err != nil {
		return nil, err
	}
	if !ch.has(c.BotUser) {
		return nil, refuse("not_in_channel")
	}
	return ch, nil
}

func scopeOf(ch *channel, what string) string {
	switch ch.kind {
	case private:
		return "groups:" + what
	case direct:
		return "im:" + what
	default:
		return "channels:" + what
	}
}

// span tells whether a message lies between oldest and latest.
func (c *call) span(ts string) bool {
	ts = padTS(ts)
	inside := func(bound string, sign int) bool {
		if bound == "" {
			return true
		}
		order := sign * strings.Compare(ts, padTS(bound))
		return order > 0 || order == 0 && c.flag("inclusive")
	}
	return inside(c.args["oldest"], 1) && inside(c.args["latest"], -1)
}

// history is the open channel, newest first; replies are not in it unless they
// were shown there too.
func (c *call) history() (object, error) {
	ch, err := c.readable()
	if err != nil {
		return nil, err
	}
	var list []*message
	for _, m := range slices.Backward(ch.messages) {
		if m.ephemeral == "" && (m.thread == "" || m.broadcast) && c.span(m.ts) {
			list = append(list, m)
		}
	}
	page, more, err := paged(c, list, 100, 999)
	if err != nil {
		return nil, err
	}
	return c.pageOf(ch, page, more), nil
}

// threadReplies is the root, always, and the replies in the span, oldest first.
func (c *call) threadReplies() (object, error) {
	ch, err := c.readable()
	if err != nil {
		return nil, err
	}
	root := ch.find(c.args["ts"])
	if root == nil {
		return nil, refuse("thread_not_found")
	}
	var list []*message
	if root.thread == "" { // a reply's ts gives the reply alone. MEMORY
		for _, m := range ch.replies(root.ts) {
			if c.span(m.ts) {
				list = append(list, m)
			}
		}
	}
	page, more, err := paged(c, list, 1000, 1000)
	if err != nil {
		return nil, err
	}
	return c.pageOf(ch, append([]*message{root}, page...), more), nil
}

func (c *call) pageOf(ch *channel, page []*message, next string) object {
	list := []any{}
	for _, m := range page {
		list = append(list, c.json(ch, m, c.flag("include_all_metadata")))
	}
	o := object{"messages": list, "has_more": next != "", "pin_count": 0}
	return withCursor(o, next)
}

func withCursor(o object, next string) object {
	o["response_metadata"] = object{"next_cursor": next}
	return o
}

// paged cuts a list by limit and cursor. A cursor is only good for the call that
// it came from.
func paged[T any](c *call, list []T, standard, most int) (page []T, next string, err error) {
	limit, from := standard, 0
	if s := c.args["limit"]; s != "" {
		limit, _ = strconv.Atoi(s) // its shape was checked
	}
	limit = min(max(limit, 1), most)
	if s := c.args["cursor"]; s != "" {
		raw, _ := base64.StdEncoding.DecodeString(s)
		n, found := strings.CutPrefix(string(raw), c.cursorName())
		if from, err = strconv.Atoi(n); err != nil || !found || from > len(list) {
			c.blame(ArgumentShape, "cursor %q was not given for this call", s)
			return nil, "", refuse("invalid_cursor")
		}
	}
	to := min(from+limit, len(list))
	if to < len(list) {
		next = base64.StdEncoding.EncodeToString([]byte(c.cursorName() + strconv.Itoa(to)))
	}
	return list[from:to], next, nil
}

func (c *call) cursorName() string {
	return strings.Join([]string{c.method.name, c.args["channel"], c.args["ts"], c.args["oldest"], c.args["types"], ""}, "/")
}

func (c *call) reactionsOf() (object, error) {
	ch := c.channel(c.args["channel"])
	if ch == nil || !ch.has(c.BotUser) {
		return nil, refuse("channel_not_found")
	}
	m := ch.find(c.args["timestamp"])
	if m == nil {
		return nil, refuse("message_not_found")
	}
	return object{"type": "message", "channel": ch.id, "message": c.json(ch, m, false)}, nil
}

func (c *call) react(add bool) (object, error) {
	ch, err := c.target(false)
	if err != nil {
		return nil, err
	}
	if c.args["timestamp"] == "" {
		return nil, refuse("no_item_specified")
	}
	m := ch.find(c.args["timestamp"])
	name := c.args["name"]
	switch {
	case m == nil:
		return nil, refuse("message_not_found")
	case !isEmojiName(name):
		c.blame(ArgumentShape, "%q is no name of an emoji", name)
		return nil, refuse("invalid_name")
	case m.react(name, c.BotUser, add):
		c.tell(ch, c.reactionEvent(ch, m, name, c.BotUser, add))
		return nil, nil
	case add:
		return nil, refuse("already_reacted")
	default:
		return nil, refuse("no_reaction")
	}
}
