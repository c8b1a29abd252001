package slackdouble

import (
	"strings"
	"testing"
	"time"
)

// TestFaults: what each fault does to a post, and what it tells.
func TestFaults(t *testing.T) {
	for name, c := range map[string]struct {
		fault Fault
		shown int    // the root among them
		told  string // the beginning of the error
	}{
		"commit_and_drop":   {CommitAndDrop(), 2, "connection: "},
		"commit_and_status": {CommitAndStatus(504), 2, "decode: "},
		"commit_and_garble": {CommitAndGarble(), 2, "decode: "},
		"drop":              {Drop(), 1, "connection: "},
		"status":            {Status(503), 1, "decode: "},
		"refuse":            {Refuse("fatal_error"), 1, "fatal_error"},
		"slow":              {Slow(time.Millisecond), 2, ""},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			r.w.Fail("chat.postMessage", c.fault)
			if list := r.w.Unspent(); len(list) != 1 {
				t.Errorf("waiting are faults of %v", list)
			}
			told, _ := r.call("chat.postMessage", "channel", r.channel, "text", "x")["error"].(string)
			if told != c.told && (c.told == "" || !strings.HasPrefix(told, c.told)) {
				t.Errorf("told %q, want %q", told, c.told)
			}
			if shown := r.w.Messages(r.channel); len(shown) != c.shown || len(r.w.Unspent()) != 0 {
				t.Errorf("%d are shown, want %d; waiting are faults of %v", len(shown), c.shown, r.w.Unspent())
			}
			if o := r.call("chat.postMessage", "channel", r.channel, "text", "x"); o["ok"] != true {
				t.Errorf("the next post: %v", o)
			}
			clean(t, r.w)
		})
	}
}

// refusals are what a client may run into without breaking a rule.
var refusals = map[string]struct {
	do   func(*raw) map[string]any
	want string
}{
	"no_channel": {func(r *raw) map[string]any {
		return r.call("chat.postMessage", "channel", "C999", "text", "x")
	}, "channel_not_found"},
	"archived": {func(r *raw) map[string]any { r.w.Archive(r.channel); return post(r) }, "is_archived"},
	"archived_react": {func(r *raw) map[string]any {
		r.w.Archive(r.channel)
		return r.call("reactions.add", "channel", r.channel, "timestamp", r.root, "name", "eyes")
	}, "is_archived"},
	"removed": {func(r *raw) map[string]any { r.w.Remove(r.channel, r.w.BotUser); return post(r) }, "not_in_channel"},
	"removed_private": {func(r *raw) map[string]any {
		r.channel = r.w.AddPrivate("shop")
		r.w.Remove(r.channel, r.w.BotUser)
		return post(r)
	}, "channel_not_found"},
	"thread_deleted": {func(r *raw) map[string]any {
		r.w.Delete(r.channel, r.root)
		return r.call("chat.postMessage", "channel", r.channel, "text", "x", "thread_ts", r.root)
	}, "thread_not_found"},
	"update_deleted": {func(r *raw) map[string]any {
		r.w.Delete(r.channel, r.root)
		return r.call("chat.update", "channel", r.channel, "ts", r.root, "text", "x")
	}, "message_not_found"},
	"reacted": {func(r *raw) map[string]any {
		r.call("reactions.add", "channel", r.channel, "timestamp", r.root, "name", "eyes")
		return r.call("reactions.add", "channel", r.channel, "timestamp", r.root, "name", "eyes")
	}, "already_reacted"},
	"not_reacted": {func(r *raw) map[string]any {
		return r.call("reactions.remove", "channel", r.channel, "timestamp", r.root, "name", "eyes")
	}, "no_reaction"},
	"stale_view": {func(r *raw) map[string]any {
		return r.call("views.update", "view_id", r.view(), "hash", "1", "view", aView)
	}, "hash_conflict"},
	"too_long": {func(r *raw) map[string]any {
		defer r.w.Forget() // more than the advised length, too
		return r.call("chat.postMessage", "channel", r.channel, "text", strings.Repeat("x", 40001))
	}, "msg_too_long"},
	"two_texts": {func(r *raw) map[string]any {
		return r.call("chat.postMessage", "channel", r.channel, "text", "x", "markdown_text", "y")
	}, "markdown_text_conflict"},
	"stranger": {func(r *raw) map[string]any {
		return r.call("chat.postEphemeral", "channel", r.channel, "user", "U999", "text", "x")
	}, "user_not_in_channel"},
	"update_nothing": {func(r *raw) map[string]any {
		return r.call("chat.update", "channel", r.channel, "ts", r.root)
	}, "no_text"},
	"read_removed": {func(r *raw) map[string]any {
		r.w.Remove(r.channel, r.w.BotUser)
		return r.call("conversations.history", "channel", r.channel)
	}, "not_in_channel"},
	"read_private": {func(r *raw) map[string]any {
		room := r.w.AddPrivate("shop")
		r.w.Remove(room, r.w.BotUser)
		return r.call("conversations.info", "channel", room)
	}, "channel_not_found"},
	"react_to_nothing": {func(r *raw) map[string]any {
		return r.call("reactions.add", "channel", r.channel, "timestamp", "1700000000.000001", "name", "eyes")
	}, "message_not_found"},
	"join_archived": {func(r *raw) map[string]any {
		r.w.opts.Scopes = append(r.w.opts.Scopes, "channels:join")
		r.w.Remove(r.channel, r.w.BotUser)
		r.w.Archive(r.channel)
		return r.call("conversations.join", "channel", r.channel)
	}, "is_archived"},
	"gone_person": {func(r *raw) map[string]any {
		r.w.user(r.ines).deleted = true
		return r.call("conversations.open", "users", r.ines)
	}, "user_disabled"},
	"third_view_on_top": {func(r *raw) map[string]any {
		r.view()
		for range 2 {
			r.call("views.push", "trigger_id", r.w.Trigger(r.ines), "view", aView)
		}
		return r.call("views.push", "trigger_id", r.w.Trigger(r.ines), "view", aView)
	}, "push_limit_reached"},
	"closed_view": {func(r *raw) map[string]any {
		id := r.view()
		r.w.CloseView(r.ines, id)
		return r.call("views.update", "view_id", id, "view", aView)
	}, "not_found"},
	"others_file": {func(r *raw) map[string]any {
		r.photo()
		return r.call("files.delete", "file", r.aFile())
	}, "cant_delete_file"},
	"nobody": {func(r *raw) map[string]any { return r.call("users.info", "user", "U999") }, "user_not_found"},
	"not_uploaded": {func(r *raw) map[string]any {
		id := r.call("files.getUploadURLExternal", "filename", "a.png", "length", "3")["file_id"].(string)
		return r.call("files.completeUploadExternal", "files", `[{"id":"`+id+`"}]`)
	}, "file_not_found"},
}

func post(r *raw) map[string]any {
	return r.call("chat.postMessage", "channel", r.channel, "text", "x")
}

// TestRefusals: each is told by its code, and none is held against the client.
func TestRefusals(t *testing.T) {
	for name, c := range refusals {
		t.Run(name, func(t *testing.T) {
			r := newRaw(t, Options{})
			if o := c.do(r); o["error"] != c.want {
				t.Errorf("answered %v, want %s", o, c.want)
			}
			clean(t, r.w)
		})
	}
}

// TestProcessing: a picture cannot be shown while its file is being worked on.
func TestProcessing(t *testing.T) {
	r := newRaw(t, Options{Processing: 50 * time.Millisecond})
	o := r.call("files.getUploadURLExternal", "filename", "a.png", "length", "3")
	r.respond(o["upload_url"].(string), "png")
	id := o["file_id"].(string)
	r.call("files.completeUploadExternal", "files", `[{"id":"`+id+`","title":"the board"}]`)
	show := func() any {
		return r.call("chat.postMessage", "channel", r.channel, "text", "x", "blocks",
			`[{"type":"image","alt_text":"the board","slack_file":{"id":"`+id+`"}}]`)["error"]
	}
	if code := show(); code != "invalid_blocks" {
		t.Errorf("shown at once: %v", code)
	}
	eventually(t, func() bool { return show() == nil })
	if shown := r.w.Messages(r.channel); len(shown) != 2 {
		t.Errorf("%d are shown, want 2: completing without a channel posts nothing", len(shown))
	}
	for range 2 {
		r.call("files.completeUploadExternal", "files", `[{"id":"`+id+`"}]`, "channel_id", r.channel)
	}
	if shown := r.w.Messages(r.channel); len(shown) != 4 {
		t.Errorf("%d are shown, want 4: completing with a channel posts each time", len(shown))
	}
	clean(t, r.w)
}
