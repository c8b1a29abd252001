// Package outbox takes messages from a durable queue to the services that show
// them, each exactly once wherever a service gives the means, and never twice.
//
// A message goes ready -> sending -> sent, refused or uncertain. It is marked
// sending, durably, before the network hears of it: whoever finds it sending
// after a crash knows that it may have arrived. Such a message is in doubt, and a
// doubt is settled by the means of its backend: a Keyed one is sent it again, a
// Finder is asked for it first, and for any other the message becomes uncertain
// and waits for a person.
package outbox

import (
	"context"
	"errors"
	"time"

	"crosslay/bot/chat"
)

// State is the stage that a message has reached.
type State string

// The states. Ready and Sending are pending; the others are final, but for
// Uncertain, which a person resolves.
const (
	Ready     State = "ready"
	Sending   State = "sending"
	Sent      State = "sent"
	Refused   State = "refused"
	Uncertain State = "uncertain"
	Overtaken State = "overtaken" // an edit before a newer edit of the same message
	Dropped   State = "dropped"   // no longer needed before it was sent
)

// Job is a message to be sent now.
type Job struct {
	Message chat.Message
	Place   chat.Place // with the thread's ref, once the root has one
	Target  chat.Ref   // of the message to be edited; "" for a new one
	Doubt   bool       // it may have arrived already
	First   time.Time  // when it was first handed to the network
	Last    time.Time  // when it was handed over last, before this time
	Tries   int        // how often it was handed over before
}

// Verdict is what became of a job. State is Sent with its Ref, Refused or
// Uncertain with the Reason; Ready to try again and Sending to stay in doubt,
// both with the room left alone until Next.
type Verdict struct {
	State  State
	Now    time.Time
	Ref    chat.Ref
	Next   time.Time
	Reason string
	Last   time.Time // Sending only: set to the job's if it was not handed over now
}

// ErrNotClaimed is returned, wrapped, by Settle for a message that is not Sending.
var ErrNotClaimed = errors.New("it was not being sent")

// Queue is the durable side. Every method that changes something is durable
// when it returns nil.
//
// Claim picks the oldest message that can go: nothing of its room is in flight,
// the room need not be left alone, and what it waits for has been sent. A message
// Under or Edits another takes that one's ref; of several edits of one message
// only the newest is claimed, and what hangs on a message that will never be sent
// shares its fate. The job is marked Sending before Claim returns.
type Queue interface {
	Claim(ctx context.Context, now time.Time) (Job, bool, error)
	Settle(ctx context.Context, key chat.Key, v Verdict) error
	// Recover puts all that is sending in doubt and says how many there are. It
	// is called once, before the first claim.
	Recover(ctx context.Context) (int, error)
	// Next is the earliest instant at which Claim would find something; zero if
	// nothing waits for time alone.
	Next(ctx context.Context) (time.Time, error)
}

// Poster shows messages. Its errors say what is known: chat.ErrUnsure,
// chat.ErrRefused, chat.Wait; any other means that the message did not arrive.
type Poster interface {
	// Post shows m in place, or puts it in the place of target, and returns the
	// ref of what is shown.
	Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error)
}

// Keyed is a Poster for which sending again with the same key is harmless.
type Keyed interface {
	Keyed() bool
}

// Finder is a Poster that can tell whether a message of ours stands in a place,
// by its key, looking no further back than since.
type Finder interface {
	Find(ctx context.Context, m chat.Message, place chat.Place, since time.Time) (chat.Ref, bool, error)
}
