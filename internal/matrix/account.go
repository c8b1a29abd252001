package matrix

import (
	"crypto/rand"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Account is what a login leaves behind: who the bot is at which homeserver. All
// of it stays the same for as long as the device lives; a login for each start
// would leave a trail of devices that nobody trusts.
type Account struct {
	Homeserver string `json:"homeserver"` // https://matrix.example.org
	User       string `json:"user"`       // @crosslay:example.org
	Device     string `json:"device"`
	Token      string `json:"token"`
	Pickle     []byte `json:"pickle"` // the key that the key store is locked with
	Keys       bool   `json:"keys"`   // a key store was made for the device
}

// The files of an account, in the directory of secrets.
const (
	accountFile = "matrix.json"
	keysFile    = "matrix-keys.db"
)

// TokenVariable overrides the access token of the file.
const TokenVariable = "CROSSLAY_MATRIX_TOKEN"

// AccountError is what is wrong with an account, in a sentence for the person
// who set it up. It never has a secret in it.
type AccountError struct {
	Text string
	Err  error
}

func (e *AccountError) Error() string { return e.Text }

func (e *AccountError) Unwrap() error { return e.Err }

// LoadAccount reads the account in a directory of secrets. Files that others
// could read are refused. The error is of type *AccountError.
func LoadAccount(dir string) (Account, error) {
	path := filepath.Join(dir, accountFile)
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Account{}, &AccountError{fmt.Sprintf("There is no Matrix account in %s: run crosslay matrix login --secrets %s", dir, dir), err}
	}
	if err != nil {
		return Account{}, &AccountError{fmt.Sprintf("The Matrix account cannot be read: %v", err), err}
	}
	if info.Mode().Perm()&0o077 != 0 {
		return Account{}, &AccountError{Text: fmt.Sprintf("%s can be read by others; run chmod 600 on it, and log in anew if somebody may have read it", path)}
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		return Account{}, &AccountError{fmt.Sprintf("The Matrix account cannot be read: %v", err), err}
	}
	var a Account
	if err := json.Unmarshal(raw, &a); err != nil || a.Homeserver == "" || a.User == "" || a.Device == "" {
		return Account{}, &AccountError{Text: fmt.Sprintf("%s is damaged; run crosslay matrix login again", path)}
	}
	if token := os.Getenv(TokenVariable); token != "" {
		a.Token = token
	}
	return a, nil
}

// save writes the account so that nobody else can read it, and whole or not at
// all.
func (a Account) save(dir string) error {
	if err := privateDir(dir); err != nil {
		return err
	}
	raw, err := json.MarshalIndent(a, "", "  ")
	if err != nil {
		return err
	}
	path := filepath.Join(dir, accountFile)
	if err := os.WriteFile(path+".new", raw, 0o600); err != nil {
		return err
	}
	return os.Rename(path+".new", path)
}

// privateDir makes the directory of secrets, or takes others' rights to it away.
func privateDir(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return os.Chmod(dir, 0o700)
}

func newPickle() []byte {
	key := make([]byte, 32)
	rand.Read(key) // never fails
	return []byte(base64.RawStdEncoding.EncodeToString(key))
}
