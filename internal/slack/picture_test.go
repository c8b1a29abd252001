package slack

import (
	"bytes"
	"errors"
	"fmt"
	"testing"
	"time"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

var photo = []byte("\x89PNG\r\n\x1a\n a picture")

func board(key chat.Key) chat.Message {
	return chat.Message{Key: key, Kind: chat.Defect, Blocks: []chat.Block{chat.Text(chat.Body, "Defect: hose HH-01")},
		Pics: []chat.Picture{{Name: "board.png", Type: "image/png", Data: photo, Alt: "the board"}}}
}

// pictured lists the files that a message shows, and the small print beside them.
func (w *bench) pictured(m slackdouble.Message) (files, words []string) {
	for _, b := range m.Blocks {
		switch b["type"] {
		case "image":
			files = append(files, b["slack_file"].(map[string]any)["id"].(string))
		case "context":
			words = append(words, fmt.Sprint(b["elements"]))
		}
	}
	return files, words
}

// send posts a message as the outbox does, until it stands there.
func (w *bench) sendUntil(m chat.Message) error {
	began := time.Now()
	for range 20 {
		_, err := w.b.Post(w.t.Context(), m, w.place(), "")
		if err == nil {
			return nil
		}
		if errors.Is(err, chat.ErrRefused) {
			return err
		}
		time.Sleep(10 * time.Second)
		if errors.Is(err, chat.ErrUnsure) {
			if _, found, err := w.b.Find(w.t.Context(), m, w.place(), began.Add(-time.Minute)); found || err != nil {
				return err
			}
		}
	}
	return errors.New("it never arrived")
}

// TestPictures_out: whatever goes wrong on the way, the message stands there once,
// with its picture, and the picture is seen nowhere else.
func TestPictures_out(t *testing.T) {
	for name, c := range map[string]struct {
		method string
		faults []slackdouble.Fault
		bare   bool // the picture is lost, the message is not
	}{
		"all_well":            {"auth.test", nil, false},
		"no_address":          {"files.getUploadURLExternal", []slackdouble.Fault{slackdouble.Drop()}, false},
		"limited":             {"files.getUploadURLExternal", []slackdouble.Fault{slackdouble.Limit(30 * time.Second)}, false},
		"upload_cut":          {"upload", []slackdouble.Fault{slackdouble.Drop()}, false},
		"upload_answer_lost":  {"upload", []slackdouble.Fault{slackdouble.CommitAndDrop()}, false},
		"complete_lost":       {"files.completeUploadExternal", []slackdouble.Fault{slackdouble.CommitAndDrop()}, false},
		"post_answer_lost":    {"chat.postMessage", []slackdouble.Fault{slackdouble.CommitAndDrop()}, false},
		"post_never_arrived":  {"chat.postMessage", []slackdouble.Fault{slackdouble.Drop()}, false},
		"uploads_never_work":  {"files.getUploadURLExternal", repeat(slackdouble.Status(503), 20), true},
		"uploads_are_refused": {"files.getUploadURLExternal", repeat(slackdouble.Refuse("file_uploads_disabled"), 20), true},
	} {
		t.Run(name, func(t *testing.T) {
			onBench(t, slackdouble.Options{Processing: 5 * time.Second}, func(w *bench) {
				w.Fail(c.method, c.faults...)
				if err := w.sendUntil(board("defect/d1")); err != nil {
					t.Fatal(err)
				}
				shown := w.All(w.station)
				if len(shown) != 1 || len(shown[0].Files) != 0 {
					t.Fatalf("shown are %+v", shown)
				}
				files, words := w.pictured(shown[0])
				if c.bare {
					if len(files) != 0 || len(words) != 1 {
						t.Errorf("shown are %v and %v", files, words)
					}
					return
				}
				if len(files) != 1 {
					t.Fatalf("shown are %v", shown[0].Blocks)
				}
				if data, ok := w.File(files[0]); !ok || !bytes.Equal(data, photo) {
					t.Errorf("the picture is %q", data)
				}
			})
		})
	}
}

func repeat(f slackdouble.Fault, n int) []slackdouble.Fault {
	var list []slackdouble.Fault
	for range n {
		list = append(list, f)
	}
	return list
}

// TestPictures_through: a photo of the crew's channel is shown in the shop's.
func TestPictures_through(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.Say(w.ines, w.station, "", "left hose", slackdouble.Upload{Name: "nick.png", Data: photo})
		w.settle()
		m := board("defect/d1")
		m.Pics = w.only().Pics
		shop := w.AddChannel("shop")
		if _, err := w.b.Post(w.t.Context(), m, chat.Place{Backend: Name, Room: shop}, ""); err != nil {
			t.Fatal(err)
		}
		files, _ := w.pictured(w.All(shop)[0])
		if len(files) != 1 {
			t.Fatalf("shown is %+v", w.All(shop))
		}
		if data, _ := w.File(files[0]); !bytes.Equal(data, photo) {
			t.Errorf("the picture is %q", data)
		}
		w.quiet()
	})
}

// TestPictures_edited: an edit may bring another picture.
func TestPictures_edited(t *testing.T) {
	onBench(t, slackdouble.Options{Processing: 2 * time.Second}, func(w *bench) {
		ref := w.post(prompt("k/1"), w.place())
		edit := board("k/1/edit/1")
		edit.Edits = "k/1"
		var err error
		for range 3 {
			if _, err = w.b.Post(w.t.Context(), edit, w.place(), ref); err == nil {
				break
			}
			time.Sleep(5 * time.Second)
		}
		shown := w.All(w.station)
		if files, _ := w.pictured(shown[0]); err != nil || len(shown) != 1 || len(files) != 1 || shown[0].Payload["key"] != "k/1" {
			t.Errorf("%v: shown are %+v", err, shown)
		}
	})
}

// TestPictures_gone: a photo that was deleted, or stands on another service, is
// named; the report stands.
func TestPictures_gone(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		m := board("defect/d1")
		m.Pics = []chat.Picture{{Name: "nick.png", Source: "slack:F404"}, {Name: "other.png", Source: `{"url":"mxc://x"}`}}
		w.post(m, w.place())
		files, words := w.pictured(w.All(w.station)[0])
		if len(files) != 0 || len(words) != 2 {
			t.Errorf("shown are %v and %v", files, words)
		}
		if n := len(w.troubles()); n != 2 {
			t.Errorf("%d troubles were reported, want 2", n)
		}
	})
}

// TestPictures_never_ready: a picture that Slack never gets done with keeps the
// message back for a while, not for ever.
func TestPictures_never_ready(t *testing.T) {
	onBench(t, slackdouble.Options{Processing: 24 * time.Hour}, func(w *bench) {
		m := board("defect/d1")
		var err error
		began := time.Now()
		for range 2 * mostTries {
			if _, err = w.b.Post(w.t.Context(), m, w.place(), ""); err == nil {
				break
			}
			wait := chat.Wait{}
			if !errors.As(err, &wait) {
				t.Fatalf("error %v", err)
			}
			time.Sleep(wait.For)
		}
		if took := time.Since(began); err != nil || took > time.Minute {
			t.Fatalf("after %s: %v", took, err)
		}
		if files, words := w.pictured(w.All(w.station)[0]); len(files) != 0 || len(words) != 1 {
			t.Errorf("shown are %v and %v", files, words)
		}
	})
}

// TestAddressOf: of a phone's own format the form is fetched that everything shows.
func TestAddressOf(t *testing.T) {
	for name, c := range map[string]struct {
		file api.File
		want string
	}{
		"jpeg":               {api.File{Mimetype: "image/jpeg", URLPrivateDownload: "d", URLPrivate: "p", Thumb1024: "t"}, "d"},
		"no_download":        {api.File{Mimetype: "image/png", URLPrivate: "p"}, "p"},
		"phone":              {api.File{Mimetype: "image/heic", URLPrivateDownload: "d", Thumb1024: "t1024", Thumb360: "t360"}, "t1024"},
		"phone_small":        {api.File{Mimetype: "image/heic", URLPrivateDownload: "d", Thumb360: "t360"}, "t360"},
		"phone_without_form": {api.File{Mimetype: "image/heic", URLPrivateDownload: "d"}, "d"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := addressOf(&c.file); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
	for want, pic := range map[string]chat.Picture{
		"photo": {}, "a.png": {Name: "a.png", Type: "image/png"}, "IMG_1.HEIC.jpg": {Name: "IMG_1.HEIC", Type: "image/heic"},
	} {
		if got := fileName(pic); got != want {
			t.Errorf("%+v is called %s, want %s", pic, got, want)
		}
	}
}
