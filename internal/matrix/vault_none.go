//go:build !goolm

package matrix

import (
	"context"
	"path/filepath"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// Encrypts says whether this build can take part in encrypted rooms.
const Encrypts = false

// plain is the vault of a build without encryption.
type plain struct {
	*desk
	db *dbutil.Database
}

func openVault(ctx context.Context, client *mautrix.Client, _ Account, dir string) (vault, error) {
	path := filepath.Join(dir, keysFile)
	if _, err := private(path); err != nil {
		return nil, err
	}
	db, state, err := openState(ctx, path)
	if err != nil {
		return nil, err
	}
	client.StateStore = state
	return plain{newDesk(client), db}, nil
}

func (plain) agree(context.Context) error { return nil }

func (p plain) encrypted(ctx context.Context, room id.RoomID) (bool, error) {
	return p.client.StateStore.IsEncrypted(ctx, room)
}

func (plain) encrypt(context.Context, id.RoomID, any) (*event.EncryptedEventContent, error) {
	return nil, errNoEncryption
}

func (plain) decrypt(context.Context, *event.Event) (*event.Event, error) {
	return nil, errNoEncryption
}

func (plain) request(context.Context, *event.Event) error { return nil }

func (plain) sign(context.Context, string) (string, error) { return "", nil }

func (plain) resign(context.Context, string) error { return errNoEncryption }

func (p plain) close() error { return p.db.Close() }
