package matrix

import (
	"slices"
	"strings"

	"crosslay/bot/chat"
)

// sign is a reaction that says what could be typed. There are few, and none
// that people put on a message just to say that they read it.
type sign struct{ emoji, says string }

// thumb is taken by the bot itself, which hears too when it is taken away.
var thumb = sign{"👍", "all good"}

var signs = []sign{{"🚨", "on a call"}, {"👀", "seen"}}

// signFor is the sign for what could be typed, "" if there is none.
func signFor(says string) string {
	for _, s := range append([]sign{thumb}, signs...) {
		if strings.EqualFold(s.says, says) {
			return s.emoji
		}
	}
	return ""
}

// saying is what a reaction to the message says, if the message offers that; ""
// if it says nothing.
func (m mark) saying(emoji string) string {
	for _, s := range signs {
		offered := slices.ContainsFunc(m.Says, func(o string) bool { return strings.EqualFold(o, s.says) })
		if offered && strings.HasPrefix(emoji, s.emoji) {
			return s.says
		}
	}
	return ""
}

// offers lists what can be typed in answer to a message.
func offers(m chat.Message) []string {
	var says []string
	for _, c := range m.Choices {
		if c.Say != "" && c.Ask == "" {
			says = append(says, c.Say)
		}
	}
	return says
}
