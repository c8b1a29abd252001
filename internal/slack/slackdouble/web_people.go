package slackdouble

import (
	"slices"
	"time"
)

func (c *call) authTest() (object, error) {
	return object{
		"url": "http://" + c.addr + "/", "team": "Cedar Valley Fire", "user": "crosslay", "team_id": c.TeamID,
		"user_id": c.BotUser, "bot_id": c.BotID, "is_enterprise_install": false,
	}, nil
}

func (w *Workspace) userJSON(u *member) object {
	return object{
		"id": u.id, "team_id": w.TeamID, "name": u.name, "deleted": u.deleted, "real_name": u.realName, "is_bot": u.bot,
		"is_app_user": false, "tz": "America/Denver", "tz_offset": -25200, "updated": 0,
		"profile": object{
			"real_name": u.realName, "real_name_normalized": u.realName, "team": w.TeamID,
			"display_name": u.displayName, "display_name_normalized": u.displayName,
		},
	}
}

func (c *call) userInfo() (object, error) {
	u := c.user(c.args["user"])
	if u == nil {
		return nil, refuse("user_not_found")
	}
	return object{"user": c.userJSON(u)}, nil
}

func (c *call) userList() (object, error) {
	page, next, err := paged(c, c.users, 1000, 1000)
	if err != nil {
		return nil, err
	}
	list := []any{}
	for _, u := range page {
		list = append(list, c.userJSON(u))
	}
	return withCursor(object{"members": list, "cache_ts": time.Now().Unix()}, next), nil
}

func (c *call) botInfo() (object, error) {
	if c.args["bot"] != "" && c.args["bot"] != c.BotID {
		return nil, refuse("bot_not_found")
	}
	return object{"bot": object{"id": c.BotID, "app_id": c.AppID, "user_id": c.BotUser, "name": "crosslay", "deleted": false}}, nil
}

func (c *call) groupList() (object, error) {
	list := []any{}
	for _, g := range c.groups {
		o := object{"id": g.id, "team_id": c.TeamID, "is_usergroup": true, "handle": g.handle, "name": g.handle, "date_delete": 0}
		if c.flag("include_users") {
			o["users"] = g.users
		}
		list = append(list, o)
	}
	return object{"usergroups": list}, nil
}

func (c *call) groupUsers() (object, error) {
	i := slices.IndexFunc(c.groups, func(g *group) bool { return g.id == c.args["usergroup"] })
	if i < 0 {
		return nil, refuse("no_such_subteam")
	}
	return object{"users": c.groups[i].users}, nil
}
