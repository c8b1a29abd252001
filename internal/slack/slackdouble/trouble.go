package slackdouble

import "slices"

// The reasons of a disconnect. Warning comes about ten seconds before the end of a
// socket, RefreshRequested with it, LinkDisabled when Socket Mode was switched
// off, TooMany for a socket too many.
const (
	Warning          = "warning"
	RefreshRequested = "refresh_requested"
	LinkDisabled     = "link_disabled"
	TooMany          = "too_many_websockets"
)

// Sockets says how many Socket Mode connections are open and greeted.
func (w *Workspace) Sockets() int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return len(w.sockets)
}

// Disconnect tells every socket to go, with a reason, and cuts it; with Warning it
// tells, and cuts ten seconds later with RefreshRequested.
func (w *Workspace) Disconnect(reason string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, s := range slices.Clone(w.sockets) {
		if reason == Warning {
			s.warn()
			continue
		}
		s.disconnect(reason)
	}
}

// Cut ends every socket without a word.
func (w *Workspace) Cut() {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, s := range slices.Clone(w.sockets) {
		s.shut()
	}
}

// DisableSocketMode switches Socket Mode off, as somebody may do in the app's
// settings: sockets end with link_disabled, and so does each new one at once,
// without a hello. MEMORY: that opening goes on to succeed.
func (w *Workspace) DisableSocketMode() {
	w.mu.Lock()
	w.linkOff = true
	w.mu.Unlock()
	w.Disconnect(LinkDisabled)
}

// EnableSocketMode switches it on again.
func (w *Workspace) EnableSocketMode() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.linkOff = false
}

// Revoke makes a token worthless. Sockets of a revoked app-level token end.
func (w *Workspace) Revoke(token string) {
	w.mu.Lock()
	w.revoked[token] = true
	w.mu.Unlock()
	if token == w.AppToken {
		w.Cut()
	}
}

// Archive archives a channel: it can be read, and nothing can be written.
func (w *Workspace) Archive(channelID string) { w.setArchived(channelID, true) }

// Unarchive brings a channel back.
func (w *Workspace) Unarchive(channelID string) { w.setArchived(channelID, false) }

func (w *Workspace) setArchived(channelID string, archived bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.mustChannel(channelID).archived = archived
}

// Remove takes somebody out of a channel; BotUser, to take the bot out.
func (w *Workspace) Remove(channelID, user string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	ch := w.mustChannel(channelID)
	ch.members = slices.DeleteFunc(ch.members, func(m string) bool { return m == user })
}

// Invite brings somebody into a channel.
func (w *Workspace) Invite(channelID, user string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.joins(w.mustChannel(channelID), user)
}

// Lose loses every event from now on, as in a long outage, until it is called
// with false. What people say meanwhile is in the history alone.
func (w *Workspace) Lose(on bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.muted = on
}

// Lost says how many deliveries never reached the app.
func (w *Workspace) Lost() int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.lost
}

// Redeliver sends the latest event once more, with the same event id, as Slack
// does when an acknowledgement was lost on its side. It tells whether there was
// one.
func (w *Workspace) Redeliver() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.last == nil {
		return false
	}
	again := &delivery{kind: w.last.kind, id: w.last.id, payload: w.last.payload, tries: 1, reason: "timeout"}
	w.attempt(again)
	return true
}

// Odd sends an envelope of a type that no client knows. It must be acknowledged
// like any other.
func (w *Workspace) Odd(kind string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.attempt(&delivery{kind: kind, id: w.id("Ev"), payload: []byte(`{"type":"odd"}`)})
}

// Frame sends a frame as it is to every socket: no JSON, half an envelope.
func (w *Workspace) Frame(text string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, s := range w.sockets {
		s.putRaw([]byte(text))
	}
}

// Publish delivers an event that the double does not make by itself.
func (w *Workspace) Publish(event map[string]any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.publish(event)
}
