package slackdouble

import (
	"io"
	"mime"
	"net/http"
	"path"
	"strings"
	"time"
)

type file struct {
	id, name, title, owner string
	mime                   string
	size                   int
	data                   []byte
	upload                 string // path of its upload address
	uploaded               bool
	completed              bool
	ready                  time.Time // when it was worked on
	created                time.Time
	channels               []string
	alt                    string
	deleted                bool
	shared                 bool // shown by a message's blocks
}

func (f *file) image() bool { return strings.HasPrefix(f.mime, "image/") }

func mimeOf(name string) string {
	if t := mime.TypeByExtension(strings.ToLower(path.Ext(name))); t != "" {
		return t
	}
	return "application/octet-stream"
}

func (w *Workspace) fileURL(f *file) string {
	return "http://" + w.addr + "/files-pri/" + w.TeamID + "-" + f.id + "/" + f.name
}

func (w *Workspace) filesJSON(list []*file) []any {
	var out []any
	for _, f := range list {
		out = append(out, w.fileJSON(f))
	}
	return out
}

func (w *Workspace) fileJSON(f *file) object {
	if f.deleted {
		return object{"id": f.id, "mode": "tombstone"}
	}
	return object{
		"id": f.id, "created": f.created.Unix(), "timestamp": f.created.Unix(), "name": f.name, "title": f.title,
		"mimetype": f.mime, "filetype": strings.TrimPrefix(path.Ext(f.name), "."), "user": f.owner, "user_team": w.TeamID,
		"size": f.size, "mode": "hosted", "is_external": false, "is_public": len(f.channels) > 0 || f.shared, "editable": false,
		"url_private": w.fileURL(f), "url_private_download": w.fileURL(f) + "?download=1", "file_access": "visible",
		"permalink": "http://" + w.addr + "/files/" + f.owner + "/" + f.id + "/" + f.name, "channels": f.channels,
	}
}

func (w *Workspace) newFile(owner, name string, size int) *file {
	f := &file{
		id: w.id("F"), name: name, title: name, owner: owner, size: size, mime: mimeOf(name), created: time.Now(),
	}
	w.files[f.id] = f
	return f
}

// takeUpload is the address of files.getUploadURLExternal: the bytes raw, or as the
// one file of a multipart form.
func (w *Workspace) takeUpload(rw http.ResponseWriter, r *http.Request) {
	w.mu.Lock()
	f := w.uploads[r.URL.Path]
	fresh := f != nil && !f.uploaded
	fault := w.fault("upload")
	w.mu.Unlock()
	if !fresh {
		w.blame(UploadUsed, "upload", "no upload waits at this address")
		http.Error(rw, "no such upload", http.StatusNotFound)
		return
	}
	data, err := uploadBody(r)
	if fault.before(rw) {
		return
	}
	if err != nil || len(data) != f.size {
		w.blame(UploadLength, "upload", "%d bytes came, %d were announced (%v)", len(data), f.size, err)
		http.Error(rw, "length differs", http.StatusBadRequest)
		return
	}
	w.mu.Lock()
	f.data, f.uploaded = data, true
	w.mu.Unlock()
	if fault.after(rw, r) {
		return
	}
	io.WriteString(rw, "OK - "+f.id)
}

func uploadBody(r *http.Request) ([]byte, error) {
	if !strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		return io.ReadAll(r.Body)
	}
	parts, err := r.MultipartReader()
	if err != nil {
		return nil, err
	}
	for {
		part, err := parts.NextPart()
		if err != nil {
			return nil, err
		}
		if part.FileName() != "" || part.FormName() == "file" {
			return io.ReadAll(part)
		}
	}
}

// download serves url_private. Without the token Slack leads to its sign-in page,
// which a careless client keeps as the picture.
func (w *Workspace) download(rw http.ResponseWriter, r *http.Request) {
	team, id, _ := strings.Cut(r.PathValue("file"), "-")
	w.mu.Lock()
	f := w.files[id]
	fault := w.fault("download")
	revoked := w.revoked[w.BotToken]
	w.mu.Unlock()
	if fault.before(rw) {
		return
	}
	switch {
	case r.URL.Query().Has("token"):
		w.blame(TokenInQuery, "download", "the token stands in the address")
	case bearer(r) != w.BotToken:
		w.blame(DownloadToken, "download", "no bot token in the Authorization header")
	case revoked:
	case f == nil || f.deleted || !f.uploaded || team != w.TeamID:
		http.Error(rw, "file not found", http.StatusNotFound)
		return
	default:
		rw.Header().Set("Content-Type", f.mime)
		rw.Write(f.data)
		return
	}
	http.Redirect(rw, r, "/sign-in?redir="+r.URL.Path, http.StatusFound)
}

func signIn(rw http.ResponseWriter, _ *http.Request) {
	rw.Header().Set("Content-Type", "text/html; charset=utf-8")
	io.WriteString(rw, "<!DOCTYPE html><html><body>Sign in to your workspace</body></html>")
}

func bearer(r *http.Request) string {
	token, _ := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer ")
	return token
}
