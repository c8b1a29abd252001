package slackdouble

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode/utf8"
)

// target finds the channel to write to. A post may name a channel or a person; all
// else wants an id.
func (c *call) target(named bool) (*channel, error) {
	id := c.args["channel"]
	ch := c.channel(id)
	if ch == nil && named {
		ch = c.namedTarget(id)
	}
	switch {
	case ch == nil || ch.kind != public && !ch.has(c.BotUser):
		return nil, refuse("channel_not_found")
	case ch.archived:
		return nil, refuse("is_archived")
	case !ch.has(c.BotUser):
		return nil, refuse("not_in_channel")
	}
	return ch, nil
}

func (c *call) namedTarget(id string) *channel {
	if u := c.user(id); u != nil && !u.bot {
		return c.directWith(id)
	}
	name := strings.TrimPrefix(id, "#")
	i := slices.IndexFunc(c.channels, func(ch *channel) bool { return ch.name == name && ch.kind != direct })
	if i < 0 {
		return nil
	}
	return c.channels[i]
}

func (c *call) postMessage() (object, error) {
	ch, err := c.target(true)
	if err != nil {
		return nil, err
	}
	m, err := c.content(message{user: c.BotUser, bot: true})
	if err != nil {
		return nil, err
	}
	if m.text == "" && len(m.blocks) == 0 && len(m.attached) == 0 {
		c.blame(ArgumentMissing, "nothing to show: text, blocks or attachments")
		return nil, refuse("no_text")
	}
	if utf8.RuneCountInString(m.text) > 40000 {
		return nil, refuse("msg_too_long")
	}
	if m.thread, err = c.threadRoot(ch, c.args["thread_ts"]); err != nil {
		return nil, err
	}
	if m.broadcast = c.flag("reply_broadcast"); m.broadcast && m.thread != "" {
		m.subtype = "thread_broadcast"
	}
	m.ts = c.stamp()
	ch.messages = append(ch.messages, &m)
	c.tell(ch, c.messageEvent(ch, &m))
	return object{"channel": ch.id, "ts": m.ts, "message": c.json(ch, &m, true)}, nil
}

func (c *call) postEphemeral() (object, error) {
	ch, err := c.target(false)
	if err != nil {
		return nil, err
	}
	if !ch.has(c.args["user"]) {
		return nil, refuse("user_not_in_channel")
	}
	m, err := c.content(message{user: c.BotUser, bot: true, ephemeral: c.args["user"]})
	if err != nil {
		return nil, err
	}
	if m.thread, err = c.threadRoot(ch, c.args["thread_ts"]); err != nil {
		return nil, err
	}
	m.ts = c.stamp()
	ch.messages = append(ch.messages, &m)
	return object{"message_ts": m.ts}, nil
}

// threadRoot checks a thread_ts: the timestamp of a message that is no reply. Who
// was late for a message that has been deleted breaks no rule.
func (c *call) threadRoot(ch *channel, ts string) (string, error) {
	if ts == "" {
		return "", nil
	}
	switch root := ch.find(ts); {
	case root == nil && !ch.gone[ts]:
		c.blame(ThreadRoot, "thread_ts %s names no message of %s", ts, ch.id)
		fallthrough
	case root == nil:
		return "", refuse("thread_not_found") // MEMORY: the code
	case root.thread != "":
		c.blame(ThreadRoot, "thread_ts %s is a reply; its root is %s", ts, root.thread)
		return "", refuse("cannot_reply_to_message")
	}
	return ts, nil
}

// content reads text, blocks, attachments and metadata into m.
func (c *call) content(m message) (message, error) {
	if text, set := c.args["text"]; set {
		m.text = text
	}
	if md, set := c.args["markdown_text"]; set {
		if utf8.RuneCountInString(md) > 12000 || c.args["text"] != "" || c.args["blocks"] != "" {
			return m, refuse("markdown_text_conflict")
		}
		m.text = md
	}
	c.checkText("text", c.args["text"])
	var err error
	if m.blocks, err = c.blocks(m.blocks); err != nil {
		return m, err
	}
	if raw := c.args["attachments"]; raw != "" {
		if json.Unmarshal([]byte(raw), &m.attached) != nil {
			c.blame(ArgumentShape, "attachments is no JSON array")
			return m, refuse("invalid_attachments")
		}
	}
	if m.metadata, err = c.readMetadata(m.metadata); err != nil {
		return m, err
	}
	if len(m.blocks) > 0 && strings.TrimSpace(c.args["text"]) == "" {
		c.blame(TextMissing, "blocks without a text")
		c.warnings = append(c.warnings, "missing_text_in_message")
	}
	return m, nil
}

func (c *call) checkText(where, text string) {
	if n := utf8.RuneCountInString(text); n > 4000 {
		c.blame(TextLong, "%s has %d characters, 4000 are advised", where, n)
	}
	if at := rawMarkup(text); at != "" {
		c.blame(TextRaw, "%s has %q", where, at)
	}
}

// blocks reads the blocks argument; old stays where there is none.
func (c *call) blocks(old []any) ([]any, error) {
	raw, set := c.args["blocks"]
	if !set || raw == "" {
		return old, nil
	}
	var list []any
	if err := json.Unmarshal([]byte(raw), &list); err != nil {
		c.blame(BlockLimit, "blocks is no JSON array")
		return nil, refuse("invalid_blocks_format")
	}
	k := newCheck(c.Workspace, inMessage)
	k.blockList("blocks", list, 50)
	if len(k.wrong) > 0 {
		for _, what := range k.wrong {
			c.blame(BlockLimit, "%s", what)
		}
		return nil, refuse("invalid_blocks", k.wrong...)
	}
	if k.busy != "" {
		return nil, refuse("invalid_blocks", "[ERROR] "+k.busy)
	}
	c.share(k.pictures)
	for _, b := range list {
		c.nameBlock(b.(object))
	}
	return list, nil
}

func (c *call) readMetadata(old object) (object, error) {
	raw, set := c.args["metadata"]
	if !set || raw == "" {
		return old, nil
	}
	var o object
	if json.Unmarshal([]byte(raw), &o) != nil {
		c.blame(MetadataShape, "metadata is no JSON object")
		return nil, refuse("invalid_metadata_format")
	}
	if len(o) == 0 {
		return nil, nil // takes away what was there
	}
	kind, _ := o["event_type"].(string)
	payload, isObject := o["event_payload"].(object)
	switch {
	case kind == "" || len(kind) > 255 || !isObject || len(o) > 2 && o["entities"] == nil:
		c.blame(MetadataShape, "want event_type, a name, and event_payload, an object")
		return nil, refuse("invalid_metadata_schema")
	case len(encode(payload)) > 8000: // MEMORY: the figure
		c.blame(MetadataShape, "event_payload is too large")
		return nil, refuse("metadata_too_large")
	}
	return o, nil
}

func (c *call) update() (object, error) {
	ch, m, err := c.own("cant_update_message")
	if err != nil {
		return nil, err
	}
	next, err := c.content(*m) // what is not given stays
	if err != nil {
		return nil, err
	}
	if c.args["text"] == "" && c.args["blocks"] == "" && c.args["attachments"] == "" && c.args["markdown_text"] == "" {
		return nil, refuse("no_text")
	}
	before := c.json(ch, m, false)
	*m = next
	m.edited, m.editor = c.stamp(), c.BotUser
	c.tell(ch, c.changedEvent(ch, m, before))
	return object{"channel": ch.id, "ts": m.ts, "text": m.text, "message": c.json(ch, m, true)}, nil
}

// own finds the message that ts names, if it is the bot's.
func (c *call) own(otherwise string) (*channel, *message, error) {
	ch, err := c.target(false)
	if err != nil {
		return nil, nil, err
	}
	m := ch.find(c.args["ts"])
	switch {
	case m == nil:
		return nil, nil, refuse("message_not_found")
	case m.user != c.BotUser:
		c.blame(OthersMessage, "%s is not the app's message", m.ts)
		return nil, nil, refuse(otherwise)
	}
	return ch, m, nil
}

func (c *call) deleteMessage() (object, error) {
	ch, m, err := c.own("cant_delete_message")
	if err != nil {
		return nil, err
	}
	c.delete(ch, m)
	return object{"channel": ch.id, "ts": c.args["ts"]}, nil
}

func (c *call) permalink() (object, error) {
	ch := c.channel(c.args["channel"])
	if ch == nil {
		return nil, refuse("channel_not_found")
	}
	if ch.find(c.args["message_ts"]) == nil {
		return nil, refuse("message_not_found")
	}
	at := "p" + strings.Replace(c.args["message_ts"], ".", "", 1)
	return object{"channel": ch.id, "permalink": "http://" + c.addr + "/archives/" + ch.id + "/" + at}, nil
}
