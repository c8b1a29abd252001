package matrix

import (
	"context"
	"errors"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// vault is the encryption of this build, and what is known of rooms' states.
type vault interface {
	// agree makes sure that the server has the keys of this very store for the
	// device, and gives them to it the first time. Its error is of type
	// *AccountError where trying again does not help.
	agree(ctx context.Context) error
	// take keeps the keys and the state that a sync brought. It comes before
	// anything of that sync is decrypted.
	take(ctx context.Context, resp *mautrix.RespSync, since string) error
	// encrypted reports whether a room is encrypted, by the state taken so far.
	encrypted(ctx context.Context, room id.RoomID) (bool, error)
	encrypt(ctx context.Context, room id.RoomID, content any) (*event.EncryptedEventContent, error)
	decrypt(ctx context.Context, ev *event.Event) (*event.Event, error)
	// request asks the sender's devices for the key of an event.
	request(ctx context.Context, ev *event.Event) error
	// sign makes the identity of a new account, with the password of its login,
	// and returns the recovery key.
	sign(ctx context.Context, password string) (recovery string, err error)
	// resign signs the device with the identity of an earlier login.
	resign(ctx context.Context, recovery string) error
	close() error
}

// errNoEncryption is what a build without encryption says to an encrypted room.
var errNoEncryption = errors.New("the room is encrypted, and this build of crosslay has no encryption: use a released build, or build with -tags goolm")

// desk registers what wants to see a sync, and nothing that would handle its
// messages: those are heard in order, with the token.
type desk struct{ syncer *mautrix.DefaultSyncer }

func newDesk(client *mautrix.Client) desk {
	d := desk{mautrix.NewDefaultSyncer()}
	d.syncer.OnEvent(client.StateStoreSyncHandler)
	return d
}

func (d desk) take(ctx context.Context, resp *mautrix.RespSync, since string) error {
	return d.syncer.ProcessResponse(ctx, resp, since)
}
