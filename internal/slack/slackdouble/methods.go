package slackdouble

import (
	"slices"
	"strings"
)

// The names of arguments were compared with the request types of Slack's own
// package @slack/web-api 8.2.0; the limits of blocks with @slack/types 3.2.0.

// method is one method of the Web API: which token and scope it takes, how often
// it may be called, which arguments it knows and what it does.
type method struct {
	name  string
	app   bool // takes the app-level token
	scope string
	tier  tier
	posts bool // counts by channel
	json  bool // reads a JSON body; all read forms
	need  []string
	may   []string
	do    func(*call) (object, error)
}

var methods = index(slices.Concat(chatMethods(), readMethods(), roomMethods(), peopleMethods(), fileMethods(), viewMethods()))

func index(list []method) map[string]*method {
	m := map[string]*method{}
	for i := range list {
		m[list[i].name] = &list[i]
	}
	return m
}

func words(s string) []string { return strings.Fields(s) }

// The arguments by which chat methods show something.
const shows = "text blocks attachments markdown_text as_user link_names parse metadata "

// chatMethods write messages.
func chatMethods() []method {
	return []method{
		{
			name: "chat.postMessage", scope: "chat:write", posts: true, json: true, need: words("channel"), do: (*call).postMessage,
			may: words(shows + "thread_ts reply_broadcast mrkdwn unfurl_links unfurl_media username icon_emoji icon_url"),
		},
		{
			name: "chat.postEphemeral", scope: "chat:write", tier: tier4, json: true, need: words("channel user"),
			may: words("text blocks attachments markdown_text as_user link_names parse thread_ts username icon_emoji icon_url"),
			do:  (*call).postEphemeral,
		},
		{
			name: "chat.update", scope: "chat:write", tier: tier3, json: true, need: words("channel ts"),
			may: words(shows + "file_ids reply_broadcast unfurl_links unfurl_media"), do: (*call).update,
		},
		{
			name: "chat.delete", scope: "chat:write", tier: tier3, json: true, need: words("channel ts"), may: words("as_user"),
			do: (*call).deleteMessage,
		},
		{name: "chat.getPermalink", tier: special, need: words("channel message_ts"), do: (*call).permalink},
		{
			name: "reactions.add", scope: "reactions:write", tier: tier3, json: true, need: words("channel name timestamp"),
			do: func(c *call) (object, error) { return c.react(true) },
		},
		{
			name: "reactions.remove", scope: "reactions:write", tier: tier2, json: true, need: words("name"),
			may: words("channel timestamp file file_comment"),
			do:  func(c *call) (object, error) { return c.react(false) },
		},
	}
}

// readMethods read messages back. Their scope hangs on the channel's kind and is
// asked for when that is known.
func readMethods() []method {
	return []method{
		{
			name: "conversations.history", tier: tier3, need: words("channel"), do: (*call).history,
			may: words("cursor include_all_metadata inclusive latest limit oldest"),
		},
		{
			name: "conversations.replies", tier: tier3, need: words("channel ts"), do: (*call).threadReplies,
			may: words("cursor include_all_metadata inclusive latest limit oldest"),
		},
		{
			name: "reactions.get", scope: "reactions:read", tier: tier3, may: words("channel timestamp file file_comment full"),
			do: (*call).reactionsOf,
		},
	}
}

// roomMethods are about channels.
func roomMethods() []method {
	return []method{
		{
			name: "conversations.info", tier: tier3, need: words("channel"), may: words("include_locale include_num_members"),
			do: (*call).channelInfo,
		},
		{
			name: "conversations.list", tier: tier2, may: words("cursor exclude_archived limit team_id types"),
			do: (*call).channelList,
		},
		{
			name: "users.conversations", tier: tier3, may: words("cursor exclude_archived limit team_id types user"),
			do: (*call).channelsOf,
		},
		{
			name: "conversations.members", tier: tier4, need: words("channel"), may: words("cursor limit"),
			do: (*call).channelMembers,
		},
		{name: "conversations.join", scope: "channels:join", tier: tier3, json: true, need: words("channel"), do: (*call).join},
		{
			name: "conversations.open", scope: "im:write", tier: tier3, json: true,
			may: words("channel users return_im prevent_creation"), do: (*call).openDirect,
		},
	}
}

// peopleMethods are about people and the app itself.
func peopleMethods() []method {
	return []method{
		{name: "auth.test", tier: special, json: true, do: (*call).authTest},
		{name: "api.test", tier: tier4, json: true, may: words("error foo"), do: func(*call) (object, error) { return object{}, nil }},
		{name: "apps.connections.open", app: true, tier: tier1, json: true, do: (*call).openConnection},
		{name: "users.info", scope: "users:read", tier: tier4, need: words("user"), may: words("include_locale"), do: (*call).userInfo},
		{
			name: "users.list", scope: "users:read", tier: tier2, may: words("cursor include_locale limit team_id"),
			do: (*call).userList,
		},
		{name: "bots.info", scope: "users:read", tier: tier3, may: words("bot team_id"), do: (*call).botInfo},
		{
			name: "usergroups.list", scope: "usergroups:read", tier: tier2, do: (*call).groupList,
			may: words("include_count include_disabled include_users team_id"),
		},
		{
			name: "usergroups.users.list", scope: "usergroups:read", tier: tier2, need: words("usergroup"),
			may: words("include_disabled team_id"), do: (*call).groupUsers,
		},
	}
}

// fileMethods carry pictures.
func fileMethods() []method {
	return []method{
		{
			name: "files.getUploadURLExternal", scope: "files:write", tier: tier4, need: words("filename length"),
			may: words("alt_txt alt_text snippet_type"), do: (*call).uploadURL,
		},
		{
			name: "files.completeUploadExternal", scope: "files:write", tier: tier4, json: true, need: words("files"),
			may: words("channel_id channels initial_comment thread_ts blocks"), do: (*call).completeUpload,
		},
		{
			name: "files.info", scope: "files:read", tier: tier4, need: words("file"), may: words("count cursor limit page"),
			do: (*call).fileInfo,
		},
		{name: "files.delete", scope: "files:write", tier: tier3, json: true, need: words("file"), do: (*call).deleteFile},
	}
}

// viewMethods show modals.
func viewMethods() []method {
	return []method{
		{
			name: "views.open", tier: tier4, json: true, need: words("view"), may: words("trigger_id interactivity_pointer"),
			do: func(c *call) (object, error) { return c.openView(false) },
		},
		{
			name: "views.push", tier: tier4, json: true, need: words("view"), may: words("trigger_id interactivity_pointer"),
			do: func(c *call) (object, error) { return c.openView(true) },
		},
		{
			name: "views.update", tier: tier4, json: true, need: words("view"), may: words("view_id external_id hash"),
			do: (*call).updateView,
		},
		{
			name: "views.publish", tier: tier4, json: true, need: words("user_id view"), may: words("hash"),
			do: (*call).publishView,
		},
	}
}
