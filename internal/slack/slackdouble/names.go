package slackdouble

import (
	"crypto/rand"
	"encoding/hex"
	"fmt"
	"strings"
	"time"
)

// id makes the next identifier: a letter for what it names and ten digits.
func (w *Workspace) id(letter string) string {
	w.serial++
	return fmt.Sprintf("%s0%09d", letter, w.serial)
}

// secret makes n random characters.
func secret(n int) string {
	b := make([]byte, (n+1)/2)
	rand.Read(b) // never fails
	return hex.EncodeToString(b)[:n]
}

// uuid makes a random name in the shape of Slack's envelope ids.
func uuid() string {
	s := secret(32)
	return strings.Join([]string{s[:8], s[8:12], s[12:16], s[16:20], s[20:]}, "-")
}

// stamp makes the next message timestamp: seconds and microseconds, unique and
// rising in the workspace.
func (w *Workspace) stamp() string {
	now := time.Now().UnixMicro()
	if now <= w.lastTS {
		now = w.lastTS + 1
	}
	w.lastTS = now
	return formatTS(now)
}

func formatTS(micros int64) string {
	return fmt.Sprintf("%d.%06d", micros/1e6, micros%1e6)
}

// validTS tells whether s has the shape of a message timestamp.
func validTS(s string) bool {
	sec, frac, dot := strings.Cut(s, ".")
	return dot && len(sec) >= 9 && len(frac) == 6 && digits(sec) && digits(frac)
}

// validBound tells whether s can be oldest or latest: whole seconds, or seconds
// with up to six places.
func validBound(s string) bool {
	sec, frac, _ := strings.Cut(s, ".")
	return sec != "" && digits(sec) && len(frac) <= 6 && digits(frac)
}

func digits(s string) bool {
	return strings.Trim(s, "0123456789") == ""
}

// padTS brings a bound to the form in which timestamps compare as strings.
func padTS(s string) string {
	sec, frac, _ := strings.Cut(s, ".")
	return fmt.Sprintf("%012s.%s", sec, (frac + "000000")[:6])
}
