package slackdouble

import (
	"fmt"
	"slices"
)

// Rule is the stable name of a rule that a client can break.
type Rule string

// The rules. Each has a request in breaches_test.go that breaks it.
const (
	TokenMissing    Rule = "token-missing"     // a request without a token
	TokenUnknown    Rule = "token-unknown"     // a token that the workspace never gave out
	TokenKind       Rule = "token-kind"        // xoxb- where xapp- belongs, or the other way round
	TokenInQuery    Rule = "token-in-query"    // tokens are never part of an address
	TokensDiffer    Rule = "tokens-differ"     // header and body carry different tokens
	ScopeMissing    Rule = "scope-missing"     // the app's manifest does not ask for the scope of the method
	MethodUnknown   Rule = "method-unknown"    // no such method, or a verb it does not take
	ArgumentUnknown Rule = "argument-unknown"  // the method has no such argument
	ArgumentMissing Rule = "argument-missing"  // a required argument is absent or empty
	ArgumentShape   Rule = "argument-shape"    // not what the argument takes: a number, a JSON array, a timestamp
	BodyType        Rule = "body-type"         // a content type that the method does not read
	BlockLimit      Rule = "block-limit"       // Block Kit: wrong shape, too long, too many, not unique
	ViewLimit       Rule = "view-limit"        // the same for modals
	TextMissing     Rule = "text-missing"      // blocks without the text that notifications and readers show
	TextLong        Rule = "text-long"         // more than the 4000 characters that are advised
	TextRaw         Rule = "text-raw"          // & < > not written as entities
	MetadataShape   Rule = "metadata-shape"    // not {event_type, event_payload}
	ThreadRoot      Rule = "thread-root"       // thread_ts names no message, or one that is a reply
	RateIgnored     Rule = "rate-ignored"      // a request before Retry-After was over
	TicketUsed      Rule = "ticket-used"       // a socket address was used twice, too late, or made up
	AckUnknown      Rule = "ack-unknown"       // acknowledges what was not sent on this socket
	AckTwice        Rule = "ack-twice"         // an envelope is acknowledged once
	AckLate         Rule = "ack-late"          // not within 3 s on a socket that stayed open
	AckPayload      Rule = "ack-payload"       // an answer where none is accepted, or a malformed one
	SocketJunk      Rule = "socket-junk"       // a frame that is no acknowledgement
	PongMissing     Rule = "pong-missing"      // pings are answered
	TriggerUsed     Rule = "trigger-used"      // a trigger opens one view
	TriggerLate     Rule = "trigger-late"      // a trigger lives 3 s
	TriggerUnknown  Rule = "trigger-unknown"   // a trigger that was never given
	ResponseURLUsed Rule = "response-url-used" // five answers within 30 minutes
	UploadLength    Rule = "upload-length"     // the bytes sent are not as many as announced
	UploadUsed      Rule = "upload-used"       // an upload address was used twice, or made up
	DownloadToken   Rule = "download-token"    // files are fetched with the token in the header
	OthersMessage   Rule = "others-message"    // only one's own messages can be edited and deleted
)

// Violation is one breach of a rule. Request names the method or the way it came
// in; neither field ever carries a token.
type Violation struct {
	Rule    Rule
	What    string
	Request string
}

// String is "rule: what (request)".
func (v Violation) String() string {
	return fmt.Sprintf("%s: %s (%s)", v.Rule, v.What, v.Request)
}

// Violations returns every breach so far, oldest first.
func (w *Workspace) Violations() []Violation {
	w.blameMu.Lock()
	defer w.blameMu.Unlock()
	return slices.Clone(w.violations)
}

// Forget empties the list of violations and returns it; for tests that provoke
// some on purpose.
func (w *Workspace) Forget() []Violation {
	w.blameMu.Lock()
	defer w.blameMu.Unlock()
	list := w.violations
	w.violations = nil
	return list
}

// blame records a breach. It has a lock of its own, so it may be called anywhere.
func (w *Workspace) blame(rule Rule, request, format string, args ...any) {
	w.blameMu.Lock()
	defer w.blameMu.Unlock()
	w.violations = append(w.violations, Violation{Rule: rule, What: fmt.Sprintf(format, args...), Request: request})
}
