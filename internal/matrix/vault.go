package matrix

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"sync"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/sqlstatestore"
	_ "modernc.org/sqlite" // the driver "sqlite"
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
	// learn fetches the state of a room: who is in it, whether it is encrypted, and
	// whether it has a name, which a room for two has not.
	learn(ctx context.Context, room id.RoomID) (named bool, err error)
	// joined reports whether the bot is in a room, by the state taken so far.
	joined(ctx context.Context, room id.RoomID) bool
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
// messages: those are heard in order, with the token. Nobody sees the state of
// rooms while a sync is half taken: in it the bot may be invited and not joined.
type desk struct {
	mu     sync.Mutex
	client *mautrix.Client
	syncer *mautrix.DefaultSyncer
}

func newDesk(client *mautrix.Client) *desk {
	d := &desk{client: client, syncer: mautrix.NewDefaultSyncer()}
	d.syncer.OnEvent(client.StateStoreSyncHandler)
	return d
}

func (d *desk) take(ctx context.Context, resp *mautrix.RespSync, since string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.syncer.ProcessResponse(ctx, resp, since)
}

func (d *desk) learn(ctx context.Context, room id.RoomID) (named bool, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	state, err := d.client.State(ctx, room)
	return len(state[event.StateRoomName])+len(state[event.StateCanonicalAlias]) > 0, err
}

func (d *desk) joined(ctx context.Context, room id.RoomID) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.client.StateStore.IsMembership(ctx, room, d.client.UserID, event.MembershipJoin)
}

// private makes the file with rights for its owner alone, before SQLite would
// make it with more; it reports whether it was not there.
func private(path string) (bool, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if errors.Is(err, os.ErrExist) {
		return false, os.Chmod(path, 0o600)
	}
	if err != nil {
		return false, err
	}
	return true, f.Close()
}

// openState opens the file that holds what is known of rooms, and the keys.
func openState(ctx context.Context, path string) (*dbutil.Database, *sqlstatestore.SQLStateStore, error) {
	q := url.Values{"_txlock": {"immediate"}, "_pragma": {"busy_timeout(5000)", "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)"}}
	raw, err := sql.Open("sqlite", (&url.URL{Scheme: "file", Opaque: url.PathEscape(path), RawQuery: q.Encode()}).String())
	if err != nil {
		return nil, nil, err
	}
	db, err := dbutil.NewWithDB(raw, "sqlite")
	if err != nil {
		return nil, nil, err
	}
	state := sqlstatestore.NewSQLStateStore(db, dbutil.NoopLogger, false)
	if err := state.Upgrade(ctx); err != nil {
		db.Close()
		return nil, nil, cannotOpen(path, err)
	}
	return db, state, nil
}

func cannotOpen(path string, err error) error {
	return &AccountError{fmt.Sprintf("The key store %s cannot be opened: %v", path, err), err}
}
