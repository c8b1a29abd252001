package slackdouble

import (
	"slices"
	"time"
)

// AddUser lets a person join the workspace and returns their id. They are in no
// channel until they are invited or AddChannel names them.
func (w *Workspace) AddUser(name, realName string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	u := &member{id: w.id("U"), name: name, realName: realName, displayName: name}
	w.users = append(w.users, u)
	return u.id
}

// AddGroup makes a user group and returns its id.
func (w *Workspace) AddGroup(handle string, users ...string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	g := &group{id: w.id("S"), handle: handle, users: users}
	w.groups = append(w.groups, g)
	return g.id
}

// AddChannel makes a public channel, with the bot in it, and returns its id.
func (w *Workspace) AddChannel(name string, users ...string) string {
	return w.add(name, public, users)
}

// AddPrivate makes a private channel, with the bot in it, and returns its id.
func (w *Workspace) AddPrivate(name string, users ...string) string {
	return w.add(name, private, users)
}

func (w *Workspace) add(name string, kind channelKind, users []string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.newChannel("C", name, kind)
	ch.members = append([]string{w.BotUser}, users...)
	return ch.id
}

func (w *Workspace) newChannel(letter, name string, kind channelKind) *channel {
	ch := &channel{id: w.id(letter), name: name, kind: kind, gone: map[string]bool{}, created: time.Now().Unix()}
	w.channels = append(w.channels, ch)
	return ch
}

// Direct returns the id of the conversation between a person and the bot.
func (w *Workspace) Direct(user string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.directWith(user).id
}

// Upload is a file that a person sends with a message.
type Upload struct {
	Name string
	Data []byte
}

// Mention is how the bot is called by name in a text.
func (w *Workspace) Mention() string { return "<@" + w.BotUser + ">" }

// Say lets a person write in a channel, or in a thread of it, and returns the
// timestamp. The text is what they type: Slack turns & < > into entities and some
// emoji into names; mentions are typed as <@U...>. It panics for a channel or a
// thread that does not exist, like the others here: the test is wrong then.
func (w *Workspace) Say(user, channelID, thread, text string, files ...Upload) (ts string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	w.joins(ch, user)
	m := &message{ts: w.stamp(), thread: thread, user: user, text: typed(text), clientID: uuid()}
	if thread != "" {
		w.mustMessage(ch, thread)
	}
	if m.text != "" {
		m.blocks = richText(m.text)
	}
	for _, u := range files {
		f := w.newFile(user, u.Name, len(u.Data))
		f.data, f.uploaded, f.completed, f.channels = u.Data, true, true, []string{ch.id}
		m.files, m.subtype = append(m.files, f), "file_share"
	}
	ch.messages = append(ch.messages, m)
	w.tell(ch, w.messageEvent(ch, m))
	return m.ts
}

func richText(text string) []any {
	return []any{object{"type": "rich_text", "block_id": secret(5), "elements": []any{
		object{"type": "rich_text_section", "elements": []any{object{"type": "text", "text": text}}},
	}}}
}

// joins lets a person into a public channel they write in for the first time.
func (w *Workspace) joins(ch *channel, user string) {
	if w.user(user) == nil {
		panic("slackdouble: no user " + user)
	}
	if !ch.has(user) {
		ch.members = append(ch.members, user)
	}
}

// Edit changes the text of a message.
func (w *Workspace) Edit(channelID, ts, text string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	m := w.mustMessage(ch, ts)
	before := w.json(ch, m, false)
	m.text, m.edited, m.editor = typed(text), w.stamp(), m.user
	m.blocks = richText(m.text)
	w.tell(ch, w.changedEvent(ch, m, before))
}

// Unfurl changes a message without anybody's doing, as Slack does when it shows
// what a link leads to: message_changed comes, with the same text.
func (w *Workspace) Unfurl(channelID, ts string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	m := w.mustMessage(ch, ts)
	before := w.json(ch, m, false)
	m.attached = []any{object{"id": 1, "fallback": "a page", "from_url": "https://example.invalid/"}}
	w.tell(ch, w.changedEvent(ch, m, before))
}

// Delete takes a message away. A root with replies leaves a tombstone.
func (w *Workspace) Delete(channelID, ts string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	w.delete(ch, w.mustMessage(ch, ts))
}

// React lets a person put an emoji on a message, by its name ("+1",
// "+1::skin-tone-3"). It tells whether it was not there before.
func (w *Workspace) React(user, channelID, ts, name string) bool {
	return w.reacts(user, channelID, ts, name, true)
}

// Unreact takes a reaction away.
func (w *Workspace) Unreact(user, channelID, ts, name string) bool {
	return w.reacts(user, channelID, ts, name, false)
}

func (w *Workspace) reacts(user, channelID, ts, name string, add bool) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	m := w.mustMessage(ch, ts)
	if !m.react(name, user, add) {
		return false
	}
	w.tell(ch, w.reactionEvent(ch, m, name, user, add))
	return true
}

func (w *Workspace) mustChannel(id string) *channel {
	if ch := w.channel(id); ch != nil {
		return ch
	}
	panic("slackdouble: no channel " + id)
}

func (w *Workspace) mustMessage(ch *channel, ts string) *message {
	i := slices.IndexFunc(ch.messages, func(m *message) bool { return m.ts == ts })
	if i < 0 {
		panic("slackdouble: no message " + ts + " in " + ch.id)
	}
	return ch.messages[i]
}
