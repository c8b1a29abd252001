package slack

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// What we take of pictures.
const (
	mostPictures = 8        // in one message
	mostBytes    = 20 << 20 // of one picture
	mostTries    = 5        // before a message goes out without its pictures
	process      = 3 * time.Second
)

// scheme marks the sources of pictures that stand on Slack.
const scheme = Name + ":"

func sourceOf(file string) string { return scheme + file }

// carried are the pictures of a message that is not shown yet. They are uploaded
// without a channel, so that an upload shows nothing; the message shows them by
// their file ids. A crash leaves at most a file that nobody sees.
type carried struct {
	ids   []string
	tries int
}

// Fetch returns the bytes of a picture: those at hand, or those of one that was
// sent on Slack. One that is not there is chat.ErrRefused.
func (b *Backend) Fetch(ctx context.Context, pic chat.Picture) ([]byte, error) {
	data, err := b.fetch(ctx, pic)
	return data, b.cfg.Tokens.scrub(err)
}

func (b *Backend) fetch(ctx context.Context, pic chat.Picture) ([]byte, error) {
	if len(pic.Data) > 0 {
		return pic.Data, nil
	}
	id, ok := strings.CutPrefix(pic.Source, scheme)
	if !ok {
		return nil, fmt.Errorf("the picture %q is not on Slack: %w", pic.Name, chat.ErrRefused)
	}
	const method = "files.info"
	if err := b.pace.wait(ctx, method, ""); err != nil {
		return nil, err
	}
	info, _, _, err := b.api.GetFileInfoContext(ctx, id, 1, 1)
	if err != nil {
		b.pace.heed(method, err)
		if isCode(err, "file_not_found") || isCode(err, "file_deleted") {
			return nil, fmt.Errorf("the picture is gone: %w: %w", err, chat.ErrRefused)
		}
		return nil, explainRead("look up a picture", err)
	}
	if info.Size > mostBytes {
		return nil, fmt.Errorf("the picture has %d MB: %w", info.Size>>20, chat.ErrRefused)
	}
	var data bytes.Buffer
	if err := b.api.GetFileContext(ctx, addressOf(info), &data); err != nil {
		return nil, fmt.Errorf("fetch a picture: %w", err)
	}
	return data.Bytes(), nil
}

// common are the types of pictures that everything shows. Phones send others, too.
var common = []string{"image/jpeg", "image/png", "image/gif"}

// addressOf is where the best form of a picture is fetched that everything shows:
// the file itself, or what Slack made of it.
func addressOf(f *api.File) string {
	var forms []string
	if !slices.Contains(common, f.Mimetype) {
		forms = []string{f.Thumb1024, f.Thumb960, f.Thumb720, f.Thumb480, f.Thumb360}
	}
	for _, address := range append(forms, f.URLPrivateDownload) {
		if address != "" {
			return address
		}
	}
	return f.URLPrivate
}

// fileName is what a picture is called on Slack. One of a rare type comes as what
// Slack made of it.
func fileName(pic chat.Picture) string {
	name := pic.Name
	if name == "" {
		name = "photo"
	}
	if pic.Type != "" && !slices.Contains(common, pic.Type) {
		name += ".jpg"
	}
	return name
}

// images uploads the pictures of a message and returns the blocks that show them.
// One that cannot be had is named in words: the message is never lost for it.
func (b *Backend) images(ctx context.Context, m chat.Message) ([]api.Block, error) {
	if len(m.Pics) == 0 {
		return nil, nil
	}
	c := b.carrying(m)
	var blocks []api.Block
	for i, pic := range m.Pics[:len(c.ids)] {
		if c.ids[i] == "" && c.tries < mostTries {
			id, err := b.carry(ctx, pic)
			if errors.As(err, &chat.Wait{}) {
				return nil, err
			}
			if err != nil && !errors.Is(err, chat.ErrRefused) {
				c.tries++
				return nil, fmt.Errorf("carry the picture %s: %w", pic.Name, err)
			}
			b.report(err)
			c.ids[i] = id
		}
		id := c.ids[i]
		if c.tries >= mostTries {
			id = ""
		}
		blocks = append(blocks, image(pic, id))
	}
	return blocks, nil
}

// image shows a picture by its file, or says that there was one.
func image(pic chat.Picture, id string) api.Block {
	alt := pic.Alt
	if alt == "" {
		alt = pic.Name
	}
	if pic.Source != "" { // not one that was drawn
		alt = "Photo: " + alt
	}
	alt = clip(clean(alt), mostContext)
	if id == "" {
		return api.NewContextBlock("", plain(alt))
	}
	return api.NewImageBlockSlackFile(&api.SlackFileObject{ID: id}, alt, "", nil)
}

// carry puts a picture on Slack, where nobody sees it yet, and returns its file id.
func (b *Backend) carry(ctx context.Context, pic chat.Picture) (string, error) {
	data, err := b.fetch(ctx, pic)
	if err != nil {
		return "", err
	}
	if len(data) == 0 {
		return "", fmt.Errorf("the picture %s is empty: %w", pic.Name, chat.ErrRefused)
	}
	name := fileName(pic)
	var where *api.GetUploadURLExternalResponse
	err = b.step(ctx, "files.getUploadURLExternal", func() (err error) {
		where, err = b.api.GetUploadURLExternalContext(ctx, api.GetUploadURLExternalParameters{FileName: name, FileSize: len(data), AltTxt: clip(pic.Alt, 1000)})
		return err
	})
	if err != nil {
		return "", err
	}
	err = b.api.UploadToURL(ctx, api.UploadToURLParameters{UploadURL: where.UploadURL, Reader: bytes.NewReader(data), Filename: name})
	if err != nil {
		return "", fmt.Errorf("upload: %w", err)
	}
	return where.FileID, b.step(ctx, "files.completeUploadExternal", func() error {
		_, err := b.api.CompleteUploadExternalContext(ctx, api.CompleteUploadExternalParameters{Files: []api.FileSummary{{ID: where.FileID, Title: name}}})
		return err
	})
}

// step makes one call that shows nothing, in its turn.
func (b *Backend) step(ctx context.Context, method string, call func() error) error {
	if err := b.pace.wait(ctx, method, ""); err != nil {
		return err
	}
	err := call()
	b.pace.heed(method, err)
	if err != nil {
		return explainRead(method, err)
	}
	return nil
}

func (b *Backend) carrying(m chat.Message) *carried {
	b.uploads.Lock()
	defer b.uploads.Unlock()
	if b.carried[m.Key] == nil {
		b.carried[m.Key] = &carried{ids: make([]string, min(len(m.Pics), mostPictures))}
	}
	return b.carried[m.Key]
}

// landed forgets what was carried for a message that is shown.
func (b *Backend) landed(key chat.Key) {
	b.uploads.Lock()
	defer b.uploads.Unlock()
	delete(b.carried, key)
}

// unsettled is the error of a post. Slack refuses a picture's block as long as it
// works on the file: then the message waits, and after some tries goes without.
func (b *Backend) unsettled(m chat.Message, err error) error {
	if len(m.Pics) == 0 || !isCode(err, "invalid_blocks") {
		return err
	}
	c := b.carrying(m)
	if c.tries >= mostTries {
		return err
	}
	c.tries++
	return chat.Wait{For: process}
}
