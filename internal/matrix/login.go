package matrix

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"github.com/rs/zerolog"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"
)

// Credentials are what a person gives once to log the bot in.
type Credentials struct {
	Homeserver string // https://matrix.example.org, or the server's name alone
	User       string // @crosslay:example.org, or the part before the colon
	Password   string
	// Recovery is the recovery key of an earlier login, which keeps the bot's
	// identity; "" makes a new one.
	Recovery string
	Dir      string // the directory of secrets
	Web      *http.Client
}

// Login is what came of a login.
type Login struct {
	User, Device string
	// RecoveryKey is to be written down: it is shown once and kept nowhere. It is
	// empty where the earlier identity was kept, or there is no encryption.
	RecoveryKey string
	// Trouble says what did not work though the bot is logged in; nil for nothing.
	Trouble error
}

// LogIn logs in, makes the device's keys, signs it with the bot's own identity
// and keeps all of it in the directory of secrets. An earlier login there is
// moved aside. Its errors are sentences for the person at the terminal, and have
// no secret in them.
func LogIn(ctx context.Context, c Credentials) (Login, error) {
	client, err := dial(ctx, c)
	if err != nil {
		return Login{}, err
	}
	if err := privateDir(c.Dir); err != nil {
		return Login{}, &AccountError{fmt.Sprintf("The directory of secrets cannot be made: %v", err), err}
	}
	resp, err := client.Login(ctx, &mautrix.ReqLogin{
		Type:       mautrix.AuthTypePassword,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: c.User},
		Password:   c.Password, InitialDeviceDisplayName: "crosslay", StoreCredentials: true,
	})
	if err != nil {
		return Login{}, explainLogin(c, err)
	}
	account := Account{
		Homeserver: client.HomeserverURL.String(), User: string(resp.UserID), Device: string(resp.DeviceID),
		Token: resp.AccessToken, Pickle: newPickle(),
	}
	if err := aside(c.Dir); err != nil {
		return Login{}, &AccountError{fmt.Sprintf("The files of the earlier login cannot be moved aside: %v", err), err}
	}
	if err := account.save(c.Dir); err != nil {
		return Login{}, &AccountError{fmt.Sprintf("The account cannot be kept: %v", err), err}
	}
	l := Login{User: account.User, Device: account.Device}
	if Encrypts {
		l.RecoveryKey, err = identify(ctx, client, &account, c)
		l.Trouble = err
	}
	return l, nil
}

// identify makes the keys of the device and signs it.
func identify(ctx context.Context, client *mautrix.Client, account *Account, c Credentials) (string, error) {
	v, err := openVault(ctx, client, *account, c.Dir)
	if err != nil {
		return "", err
	}
	defer v.close()
	account.Keys = true
	if err := account.save(c.Dir); err != nil {
		return "", err
	}
	if err := v.agree(ctx); err != nil {
		return "", &AccountError{fmt.Sprintf("The device's keys did not reach the homeserver: %v. Log in again", plainly(err)), err}
	}
	if c.Recovery != "" {
		if err := v.resign(ctx, strings.TrimSpace(c.Recovery)); err != nil {
			return "", &AccountError{"The recovery key does not fit. The bot is logged in, but other devices will not trust it: log in again with the right key, or without one for a new identity", err}
		}
		return "", nil
	}
	key, err := v.sign(ctx, c.Password)
	if err != nil {
		return key, &AccountError{fmt.Sprintf("The bot is logged in, but could not sign its device (%v); people's clients may withhold messages from it. Log in again", plainly(err)), err}
	}
	return key, nil
}

// Reach makes sure that a homeserver answers at the address, and nothing else. Its
// error is a sentence for the person at the terminal.
func Reach(ctx context.Context, c Credentials) error {
	_, err := dial(ctx, c)
	return err
}

// dial finds the homeserver and makes sure that there is one.
func dial(ctx context.Context, c Credentials) (*mautrix.Client, error) {
	address := strings.TrimRight(strings.TrimSpace(c.Homeserver), "/")
	if address == "" {
		return nil, &AccountError{Text: "No homeserver's address was given; write it like https://matrix.example.org"}
	}
	if !strings.Contains(address, "://") {
		name := address
		address = "https://" + name
		if known, err := mautrix.DiscoverClientAPI(ctx, name); err == nil && known != nil && known.Homeserver.BaseURL != "" {
			address = known.Homeserver.BaseURL
		}
	}
	client, err := mautrix.NewClient(address, id.UserID(""), "")
	if err != nil {
		return nil, &AccountError{fmt.Sprintf("%q is no homeserver's address; write it like https://matrix.example.org", c.Homeserver), err}
	}
	client.Log = zerolog.Nop()
	if c.Web != nil {
		client.Client = c.Web
	}
	if _, err := client.Versions(ctx); err != nil {
		return nil, &AccountError{fmt.Sprintf("No homeserver answers at %s (%v); look at the address and whether the server runs", address, plainly(err)), err}
	}
	return client, nil
}

func explainLogin(c Credentials, err error) error {
	if errors.Is(err, mautrix.MForbidden) || isRevoked(err) {
		return &AccountError{fmt.Sprintf("The homeserver does not take the user %s with this password", c.User), err}
	}
	return &AccountError{fmt.Sprintf("Logging in did not work: %v", plainly(err)), err}
}

// aside renames the files of an earlier login, so that nothing is lost by a slip.
func aside(dir string) error {
	for _, name := range []string{accountFile, keysFile, keysFile + "-wal", keysFile + "-shm"} {
		path := filepath.Join(dir, name)
		if err := os.Rename(path, path+".old"); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return nil
}
