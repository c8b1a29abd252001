package slackdouble

import (
	"slices"
	"strings"
)

func (w *Workspace) channelJSON(ch *channel) object {
	o := object{
		"id": ch.id, "created": ch.created, "is_archived": ch.archived, "is_im": ch.kind == direct, "is_org_shared": false,
		"is_channel": ch.kind == public, "is_group": ch.kind == private, "is_private": ch.kind != public,
		"is_mpim": false, "context_team_id": w.TeamID, "updated": ch.created * 1000,
	}
	if ch.kind == direct {
		o["user"], o["is_open"] = ch.with, true
		return o
	}
	o["name"], o["name_normalized"], o["creator"] = ch.name, ch.name, w.BotUser
	o["is_member"], o["is_general"], o["is_shared"] = ch.has(w.BotUser), false, false
	o["topic"] = object{"value": "", "creator": "", "last_set": 0}
	o["purpose"] = object{"value": "", "creator": "", "last_set": 0}
	return o
}

// visible tells whether the app can see that a channel exists.
func (w *Workspace) visible(ch *channel) bool { return ch.kind == public || ch.has(w.BotUser) }

func (c *call) channelInfo() (object, error) {
	ch := c.channel(c.args["channel"])
	if ch == nil || !c.visible(ch) {
		return nil, refuse("channel_not_found")
	}
	if err := c.scope(scopeOf(ch, "read")); err != nil {
		return nil, err
	}
	o := c.channelJSON(ch)
	if c.flag("include_num_members") {
		o["num_members"] = len(ch.members)
	}
	return object{"channel": o}, nil
}

// ofTypes lists the channels of the types that were asked for; each type needs its
// own scope.
func (c *call) ofTypes(keep func(*channel) bool) (object, error) {
	types := orDefault(c.args["types"], "public_channel")
	kinds := map[string]channelKind{"public_channel": public, "private_channel": private, "im": direct, "mpim": ""}
	var wanted []channelKind
	for t := range strings.SplitSeq(types, ",") {
		kind, known := kinds[strings.TrimSpace(t)]
		if !known {
			c.blame(ArgumentShape, "types is %q", types)
			return nil, refuse("invalid_types")
		}
		needs := scopeOf(&channel{kind: kind}, "read")
		if kind == "" {
			needs = "mpim:read"
		}
		if err := c.scope(needs); err != nil {
			return nil, err
		}
		wanted = append(wanted, kind)
	}
	list := []any{}
	for _, ch := range c.channels {
		if slices.Contains(wanted, ch.kind) && c.visible(ch) && !(ch.archived && c.flag("exclude_archived")) && keep(ch) {
			list = append(list, c.channelJSON(ch))
		}
	}
	page, next, err := paged(c, list, 100, 1000)
	if err != nil {
		return nil, err
	}
	return withCursor(object{"channels": page}, next), nil
}

func (c *call) channelList() (object, error) {
	return c.ofTypes(func(*channel) bool { return true })
}

func (c *call) channelsOf() (object, error) {
	who := orDefault(c.args["user"], c.BotUser)
	return c.ofTypes(func(ch *channel) bool { return ch.has(who) })
}

func (c *call) channelMembers() (object, error) {
	ch := c.channel(c.args["channel"])
	if ch == nil || !c.visible(ch) {
		return nil, refuse("channel_not_found")
	}
	if err := c.scope(scopeOf(ch, "read")); err != nil {
		return nil, err
	}
	page, next, err := paged(c, ch.members, 100, 1000)
	if err != nil {
		return nil, err
	}
	return withCursor(object{"members": page}, next), nil
}

func (c *call) join() (object, error) {
	ch := c.channel(c.args["channel"])
	switch {
	case ch == nil || ch.kind != public && !ch.has(c.BotUser):
		return nil, refuse("channel_not_found")
	case ch.kind != public:
		return nil, refuse("method_not_supported_for_channel_type")
	case ch.archived:
		return nil, refuse("is_archived")
	case ch.has(c.BotUser):
		c.warnings = append(c.warnings, "already_in_channel")
	default:
		ch.members = append(ch.members, c.BotUser)
	}
	return object{"channel": c.channelJSON(ch)}, nil
}

// openDirect opens the conversation with one person, or finds it again.
func (c *call) openDirect() (object, error) {
	users := strings.Split(c.args["users"], ",")
	ch := c.channel(c.args["channel"])
	switch {
	case (c.args["users"] == "") == (c.args["channel"] == ""):
		c.blame(ArgumentMissing, "either users or channel")
		return nil, refuse("users_list_not_supplied")
	case c.args["channel"] != "" && (ch == nil || ch.kind != direct):
		return nil, refuse("channel_not_found")
	case ch == nil && len(users) > 1:
		return nil, c.scope("mpim:write")
	case ch == nil:
		u := c.user(users[0])
		if u == nil || u.bot {
			return nil, refuse("user_not_found")
		}
		if u.deleted {
			return nil, refuse("user_disabled")
		}
		known := len(c.channels)
		ch = c.directWith(u.id)
		return c.opened(ch, known == len(c.channels)), nil
	}
	return c.opened(ch, true), nil
}

func (c *call) opened(ch *channel, already bool) object {
	o := object{"channel": object{"id": ch.id}}
	if c.flag("return_im") {
		o["channel"] = c.channelJSON(ch)
	}
	if already {
		o["no_op"], o["already_open"] = true, true
	}
	return o
}

// directWith is the conversation between a person and the bot.
func (w *Workspace) directWith(user string) *channel {
	i := slices.IndexFunc(w.channels, func(ch *channel) bool { return ch.with == user })
	if i >= 0 {
		return w.channels[i]
	}
	ch := w.newChannel("D", "", direct)
	ch.with, ch.members = user, []string{user, w.BotUser}
	return ch
}
