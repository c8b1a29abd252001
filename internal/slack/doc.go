// Package slack is the backend for departments on Slack, by an internal app of
// their own.
//
// Bottom-up: emoji, text and stamp translate small things; wire has what Slack
// sends, and event makes chat.Events of it; blocks, button and form make what
// Slack shows of a chat.Message. All of that is pure. mark and ledger remember of
// each message and channel what was taken of it, so that what is delivered late,
// twice or in disorder is no news. door is the one way in, for Socket Mode
// (socket), signed HTTP requests (hook) and what was missed meanwhile (catchup):
// stored first, acknowledged then; behind knows what is not caught up with. post
// is the way out and looks for what may have arrived, pace keeps to the limits
// that Slack publishes, picture carries photos, and trouble sorts Slack's errors
// into those that mean wait, refused, and nobody knows. inspect says what is
// missing before any of it begins.
//
// Slack has no key by which a post may be repeated. The key of each message goes
// along in its metadata; a message in doubt is looked for there before it is sent
// again.
package slack
