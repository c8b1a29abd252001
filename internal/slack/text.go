package slack

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// angle is a mention or a link in a text that somebody wrote.
var angle = regexp.MustCompile(`<([^<>]*)>`)

// read turns what Slack hands over into what the person typed. A mention of the
// bot itself is an address and no word; other people go by the name that called
// gives them.
func read(text, bot string, called func(user string) string) string {
	text = ownWords(text)
	text = angle.ReplaceAllStringFunc(text, func(s string) string { return spelled(s[1:len(s)-1], bot, called) })
	text = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(text)
	return strings.TrimSpace(withCharacters(strings.ReplaceAll(text, "\u00a0", " ")))
}

// struck is what somebody wrote and struck out: it is said no more.
var struck = regexp.MustCompile(`(^|[\s(,.;:])~[^~\s](?:[^~\n]*[^~\s])?~($|[\s),.;:!?])`)

// ownWords leaves out what was struck out, and lines quoted from others above or
// below words of one's own: neither is what the person says now.
func ownWords(text string) string {
	text = struck.ReplaceAllString(text, "$1$2")
	var own []string
	for line := range strings.SplitSeq(text, "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), "&gt;") {
			own = append(own, line)
		}
	}
	if rest := strings.Join(own, "\n"); strings.TrimSpace(rest) != "" {
		return rest
	}
	return text
}

// spelled is what stands between < and > as people see it.
func spelled(inner, bot string, called func(string) string) string {
	what, label, labelled := strings.Cut(inner, "|")
	switch {
	case what == "@"+bot && bot != "":
		return ""
	case strings.HasPrefix(what, "@"):
		if labelled && label != "" {
			return "@" + strings.TrimPrefix(label, "@")
		}
		return "@" + called(what[1:])
	case strings.HasPrefix(what, "#"):
		if labelled && label != "" {
			return "#" + strings.TrimPrefix(label, "#")
		}
		return what
	case strings.HasPrefix(what, "!"):
		if labelled && label != "" {
			return label
		}
		return "@" + what[1:]
	case labelled && label != "":
		return label
	}
	return what
}

// clean takes out what no message should carry: control characters, and bytes
// that are no text.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.IsControl(r), r == utf8.RuneError:
			return -1
		}
		return r
	}, text)
}

// escaped is text for a place where Slack reads markup.
func escaped(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text)
}

// clip shortens a text to so many characters.
func clip(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-1]) + "…"
}
