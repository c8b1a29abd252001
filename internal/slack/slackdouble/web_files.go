package slackdouble

import (
	"encoding/json"
	"strconv"
	"time"
)

func (c *call) uploadURL() (object, error) {
	size, _ := strconv.Atoi(c.args["length"]) // its shape was checked
	if size == 0 {
		c.blame(ArgumentShape, "length is 0")
		return nil, refuse("invalid_arguments")
	}
	f := c.newFile(c.BotUser, c.args["filename"], size)
	f.alt = orDefault(c.args["alt_txt"], c.args["alt_text"])
	f.upload = "/upload/v1/" + secret(24)
	c.uploads[f.upload] = f
	return object{"file_id": f.id, "upload_url": "http://" + c.addr + f.upload}, nil
}

// completeUpload makes uploaded bytes a file. With a channel it posts the file
// there, each time it is called.
func (c *call) completeUpload() (object, error) {
	var asked []struct{ ID, Title string }
	if json.Unmarshal([]byte(c.args["files"]), &asked) != nil || len(asked) == 0 {
		c.blame(ArgumentShape, "files is no JSON array of {id, title}")
		return nil, refuse("invalid_arguments")
	}
	var list []*file
	for _, a := range asked {
		f := c.files[a.ID]
		if f == nil || !f.uploaded || f.deleted || f.owner != c.BotUser {
			return nil, refuse("file_not_found") // MEMORY: also for what was never uploaded
		}
		f.title = orDefault(a.Title, f.title)
		list = append(list, f)
	}
	ch, thread, err := c.uploadTarget()
	if err != nil {
		return nil, err
	}
	for _, f := range list {
		if !f.completed {
			f.completed, f.ready = true, time.Now().Add(c.opts.Processing)
		}
	}
	if ch != nil {
		c.postFiles(ch, thread, list)
	}
	return object{"files": c.filesJSON(list)}, nil
}

func (c *call) uploadTarget() (*channel, string, error) {
	id := orDefault(c.args["channel_id"], c.args["channels"])
	if id == "" {
		if c.args["thread_ts"] != "" {
			c.blame(ArgumentShape, "thread_ts without a channel")
		}
		return nil, "", nil
	}
	c.args["channel"] = id
	ch, err := c.target(false)
	if err != nil {
		return nil, "", err
	}
	thread, err := c.threadRoot(ch, c.args["thread_ts"])
	return ch, thread, err
}

func (c *call) postFiles(ch *channel, thread string, list []*file) {
	m := &message{
		ts: c.stamp(), thread: thread, user: c.BotUser, bot: true, text: c.args["initial_comment"], subtype: "file_share", files: list,
	}
	for _, f := range list {
		f.channels = append(f.channels, ch.id)
	}
	ch.messages = append(ch.messages, m)
	c.tell(ch, c.messageEvent(ch, m))
}

// share notes that a message shows these files.
func (w *Workspace) share(list []*file) {
	for _, f := range list {
		f.shared = true
	}
}

// picture finds the file that an image block shows. Busy is set while the file is
// being worked on.
func (w *Workspace) picture(id, address string) (f *file, busy bool) {
	for _, g := range w.files {
		if g.id == id || address != "" && w.fileURL(g) == address {
			f = g
		}
	}
	if f == nil || !f.completed || f.deleted || !f.image() {
		return nil, false
	}
	return f, time.Now().Before(f.ready)
}

func (c *call) fileInfo() (object, error) {
	f := c.files[c.args["file"]]
	switch {
	case f == nil || !f.completed:
		return nil, refuse("file_not_found")
	case f.deleted:
		return nil, refuse("file_deleted")
	}
	return object{"file": c.fileJSON(f), "comments": []any{}}, nil
}

func (c *call) deleteFile() (object, error) {
	f := c.files[c.args["file"]]
	switch {
	case f == nil || !f.completed:
		return nil, refuse("file_not_found")
	case f.owner != c.BotUser:
		return nil, refuse("cant_delete_file")
	case f.deleted:
		return nil, refuse("file_deleted")
	}
	f.deleted = true
	return nil, nil
}
