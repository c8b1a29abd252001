package matrix

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // the sizes of common pictures
	_ "image/jpeg"
	_ "image/png"
	"io"
	"strings"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto/attachment"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
)

// biggest is how many bytes a picture may have.
const biggest = 32 << 20

// illustrate sends the pictures of a message that has been shown, but for those
// that shown has already. What the server will not take is left out; any other
// trouble leaves the message in doubt, and Find completes it.
func (b *Backend) illustrate(ctx context.Context, room id.RoomID, m chat.Message, place chat.Place, ref id.EventID, shown map[chat.Key]bool) error {
	if place.Thread == "" && m.Kind == chat.Defect {
		place.Thread = chat.Ref(ref)
	}
	for i, pic := range m.Pics {
		key := chat.Key(fmt.Sprintf("%s/picture/%d", m.Key, i))
		if shown[key] {
			continue
		}
		err := b.picture(ctx, room, key, place, pic)
		if errors.Is(err, chat.ErrRefused) {
			b.cfg.Log.Warn("matrix: a picture was left out", "key", string(key), "error", err.Error())
			continue
		}
		if err != nil {
			return fmt.Errorf("its picture %d: %w: %w", i+1, chat.ErrUnsure, err)
		}
	}
	return nil
}

// picture uploads a picture and shows it.
func (b *Backend) picture(ctx context.Context, room id.RoomID, key chat.Key, place chat.Place, pic chat.Picture) error {
	data, err := b.Fetch(ctx, pic)
	if err != nil {
		return err
	}
	c := &event.MessageEventContent{MsgType: event.MsgImage, Body: pictureName(pic), Mentions: &event.Mentions{}, Info: info(pic, data)}
	if pic.Alt != "" {
		c.FileName, c.Body = c.Body, printable(pic.Alt)
	}
	if !strings.HasPrefix(c.Info.MimeType, "image/") {
		c.MsgType = event.MsgFile
	}
	if err := b.upload(ctx, room, c, data); err != nil {
		return err
	}
	if place.Thread != "" {
		root := id.EventID(place.Thread)
		c.RelatesTo = (&event.RelatesTo{}).SetThread(root, root)
	}
	_, err = b.send(ctx, room, marked(c, chat.Message{Key: key}), key)
	return err
}

func pictureName(pic chat.Picture) string {
	if pic.Name != "" {
		return printable(pic.Name)
	}
	return "picture"
}

func info(pic chat.Picture, data []byte) *event.FileInfo {
	i := &event.FileInfo{MimeType: pic.Type, Size: len(data)}
	if size, kind, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
		i.Width, i.Height = size.Width, size.Height
		if i.MimeType == "" {
			i.MimeType = "image/" + kind
		}
	}
	if i.MimeType == "" {
		i.MimeType = "application/octet-stream"
	}
	return i
}

// upload takes the bytes to the server, encrypted where the room is, and writes
// where they are into the content.
func (b *Backend) upload(ctx context.Context, room id.RoomID, c *event.MessageEventContent, data []byte) error {
	secret, err := b.vault.encrypted(ctx, room)
	if err != nil {
		return err
	}
	kind := c.Info.MimeType
	if secret {
		c.File = &event.EncryptedFileInfo{EncryptedFile: *attachment.NewEncryptedFile()}
		data, kind = bytes.Clone(data), "application/octet-stream"
		c.File.EncryptInPlace(data)
	}
	resp, err := b.client.UploadMedia(ctx, mautrix.ReqUploadMedia{ContentBytes: data, ContentType: kind})
	if err != nil {
		return askedError("upload", err)
	}
	if secret {
		c.File.URL = resp.ContentURI.CUString()
		return nil
	}
	c.URL = resp.ContentURI.CUString()
	return nil
}

// Fetch returns the bytes of a picture: those at hand, or those of one that was
// said in a room, decrypted.
func (b *Backend) Fetch(ctx context.Context, pic chat.Picture) ([]byte, error) {
	if len(pic.Data) > 0 {
		return pic.Data, nil
	}
	var src source
	if err := json.Unmarshal([]byte(pic.Source), &src); err != nil || src.URL == "" && src.File == nil {
		return nil, fmt.Errorf("the picture %q is not on this service: %w", pic.Name, chat.ErrRefused)
	}
	where := src.URL
	if src.File != nil {
		where = src.File.URL
	}
	uri, err := where.Parse()
	if err != nil {
		return nil, fmt.Errorf("the picture %q has no address: %w", pic.Name, chat.ErrRefused)
	}
	data, err := b.download(ctx, uri)
	if err != nil || src.File == nil {
		return data, err
	}
	if err := src.File.DecryptInPlace(data); err != nil {
		return nil, fmt.Errorf("the picture %q cannot be decrypted: %w", pic.Name, chat.ErrRefused)
	}
	return data, nil
}

func (b *Backend) download(ctx context.Context, uri id.ContentURI) ([]byte, error) {
	resp, err := b.client.Download(ctx, uri)
	if err != nil {
		return nil, askedError("fetch the picture", err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(io.LimitReader(resp.Body, biggest+1))
	if err != nil {
		return nil, askedError("fetch the picture", err)
	}
	if len(data) > biggest {
		return nil, fmt.Errorf("the picture is larger than %d MB: %w", biggest>>20, chat.ErrRefused)
	}
	return data, nil
}
