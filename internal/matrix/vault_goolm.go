//go:build goolm

package matrix

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/sqlstatestore"
)

// Encrypts says whether this build can take part in encrypted rooms.
const Encrypts = true

// safe is the vault of a build with encryption: its keys are in a file of their
// own, locked with the account's pickle key.
type safe struct {
	*desk // its lock is for the machine too, which is not made for sending beside a sync
	path  string
	db    *dbutil.Database
	state *sqlstatestore.SQLStateStore
	mach  *crypto.OlmMachine
}

func openVault(ctx context.Context, client *mautrix.Client, a Account, dir string) (vault, error) {
	path := filepath.Join(dir, keysFile)
	fresh, err := private(path)
	if err != nil {
		return nil, err
	}
	if fresh && a.Keys {
		os.Remove(path)
		return nil, &AccountError{Text: fmt.Sprintf("The key store %s is gone. %s", path, restore)}
	}
	return openSafe(ctx, client, a, path)
}

// restore is what helps against a key store that is not the right one. An older
// copy does not: keys move on with every message, and people's clients refuse
// those that were used before.
const restore = "If the right one was only moved, put it back; otherwise run crosslay matrix login again, with the recovery key. Older encrypted messages then stay unreadable"

func openSafe(ctx context.Context, client *mautrix.Client, a Account, path string) (*safe, error) {
	db, state, err := openState(ctx, path)
	if err != nil {
		return nil, err
	}
	keys := crypto.NewSQLCryptoStore(db, dbutil.NoopLogger, a.User, client.DeviceID, a.Pickle)
	if err := keys.DB.Upgrade(ctx); err != nil {
		db.Close()
		return nil, cannotOpen(path, err)
	}
	client.StateStore = state
	s := &safe{desk: newDesk(client), path: path, db: db, state: state, mach: crypto.NewOlmMachine(client, &client.Log, keys, state)}
	if err := s.mach.Load(ctx); err != nil {
		db.Close()
		return nil, &AccountError{fmt.Sprintf("The key store %s does not open with the key of the account beside it: the two files belong together. %s", path, restore), err}
	}
	s.syncer.OnSync(s.mach.ProcessSyncResponse)
	s.syncer.OnEventType(event.StateMember, s.mach.HandleMemberEvent)
	s.syncer.OnEventType(event.StateHistoryVisibility, s.mach.HandleHistoryVisibility)
	return s, nil
}

func (s *safe) take(ctx context.Context, resp *mautrix.RespSync, since string) error {
	if resp.DeviceOTKCount.SignedCurve25519 < enoughKeys {
		// A server may say nothing of the keys it has for others to begin with. To
		// make more on its word would push the oldest out of the store, and whoever
		// was given one of those could not reach us.
		have, err := s.client.UploadKeys(ctx, &mautrix.ReqUploadKeys{})
		if err != nil {
			return err
		}
		resp.DeviceOTKCount = have.OneTimeKeyCounts
	}
	return s.desk.take(ctx, resp, since)
}

// enoughKeys is the number of one-time keys below which the machine makes more.
const enoughKeys = 50

func (s *safe) agree(ctx context.Context) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	user, device := s.client.UserID, s.client.DeviceID
	resp, err := s.client.QueryKeys(ctx, &mautrix.ReqQueryKeys{DeviceKeys: mautrix.DeviceKeysRequest{user: {device}}})
	if err != nil {
		return err
	}
	keys, there := resp.DeviceKeys[user][device]
	there = there && len(keys.Keys) > 0
	shared := s.mach.GetAccount().Shared
	switch {
	case !there && !shared:
		return s.mach.ShareKeys(ctx, -1)
	case there && !shared:
		return &AccountError{Text: fmt.Sprintf("The key store %s is not the one of this login. %s", s.path, restore)}
	case !there:
		return &AccountError{Text: fmt.Sprintf("The homeserver does not know the device %s any more. Run crosslay matrix login again", device)}
	case keys.Keys.GetEd25519(device) != s.mach.OwnIdentity().SigningKey:
		return &AccountError{Text: fmt.Sprintf("The key store %s belongs to another login than the account beside it. %s", s.path, restore)}
	}
	return nil
}

func (s *safe) encrypted(ctx context.Context, room id.RoomID) (bool, error) {
	return s.state.IsEncrypted(ctx, room)
}

// encrypt gives the room's key to all devices in it first, if they have not got
// it.
func (s *safe) encrypt(ctx context.Context, room id.RoomID, content any) (*event.EncryptedEventContent, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	sealed, err := s.mach.EncryptMegolmEvent(ctx, room, event.EventMessage, content)
	if !errors.Is(err, crypto.ErrSessionExpired) && !errors.Is(err, crypto.ErrNoGroupSession) && !errors.Is(err, crypto.ErrSessionNotShared) {
		return sealed, err
	}
	members, err := s.state.GetRoomJoinedOrInvitedMembers(ctx, room)
	if err != nil {
		return nil, err
	}
	if err := s.mach.ShareGroupSession(ctx, room, members); err != nil {
		return nil, err
	}
	return s.mach.EncryptMegolmEvent(ctx, room, event.EventMessage, content)
}

func (s *safe) decrypt(ctx context.Context, ev *event.Event) (*event.Event, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.mach.DecryptMegolmEvent(ctx, ev)
}

func (s *safe) request(ctx context.Context, ev *event.Event) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	c := ev.Content.AsEncrypted()
	return s.mach.SendRoomKeyRequest(ctx, ev.RoomID, c.SenderKey, c.SessionID, "", map[id.UserID][]id.DeviceID{ev.Sender: {"*"}})
}

func (s *safe) sign(ctx context.Context, password string) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	recovery, _, err := s.mach.GenerateAndUploadCrossSigningKeysWithPassword(ctx, password, "")
	if err != nil {
		return "", err
	}
	if err := s.mach.SignOwnDevice(ctx, s.mach.OwnIdentity()); err != nil {
		return "", err
	}
	return recovery, s.mach.SignOwnMasterKey(ctx)
}

func (s *safe) resign(ctx context.Context, recovery string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.mach.VerifyWithRecoveryKey(ctx, recovery)
}

func (s *safe) close() error { return s.db.Close() }
