package matrix

import (
	"context"
	"fmt"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"

	"crosslay/bot/chat"
)

// Inspect asks the homeserver whether the bot can reach, read and write every
// room, and says what is missing and what to do; nothing when all is well. It
// changes nothing and says nothing in any room.
func Inspect(ctx context.Context, cfg Config, list []chat.Place) []string {
	b, err := Open(ctx, cfg)
	if err != nil {
		return []string{err.Error()}
	}
	defer b.Close()
	who, err := b.client.Whoami(ctx)
	switch {
	case isRevoked(err):
		return []string{"T" + revoked[1:] + "."}
	case err != nil:
		return []string{fmt.Sprintf("The homeserver %s does not answer: %v.", cfg.Account.Homeserver, plainly(err))}
	case who.UserID != b.client.UserID:
		return []string{fmt.Sprintf("The access token belongs to %s and not to %s: run crosslay matrix login again.", who.UserID, b.client.UserID)}
	}
	if err := b.vault.agree(ctx); err != nil {
		return []string{plainOrOwn(err) + "."}
	}
	var wrong []string
	for _, place := range list {
		wrong = append(wrong, b.inspect(ctx, place.Room)...)
	}
	return wrong
}

// inspect says what is missing in one room.
func (b *Backend) inspect(ctx context.Context, address string) []string {
	say := func(format string, args ...any) []string {
		return []string{"Room " + address + ": " + fmt.Sprintf(format, args...)}
	}
	room, err := b.rooms.find(ctx, address)
	if err != nil {
		return say("it cannot be found (%v). Make the room, or correct the address in the department file.", plainOrOwn(err))
	}
	if err := b.rooms.learn(ctx, room); err != nil && !isGone(err) {
		return say("its state cannot be read (%v).", plainly(err))
	}
	if !b.rooms.joined(ctx, room) {
		return say("the bot is not in it. While crosslay runs, have somebody whom the department file knows invite %s.", b.client.UserID)
	}
	if _, err := b.client.Messages(ctx, room, "", "", mautrix.DirectionBackward, nil, 1); err != nil {
		return say("it cannot be read (%v).", plainly(err))
	}
	var wrong []string
	if secret, err := b.vault.encrypted(ctx, room); err == nil && secret && !Encrypts {
		wrong = append(wrong, say("%v.", errNoEncryption)...)
	}
	levels, err := b.client.StateStore.GetPowerLevels(ctx, room)
	if err != nil || levels == nil {
		return wrong
	}
	mine := levels.GetUserLevel(b.client.UserID)
	for _, need := range []struct {
		kind event.Type
		what string
	}{{event.EventMessage, "write messages"}, {event.EventEncrypted, "write encrypted messages"}, {event.EventReaction, "put reactions"}} {
		if level := levels.GetEventLevel(need.kind); mine < level {
			wrong = append(wrong, say("the bot may not %s there: give it the power level %d (it has %d).", need.what, level, mine)...)
		}
	}
	return wrong
}
