package slackdouble

import (
	"regexp"
	"strings"
)

var (
	entity = regexp.MustCompile(`^&(amp|lt|gt);`)
	markup = regexp.MustCompile(`^<(@[UWS][A-Z0-9]+|#[CGD][A-Z0-9]+|!(here|channel|everyone)|!subteam\^S[A-Z0-9]+|!date\^\d+\^[^<>]+|(https?://|mailto:|tel:|slack://)[^<>|\s]+)(\|[^<>]*)?>`)
)

// rawMarkup finds the first &, < or > that is neither an entity nor part of a
// mention or link; "" if there is none. A > that begins a line is a quotation.
func rawMarkup(text string) string {
	for i := 0; i < len(text); i++ {
		rest := text[i:]
		switch text[i] {
		case '&':
			if !entity.MatchString(rest) {
				return clip(rest)
			}
		case '<':
			n := len(markup.FindString(rest))
			if n == 0 {
				return clip(rest)
			}
			i += n - 1
		case '>':
			if i > 0 && text[i-1] != '\n' {
				return clip(rest)
			}
		}
	}
	return ""
}

func clip(s string) string {
	if r := []rune(s); len(r) > 20 {
		return string(r[:20]) + "..."
	}
	return s
}

// typed turns what a person types into what Slack sends: entities, emoji as
// names. Mentions may be typed as <@U...>.
func typed(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if n := len(markup.FindString(text[i:])); n > 0 {
			b.WriteString(text[i : i+n])
			i += n - 1
			continue
		}
		switch text[i] {
		case '&':
			b.WriteString("&amp;")
		case '<':
			b.WriteString("&lt;")
		case '>':
			b.WriteString("&gt;")
		default:
			b.WriteByte(text[i])
		}
	}
	return emojiNames().Replace(b.String())
}
