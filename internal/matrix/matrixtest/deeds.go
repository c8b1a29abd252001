//go:build goolm

package matrixtest

import (
	"bytes"
	"context"
	"errors"
	"testing"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	"maunium.net/go/mautrix/crypto/attachment"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// Say says something in the open room, or in a thread.
func (p *Person) Say(room id.RoomID, thread id.EventID, text string) id.EventID {
	p.t.Helper()
	c := &event.MessageEventContent{MsgType: event.MsgText, Body: text}
	if thread != "" {
		c.RelatesTo = (&event.RelatesTo{}).SetThread(thread, thread)
	}
	return p.Send(room, c)
}

// Answer answers a message without a thread.
func (p *Person) Answer(room id.RoomID, to id.EventID, text string) id.EventID {
	p.t.Helper()
	c := &event.MessageEventContent{MsgType: event.MsgText, Body: text, RelatesTo: (&event.RelatesTo{}).SetReplyTo(to)}
	return p.Send(room, c)
}

// Edit replaces what the person said.
func (p *Person) Edit(room id.RoomID, what id.EventID, text string) id.EventID {
	p.t.Helper()
	c := &event.MessageEventContent{MsgType: event.MsgText, Body: text}
	c.SetEdit(what)
	return p.Send(room, c)
}

// Photo shows a picture with a caption.
func (p *Person) Photo(room id.RoomID, thread id.EventID, data []byte, caption string) id.EventID {
	p.t.Helper()
	c := &event.MessageEventContent{
		MsgType: event.MsgImage, Body: caption, FileName: "photo.png",
		Info: &event.FileInfo{MimeType: "image/png", Size: len(data)},
	}
	if thread != "" {
		c.RelatesTo = (&event.RelatesTo{}).SetThread(thread, thread)
	}
	secret, _ := p.Client.StateStore.IsEncrypted(context.Background(), room)
	if secret {
		c.File = &event.EncryptedFileInfo{EncryptedFile: *attachment.NewEncryptedFile()}
		data = bytes.Clone(data)
		c.File.EncryptInPlace(data)
	}
	resp, err := p.Client.UploadBytes(context.Background(), data, "application/octet-stream")
	must(p.t, err)
	if secret {
		c.File.URL = resp.ContentURI.CUString()
	} else {
		c.URL = resp.ContentURI.CUString()
	}
	return p.Send(room, c)
}

// Send sends any message, encrypted where the room is.
func (p *Person) Send(room id.RoomID, c *event.MessageEventContent) id.EventID {
	p.t.Helper()
	ctx := context.Background()
	secret, _ := p.Client.StateStore.IsEncrypted(ctx, room)
	if !secret {
		return p.put(room, event.EventMessage, c)
	}
	p.keys.Lock()
	sealed, err := p.mach.EncryptMegolmEvent(ctx, room, event.EventMessage, c)
	if errors.Is(err, crypto.ErrSessionExpired) || errors.Is(err, crypto.ErrNoGroupSession) || errors.Is(err, crypto.ErrSessionNotShared) {
		must(p.t, p.share(room))
		sealed, err = p.mach.EncryptMegolmEvent(ctx, room, event.EventMessage, c)
	}
	p.keys.Unlock()
	must(p.t, err)
	return p.put(room, event.EventEncrypted, sealed)
}

// put sends one event. A server that was just killed may be at odds with itself
// for a moment.
func (p *Person) put(room id.RoomID, kind event.Type, content any) id.EventID {
	p.t.Helper()
	req := mautrix.ReqSendEvent{TransactionID: p.Client.TxnID(), DontEncrypt: true}
	return p.insist(func() (*mautrix.RespSendEvent, error) {
		return p.Client.SendMessageEvent(context.Background(), room, kind, content, req)
	})
}

func (p *Person) insist(do func() (*mautrix.RespSendEvent, error)) id.EventID {
	p.t.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		resp, err := do()
		var answer mautrix.HTTPError
		if errors.As(err, &answer) && answer.Response != nil && answer.Response.StatusCode >= 500 && time.Now().Before(deadline) {
			continue
		}
		must(p.t, err)
		return resp.EventID
	}
}

// share gives the room's key to everybody in it, or only to some.
func (p *Person) share(room id.RoomID, only ...id.UserID) error {
	ctx := context.Background()
	if len(only) == 0 {
		members, err := p.Client.JoinedMembers(ctx, room)
		if err != nil {
			return err
		}
		for user := range members.Joined {
			only = append(only, user)
		}
	}
	return p.mach.ShareGroupSession(ctx, room, only)
}

// React puts an emoji on a message, and returns what takes it away.
func (p *Person) React(room id.RoomID, on id.EventID, emoji string) id.EventID {
	p.t.Helper()
	return p.put(room, event.EventReaction, &event.ReactionEventContent{
		RelatesTo: event.RelatesTo{Type: event.RelAnnotation, EventID: on, Key: emoji},
	})
}

// Redact takes something back: a message, a reaction.
func (p *Person) Redact(room id.RoomID, what id.EventID) id.EventID {
	p.t.Helper()
	req := mautrix.ReqRedact{TxnID: p.Client.TxnID()}
	return p.insist(func() (*mautrix.RespSendEvent, error) {
		return p.Client.RedactEvent(context.Background(), room, what, req)
	})
}

// Withhold keeps the key of what the person says in a room next from somebody,
// and returns what gives it to them after all.
func (p *Person) Withhold(room id.RoomID, from id.UserID) func() {
	p.t.Helper()
	p.keys.Lock()
	defer p.keys.Unlock()
	ctx := context.Background()
	must(p.t, p.mach.CryptoStore.RemoveOutboundGroupSession(ctx, room))
	must(p.t, p.share(room, p.ID))
	session, err := p.mach.CryptoStore.GetOutboundGroupSession(ctx, room)
	must(p.t, err)
	key := event.Content{Parsed: &event.RoomKeyEventContent{
		Algorithm: id.AlgorithmMegolmV1, RoomID: room, SessionID: session.ID(), SessionKey: session.Internal.Key(),
	}}
	return func() {
		p.t.Helper()
		p.keys.Lock()
		defer p.keys.Unlock()
		devices, err := p.mach.FetchKeys(ctx, []id.UserID{from}, true)
		must(p.t, err)
		for _, d := range devices[from] {
			must(p.t, p.mach.SendEncryptedToDevice(ctx, d, event.ToDeviceRoomKey, key))
		}
	}
}

// Trusts reports whether the person's client takes a device for signed by its
// owner.
func (p *Person) Trusts(t testing.TB, user id.UserID, device id.DeviceID) bool {
	t.Helper()
	p.keys.Lock()
	defer p.keys.Unlock()
	devices, err := p.mach.FetchKeys(context.Background(), []id.UserID{user}, true)
	must(t, err)
	d := devices[user][device]
	if d == nil {
		return false
	}
	trust, err := p.mach.ResolveTrustContext(context.Background(), d)
	must(t, err)
	return trust >= id.TrustStateCrossSignedTOFU
}

// SetLevels says who may do what in a room.
func (p *Person) SetLevels(t testing.TB, room id.RoomID, levels map[string]any) {
	t.Helper()
	_, err := p.Client.SendStateEvent(context.Background(), room, event.StatePowerLevels, "", levels)
	must(t, err)
}

// Forget has the person's client look up the devices of somebody anew, and give
// them the keys from now on.
func (p *Person) Forget(t testing.TB, user id.UserID) {
	t.Helper()
	p.keys.Lock()
	defer p.keys.Unlock()
	ctx := context.Background()
	_, err := p.mach.FetchKeys(ctx, []id.UserID{user}, true)
	must(t, err)
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, s := range p.seen {
		must(t, p.mach.CryptoStore.RemoveOutboundGroupSession(ctx, s.Room))
	}
}
