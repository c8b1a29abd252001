package slackdouble

import (
	"maps"
	"slices"
)

// object is a JSON object as it travels.
type object = map[string]any

// member is a person, or the app's bot.
type member struct {
	id, name, realName, displayName string
	bot, deleted                    bool
}

// group is a user group: an @-name for several people.
type group struct {
	id, handle string
	users      []string
}

type channelKind string

const (
	public  channelKind = "channel"
	private channelKind = "group"
	direct  channelKind = "im"
)

type channel struct {
	id, name string
	kind     channelKind
	archived bool
	with     string // the person of a direct conversation
	members  []string
	messages []*message      // by rising ts, replies included
	gone     map[string]bool // ts of what was deleted
	created  int64
}

type message struct {
	ts, thread string // thread is "" in the open channel
	user       string
	bot        bool
	text       string
	subtype    string
	clientID   string
	broadcast  bool
	blocks     []any
	attached   []any
	metadata   object
	files      []*file
	reactions  []reaction
	edited     string // ts of the edit
	editor     string
	ephemeral  string // the only person who sees it
}

type reaction struct {
	name  string
	users []string
}

func (w *Workspace) user(id string) *member {
	i := slices.IndexFunc(w.users, func(u *member) bool { return u.id == id })
	if i < 0 {
		return nil
	}
	return w.users[i]
}

func (w *Workspace) channel(id string) *channel {
	i := slices.IndexFunc(w.channels, func(c *channel) bool { return c.id == id })
	if i < 0 {
		return nil
	}
	return w.channels[i]
}

func (c *channel) has(user string) bool { return slices.Contains(c.members, user) }

func (c *channel) find(ts string) *message {
	i := slices.IndexFunc(c.messages, func(m *message) bool { return m.ts == ts && m.ephemeral == "" })
	if i < 0 {
		return nil
	}
	return c.messages[i]
}

func (c *channel) replies(root string) []*message {
	var list []*message
	for _, m := range c.messages {
		if m.thread == root && m.ephemeral == "" {
			list = append(list, m)
		}
	}
	return list
}

// remove takes a message out. A root with replies leaves a tombstone.
func (c *channel) remove(m *message) (tombstone bool) {
	c.gone[m.ts] = true
	if m.thread == "" && len(c.replies(m.ts)) > 0 {
		*m = message{ts: m.ts, user: "USLACKBOT", subtype: "tombstone", text: "This message was deleted."}
		return true
	}
	c.messages = slices.DeleteFunc(c.messages, func(o *message) bool { return o == m })
	return false
}

// react adds or takes away; it tells whether that changed anything.
func (m *message) react(name, user string, add bool) bool {
	i := slices.IndexFunc(m.reactions, func(r reaction) bool { return r.name == name })
	if i < 0 {
		if add {
			m.reactions = append(m.reactions, reaction{name, []string{user}})
		}
		return add
	}
	r := &m.reactions[i]
	if slices.Contains(r.users, user) == add {
		return false
	}
	if add {
		r.users = append(r.users, user)
		return true
	}
	r.users = slices.DeleteFunc(r.users, func(u string) bool { return u == user })
	if len(r.users) == 0 {
		m.reactions = slices.Delete(m.reactions, i, i+1)
	}
	return true
}

// json is the message as the API shows it; metadata only where it was asked for.
func (w *Workspace) json(c *channel, m *message, metadata bool) object {
	o := object{"type": "message", "ts": m.ts, "user": m.user, "text": m.text, "team": w.TeamID}
	put(o, "subtype", m.subtype)
	put(o, "client_msg_id", m.clientID)
	if m.bot {
		o["bot_id"], o["app_id"] = w.BotID, w.AppID
		o["bot_profile"] = object{"id": w.BotID, "app_id": w.AppID, "name": "crosslay", "team_id": w.TeamID}
	}
	if len(m.blocks) > 0 {
		o["blocks"] = m.blocks
	}
	if len(m.attached) > 0 {
		o["attachments"] = m.attached
	}
	if metadata && m.metadata != nil {
		o["metadata"] = m.metadata
	}
	if m.edited != "" {
		o["edited"] = object{"user": m.editor, "ts": m.edited}
	}
	if len(m.files) > 0 {
		o["files"] = w.filesJSON(m.files)
		o["upload"] = false
	}
	if len(m.reactions) > 0 {
		o["reactions"] = reactionsJSON(m.reactions)
	}
	maps.Copy(o, threadJSON(c, m))
	return o
}

func put(o object, key, value string) {
	if value != "" {
		o[key] = value
	}
}

func reactionsJSON(list []reaction) []any {
	var out []any
	for _, r := range list {
		out = append(out, object{"name": r.name, "users": slices.Clone(r.users), "count": len(r.users)})
	}
	return out
}

// threadJSON is what a message says of its thread: a reply names its root, a root
// counts its replies.
func threadJSON(c *channel, m *message) object {
	if m.thread != "" {
		o := object{"thread_ts": m.thread}
		if root := c.find(m.thread); root != nil {
			o["parent_user_id"] = root.user
		}
		return o
	}
	replies := c.replies(m.ts)
	if len(replies) == 0 {
		return nil
	}
	var users []string
	for _, r := range replies {
		if !slices.Contains(users, r.user) {
			users = append(users, r.user)
		}
	}
	return object{
		"thread_ts": m.ts, "reply_count": len(replies), "reply_users": users, "reply_users_count": len(users),
		"latest_reply": replies[len(replies)-1].ts, "is_locked": false, "subscribed": slices.Contains(users, m.user),
	}
}
