// Package matrix is the backend for departments that run their own Matrix
// homeserver. It hears and posts in encrypted rooms where the build has
// encryption (the build tag goolm), and refuses such rooms with a clear sentence
// where it has not.
//
// From the bottom up: Account is what a login leaves on disk; vault is the
// encryption; rooms knows which room is which address; ear turns what the server
// syncs into chat.Events, pages gaps and keeps what could not be decrypted yet;
// show turns a chat.Message into HTML and plain text; Post and Find send it once.
//
// Hearing is at least once and the inbox makes it once: the sync token is handed
// in with the events that came with it, in one Batch, and never before. Sending
// goes by the message's key, which is the transaction id and stands inside the
// content, so that Find can look for it after a doubt.
package matrix

import (
	"context"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"github.com/rs/zerolog"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// Name is the name of the backend in department files.
const Name = "matrix"

// Config is what a Backend needs to know. The functions are asked whenever it
// matters, so that a changed department file holds from then on.
type Config struct {
	Account Account
	// Dir is the directory of the account, for the store of encryption keys.
	Dir string
	// Rooms lists the addresses of the department's rooms: "#station-1:example.org"
	// or "!abc:example.org".
	Rooms func() []string
	// Known reports whether the department file has the account
	// ("@ana:example.org"): only known people may invite.
	Known func(account string) bool
	// Cursor is what the last stored batch left under a name, "" for nothing; nil
	// where nothing is heard.
	Cursor func(ctx context.Context, name string) (string, error)
	// Past is an event handed in before, by its id: what a redaction takes back.
	Past func(ctx context.Context, id string) (chat.Event, bool, error)
	Log  *slog.Logger
	// Patience is how long a message that cannot be decrypted waits for its keys
	// before people are asked to send it again; a minute if zero.
	Patience time.Duration
	// Grace is how long messages to a room wait for the bot to be invited to it,
	// before they are refused; ten minutes if zero.
	Grace time.Duration
	// Web is for tests; nil for the ordinary client.
	Web *http.Client
}

// Backend is a connection to a homeserver.
type Backend struct {
	cfg    Config
	client *mautrix.Client
	vault  vault
	rooms  *rooms
	roots  *roots

	sending sync.Map // id.RoomID -> *sync.Mutex: one sender a room
}

// Open prepares a backend from an account that has logged in. It does not touch
// the network. Its errors are sentences for the person who set it up.
func Open(ctx context.Context, cfg Config) (*Backend, error) {
	if cfg.Patience == 0 {
		cfg.Patience = time.Minute
	}
	if cfg.Grace == 0 {
		cfg.Grace = 10 * time.Minute
	}
	if cfg.Cursor == nil {
		cfg.Cursor = func(context.Context, string) (string, error) { return "", nil }
	}
	if cfg.Past == nil {
		cfg.Past = func(context.Context, string) (chat.Event, bool, error) { return chat.Event{}, false, nil }
	}
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	client, err := newClient(cfg.Account, cfg.Web)
	if err != nil {
		return nil, err
	}
	b := &Backend{cfg: cfg, client: client, roots: newRoots()}
	if b.vault, err = openVault(ctx, client, cfg.Account, cfg.Dir); err != nil {
		return nil, err
	}
	b.rooms = newRooms(client, b.vault, cfg)
	return b, nil
}

// newClient is a client that is quiet: the library's log would have the bodies of
// failed requests.
func newClient(a Account, web *http.Client) (*mautrix.Client, error) {
	client, err := mautrix.NewClient(a.Homeserver, id.UserID(a.User), a.Token)
	if err != nil {
		return nil, &AccountError{Text: "The homeserver's address " + a.Homeserver + " is none; write it like https://matrix.example.org"}
	}
	client.DeviceID = id.DeviceID(a.Device)
	client.Log = zerolog.Nop()
	if web != nil {
		client.Client = web
	}
	return client, nil
}

// Name is what department files call the backend.
func (b *Backend) Name() string { return Name }

// Close gives up the key store.
func (b *Backend) Close() error { return b.vault.close() }
