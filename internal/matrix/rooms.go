package matrix

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// rooms knows which room of the server is which address of the department file.
type rooms struct {
	client *mautrix.Client
	vault  vault
	list   func() []string
	past   func(ctx context.Context, name string) (string, error) // cursors

	mu      sync.Mutex
	ids     map[string]id.RoomID // by address
	known   map[id.RoomID]bool   // rooms whose state was fetched in this run
	named   map[id.RoomID]bool   // of those, the rooms that have a name
	address map[id.RoomID]string
	out     map[id.RoomID]time.Time // since when the bot is known not to be in it
}

func newRooms(client *mautrix.Client, v vault, cfg Config) *rooms {
	return &rooms{client: client, vault: v, list: cfg.Rooms, past: cfg.Cursor, ids: map[string]id.RoomID{}, known: map[id.RoomID]bool{}, named: map[id.RoomID]bool{}, address: map[id.RoomID]string{}, out: map[id.RoomID]time.Time{}}
}

// errNoAddress is said of an address that can never be a room's.
var errNoAddress = errors.New("a room's address looks like #station-1:example.org or !abcdef:example.org")

// find is the room at an address.
func (r *rooms) find(ctx context.Context, address string) (id.RoomID, error) {
	r.mu.Lock()
	room, ok := r.ids[address]
	r.mu.Unlock()
	if ok {
		return room, nil
	}
	switch {
	case strings.HasPrefix(address, "!"):
		room = id.RoomID(address)
	case strings.HasPrefix(address, "#") && strings.Contains(address, ":"):
		var err error
		if room, err = r.lookUp(ctx, address); err != nil {
			return "", err
		}
	default:
		return "", fmt.Errorf("%q: %w: %w", address, errNoAddress, chat.ErrRefused)
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.ids[address] = room
	if _, taken := r.address[room]; !taken && r.listed(address) {
		r.address[room] = address
	}
	return room, nil
}

// lookUp asks which room has an alias. If the server cannot tell just now, it is
// the one that had it the last time.
func (r *rooms) lookUp(ctx context.Context, alias string) (id.RoomID, error) {
	resp, err := r.client.ResolveAlias(ctx, id.RoomAlias(alias))
	if err == nil {
		return resp.RoomID, nil
	}
	if had, lost := r.past(ctx, roomCursor(alias)); !isGone(err) && lost == nil && had != "" {
		return id.RoomID(had), nil
	}
	return "", err
}

func roomCursor(alias string) string { return "room/" + alias }

// cursors are which room each address of the file was, for the next run.
func (r *rooms) cursors() map[string]string {
	r.mu.Lock()
	defer r.mu.Unlock()
	all := map[string]string{}
	for room, address := range r.address {
		all[roomCursor(address)] = string(room)
	}
	return all
}

func (r *rooms) listed(address string) bool {
	for _, a := range r.list() {
		if a == address {
			return true
		}
	}
	return false
}

// resolve looks up the addresses of the file that are not known yet. One that
// does not exist is left out and asked for again the next time; any other error
// is returned, because messages of that room could be missed.
func (r *rooms) resolve(ctx context.Context) (missing []string, err error) {
	for _, address := range r.list() {
		_, err := r.find(ctx, address)
		switch {
		case err == nil:
		case isGone(err), errors.Is(err, errNoAddress):
			missing = append(missing, address)
		default:
			return nil, err
		}
	}
	return missing, nil
}

// at is the address of a room, "" if the department file does not have it.
func (r *rooms) at(room id.RoomID) string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.address[room]
}

// place is where something said in a room was said; false if that is no concern
// of the bot's. A room of two that has no name and is not in the file is a direct one.
func (r *rooms) place(ctx context.Context, room id.RoomID) (chat.Place, bool, error) {
	if address := r.at(room); address != "" {
		return chat.Place{Backend: Name, Room: address}, true, nil
	}
	if err := r.learn(ctx, room); err != nil {
		if isGone(err) {
			return chat.Place{}, false, nil
		}
		return chat.Place{}, false, err
	}
	members, err := r.client.StateStore.GetRoomJoinedOrInvitedMembers(ctx, room)
	r.mu.Lock()
	named := r.named[room]
	r.mu.Unlock()
	if err != nil || len(members) != 2 || named {
		return chat.Place{}, false, err
	}
	return chat.Place{Backend: Name, Room: string(room), Direct: true}, true, nil
}

// learn fetches the state of a room once in a run: who is in it, and whether it
// is encrypted. Syncs keep it up to date from then on.
func (r *rooms) learn(ctx context.Context, room id.RoomID) error {
	r.mu.Lock()
	known := r.known[room]
	r.mu.Unlock()
	if known {
		return nil
	}
	named, err := r.vault.learn(ctx, room)
	if err != nil {
		return err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.known[room], r.named[room] = true, named
	return nil
}

// outside notes that there is no room, or that the bot is not in it, and returns
// for how long that has been so.
func (r *rooms) outside(room id.RoomID, now time.Time) time.Duration {
	r.mu.Lock()
	defer r.mu.Unlock()
	delete(r.known, room)
	if r.out[room].IsZero() {
		r.out[room] = now
	}
	return now.Sub(r.out[room])
}

// forget has a room's state fetched anew: the bot was invited to it or removed.
func (r *rooms) forget(room id.RoomID) {
	r.mu.Lock()
	defer r.mu.Unlock()
	delete(r.known, room)
}

// joined reports whether the bot is in a room.
func (r *rooms) joined(ctx context.Context, room id.RoomID) bool {
	in := r.vault.joined(ctx, room)
	if in {
		r.mu.Lock()
		delete(r.out, room)
		r.mu.Unlock()
	}
	return in
}
