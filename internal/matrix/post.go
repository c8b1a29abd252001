package matrix

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"sync"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// Post implements the outbox's poster.
func (b *Backend) Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error) {
	room, err := b.enter(ctx, place.Room)
	if err != nil {
		return "", err
	}
	defer b.alone(room)()
	if target != "" {
		_, err := b.send(ctx, room, revise(m, target), m.Key)
		return target, b.explained(ctx, room, place, err)
	}
	ref, err := b.send(ctx, room, show(m, place), m.Key)
	if err != nil {
		return "", b.explained(ctx, room, place, err)
	}
	b.roots.put(ref, note{thread: place.Thread, mark: mark{Key: m.Key, Kind: m.Kind, Says: offers(m)}})
	if err := b.illustrate(ctx, room, m, place, ref, nil); err != nil {
		return "", err
	}
	b.seed(ctx, room, m, ref)
	return chat.Ref(ref), nil
}

// alone keeps all others from sending to the room until the returned function is
// called: the server's transaction ids do not hold for parallel requests.
func (b *Backend) alone(room id.RoomID) func() {
	lock, _ := b.sending.LoadOrStore(room, &sync.Mutex{})
	lock.(*sync.Mutex).Lock()
	return lock.(*sync.Mutex).Unlock
}

// enter finds the room of an address, and makes sure that the bot is in it and
// knows whether it is encrypted before a word is said there.
func (b *Backend) enter(ctx context.Context, address string) (id.RoomID, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	room, err := b.rooms.find(ctx, address)
	switch {
	case errors.Is(err, chat.ErrRefused):
		return "", err
	case err != nil && isGone(err):
		return "", b.graced(id.RoomID(address), fmt.Errorf("there is no room %s; make it, or correct the department file", address))
	case err != nil:
		return "", askedError("look up room "+address, err)
	}
	if err := b.rooms.learn(ctx, room); err != nil && !isGone(err) {
		return "", askedError("look into room "+address, err)
	}
	if b.rooms.joined(ctx, room) {
		return room, nil
	}
	return "", b.outside(room, address)
}

// outside is the error for a room that the bot is not in.
func (b *Backend) outside(room id.RoomID, address string) error {
	return b.graced(room, fmt.Errorf("crosslay is not in room %s; have somebody whom the department file knows invite it", address))
}

// graced is an error that can be put right. For a while the message waits for
// that; then it is refused, so that a bot that was away for days does not come
// back with the words of all of them.
func (b *Backend) graced(room id.RoomID, out error) error {
	if b.rooms.outside(room, time.Now()) < b.cfg.Grace {
		return out
	}
	return fmt.Errorf("%w: %w", out, chat.ErrRefused)
}

// explained names the room. A room that refuses a message is looked at anew: the
// bot may have been removed from it.
func (b *Backend) explained(ctx context.Context, room id.RoomID, place chat.Place, err error) error {
	if err == nil {
		return nil
	}
	if errors.Is(err, chat.ErrRefused) {
		b.rooms.forget(room)
		if gone := b.rooms.learn(ctx, room); isGone(gone) || gone == nil && !b.rooms.joined(ctx, room) {
			return b.outside(room, place.Room)
		}
	}
	return fmt.Errorf("room %s: %w", place.Room, err)
}

// send puts one event into a room, encrypted where the room is. The same key
// again is the same event, as long as the server has not been started anew.
func (b *Backend) send(ctx context.Context, room id.RoomID, content *event.Content, key chat.Key) (id.EventID, error) {
	kind, sealed, err := b.seal(ctx, room, content)
	if err != nil {
		return "", err
	}
	resp, err := b.client.SendMessageEvent(ctx, room, kind, sealed, mautrix.ReqSendEvent{TransactionID: transaction(key), DontEncrypt: true})
	if err != nil {
		return "", sentError(err)
	}
	return resp.EventID, nil
}

// seal encrypts a content where the room is encrypted.
func (b *Backend) seal(ctx context.Context, room id.RoomID, content *event.Content) (event.Type, any, error) {
	secret, err := b.vault.encrypted(ctx, room)
	if err != nil {
		return event.Type{}, nil, fmt.Errorf("look whether the room is encrypted: %w", err)
	}
	if !secret {
		return event.EventMessage, content, nil
	}
	sealed, err := b.vault.encrypt(ctx, room, content)
	switch {
	case errors.Is(err, errNoEncryption):
		return event.Type{}, nil, fmt.Errorf("%w: %w", err, chat.ErrRefused)
	case err != nil && asHTTP(err):
		return event.Type{}, nil, askedError("give the room's key to the devices in it", err)
	case err != nil:
		return event.Type{}, nil, fmt.Errorf("encrypt: %w", err)
	}
	return event.EventEncrypted, sealed, nil
}

func asHTTP(err error) bool {
	var answer mautrix.HTTPError
	return errors.As(err, &answer)
}

// transaction is the id by which the server knows a message again. Keys have
// characters that paths do not like.
func transaction(key chat.Key) string {
	sum := sha256.Sum256([]byte(key))
	return "crosslay-" + hex.EncodeToString(sum[:16])
}

// seed puts the signs under a message that offers them, so that one tap answers.
// What does not arrive is no loss: the signs stand in the message.
func (b *Backend) seed(ctx context.Context, room id.RoomID, m chat.Message, ref id.EventID) {
	for _, says := range offers(m) {
		s := signFor(says)
		if s == "" {
			continue
		}
		_, err := b.client.SendMessageEvent(ctx, room, event.EventReaction, &event.ReactionEventContent{
			RelatesTo: event.RelatesTo{Type: event.RelAnnotation, EventID: ref, Key: s},
		}, mautrix.ReqSendEvent{TransactionID: transaction(m.Key + chat.Key("/sign/"+says)), DontEncrypt: true})
		if err != nil {
			b.cfg.Log.Info("matrix: a sign was not put under a message", "key", string(m.Key), "error", plainOrOwn(err))
			return
		}
	}
}

// Find implements the outbox's finder: it reads the room back to since, by
// decrypting what the bot itself said.
func (b *Backend) Find(ctx context.Context, m chat.Message, place chat.Place, since time.Time) (chat.Ref, bool, error) {
	room, err := b.enter(ctx, place.Room)
	if err != nil {
		return "", false, err
	}
	defer b.alone(room)()
	shown := map[chat.Key]bool{} // further events of the message
	from := ""
	for range mostPages {
		resp, err := b.client.Messages(ctx, room, from, "", mautrix.DirectionBackward, nil, pageSize)
		if err != nil {
			return "", false, askedError("read room "+place.Room+" back", err)
		}
		for _, ev := range resp.Chunk {
			if time.UnixMilli(ev.Timestamp).Before(since) {
				return "", false, nil
			}
			key, ok := b.own(ctx, room, ev, m.Key, place.Thread)
			if ok && key == m.Key {
				return chat.Ref(ev.ID), true, b.illustrate(ctx, room, m, place, ev.ID, shown)
			}
			shown[key] = ok
		}
		if resp.End == "" || resp.End == from || len(resp.Chunk) == 0 {
			break
		}
		from = resp.End
	}
	return "", false, nil
}

// own reads the key of one of the bot's own messages; false for what is none, or
// one in another thread than the message looked for. One whose key store was lost
// is known by its transaction alone.
func (b *Backend) own(ctx context.Context, room id.RoomID, ev *event.Event, wanted chat.Key, thread chat.Ref) (chat.Key, bool) {
	if ev.Sender != b.client.UserID || ev.StateKey != nil || ev.Unsigned.RedactedBecause != nil {
		return "", false
	}
	ev.RoomID = room
	ev = b.opened(ctx, ev)
	if ev.Type == event.EventEncrypted && ev.Unsigned.TransactionID == transaction(wanted) {
		return wanted, true
	}
	key := markOf(ev).Key
	if rel := relation(ev); key == wanted && (rel.GetReplaceID() != "" || threadOf(rel) != thread) {
		return "", false
	}
	return key, key != ""
}
