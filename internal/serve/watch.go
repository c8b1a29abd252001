package serve

import (
	"context"
	"fmt"
	"os"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
)

// glance is how often the department file is looked at.
const glance = 2 * time.Second

// stamp is what tells one state of a file from another.
type stamp struct {
	mod  time.Time
	size int64
}

func stampOf(path string) (stamp, bool) {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}, false
	}
	return stamp{info.ModTime(), info.Size()}, true
}

// watch takes up the department file when it changes. An editor may take it away
// for a moment: a missing file is no change.
func (s *server) watch(ctx context.Context) error {
	if s.File == "" {
		<-ctx.Done()
		return nil
	}
	known, _ := stampOf(s.File)
	tick := time.NewTicker(glance)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
		}
		if now, ok := stampOf(s.File); ok && now != known {
			known = now
			s.reload(ctx)
		}
	}
}

// reload takes up the file if it vets clean, and goes on with the old department
// if not; either way it says so.
func (s *server) reload(ctx context.Context) {
	setup, err := s.Load()
	if err == nil {
		err = Fits(setup, names(s.Backends))
	}
	if err == nil {
		s.Log.Info("file taken up", "file", s.File)
		err = s.engine.Replace(ctx, setup, time.Now(), taken(s.engine.Setup(), setup))
	} else {
		s.Log.Warn("file refused", "file", s.File, "error", err.Error())
		err = s.engine.Note(ctx, chat.Reloaded, time.Now(), refused(err))
	}
	if err != nil {
		s.Log.Error("say so", "error", err.Error())
	}
	s.wake()
}

// taken says what kind of department was taken up.
func taken(was, is bot.Setup) string {
	return fmt.Sprintf("The changed department file is in force: %s, %s.",
		counted(len(was.Dept.Companies), len(is.Dept.Companies), "companies"),
		counted(len(was.Dept.Items), len(is.Dept.Items), "items"))
}

func counted(was, is int, what string) string {
	if was == is {
		return fmt.Sprintf("%d %s", is, what)
	}
	return fmt.Sprintf("%d %s instead of %d", is, what, was)
}

// refused says why a file was not taken up, by its first few mistakes.
func refused(err error) string {
	const most = 3
	lines := strings.Split(err.Error(), "\n")
	text := "The changed department file has mistakes; the old one stays in force."
	for i, l := range lines {
		if i == most {
			return text + fmt.Sprintf("\nand %d more; crosslay vet lists them", len(lines)-most)
		}
		text += "\n" + l
	}
	return text
}
