package matrix

import (
	"context"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// openFilter asks for nothing but the invitations that are open.
const openFilter = `{"presence":{"types":[]},"account_data":{"types":[]},"room":{"timeline":{"limit":1},"state":{"types":[]},"ephemeral":{"types":[]},"account_data":{"types":[]}}}`

// open finds the invitations that came before this run: a sync that goes on from
// a token does not repeat them.
func (e *ear) open(ctx context.Context) error {
	resp, err := e.client.FullSyncRequest(ctx, mautrix.ReqSync{FilterID: openFilter})
	if err != nil {
		return err
	}
	for room, invite := range resp.Rooms.Invite {
		e.invites[room] = e.invitation(invite)
	}
	return nil
}

// invited takes note of new invitations, and accepts those that are from known
// people and to a room of the department or to talk in private. The others stay
// open: the department file may change. An answer that is no answer is asked for
// again, because the token does not move before.
func (e *ear) invited(ctx context.Context, invites map[id.RoomID]*mautrix.SyncInvitedRoom) error {
	for room, invite := range invites {
		e.invites[room] = e.invitation(invite)
	}
	if len(e.invites) > 0 {
		if err := e.resolve(ctx); err != nil {
			return err
		}
	}
	for room, by := range e.invites {
		if by == nil {
			delete(e.invites, room)
			continue
		}
		why := e.declined(room, by)
		if why != "" {
			if invites[room] != nil {
				e.cfg.Log.Warn("matrix: invitation left open", "room", string(room), "by", string(by.Sender), "why", why)
			}
			continue
		}
		e.rooms.forget(room)
		if _, err := e.client.JoinRoomByID(ctx, room); err != nil && !isGone(err) {
			return err
		}
		delete(e.invites, room)
		e.cfg.Log.Info("matrix: joined", "room", string(room), "by", string(by.Sender))
	}
	return nil
}

// declined is why an invitation is not accepted, "" if it is.
func (e *ear) declined(room id.RoomID, by *event.Event) string {
	switch {
	case !e.cfg.Known(string(by.Sender)):
		return "the department file does not know who invited"
	case e.rooms.at(room) == "" && !by.Content.AsMember().IsDirect:
		return "the department file does not have the room"
	}
	return ""
}

// invitation is the event that invites the bot, nil if there is none.
func (e *ear) invitation(invite *mautrix.SyncInvitedRoom) *event.Event {
	for _, ev := range invite.BestState() {
		if ev.Type.Type != event.StateMember.Type || ev.GetStateKey() != string(e.client.UserID) {
			continue
		}
		ev.Type.Class = event.StateEventType
		_ = ev.Content.ParseRaw(ev.Type)
		if ev.Content.AsMember().Membership == event.MembershipInvite {
			return ev
		}
	}
	return nil
}
