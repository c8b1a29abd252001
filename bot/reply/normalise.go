package reply

import (
	"strings"

	"golang.org/x/text/unicode/norm"
)

// vulgar expands before NFKC, which would glue "1½" into "11⁄2".
var vulgar = strings.NewReplacer(
	"½", " 1/2 ", "¼", " 1/4 ", "¾", " 3/4 ", "⅓", " 1/3 ", "⅔", " 2/3 ", "⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ",
	"⅞", " 7/8 ", "⅕", " 1/5 ", "⅖", " 2/5 ", "⅗", " 3/5 ", "⅘", " 4/5 ", "⅙", " 1/6 ", "⅚", " 5/6 ",
	"’", "'", "‘", "'", "“", "\"", "”", "\"", "–", "-", "—", " - ", "−", "-", "″", "\"", "′", "'",
	"\u200b", "", "\u200d", "", "\ufe0f", "", "\u2028", "\n", "\r\n", "\n",
	"👍", " thumbsup ", "👌", " okhand ", "✅", " checkmark ", "✔", " checkmark ", "☑", " checkmark ", "🆗", " ok ", "💯", " thumbsup ",
	"👎", " thumbsdown ", "🙃", " doubtsign ", "💩", " doubtsign ", "🤞", " doubtsign ", "🤔", " doubtsign ", "😬", " doubtsign ", "🙄", " doubtsign ", "😒", " doubtsign ", "🤷", " doubtsign ", "😐", " doubtsign ", "❌", " redx ", "⚠", " warningsign ", "🚫", " redx ", ":+1:", " thumbsup ", ":thumbsup:", " thumbsup ",
	":white_check_mark:", " checkmark ", ":heavy_check_mark:", " checkmark ", ":ok_hand:", " okhand ", ":-1:", " thumbsdown ",
	":thumbsdown:", " thumbsdown ", ":x:", " redx ", ":warning:", " warningsign ",
	"🏻", "", "🏼", "", "🏽", "", "🏾", "", "🏿", "", "≈", "~", "≥", " at least ", "≤", " at most ", "⁄", "/",
)

// normalise brings a message into one form of characters: fractions written out,
// one kind of quote and dash, emoji that mean something as words. Case is kept.
func normalise(s string) string {
	if isPlain(s) {
		return s
	}
	return norm.NFKC.String(vulgar.Replace(s))
}

func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] == ':' || s[i] == '\r' {
			return false
		}
	}
	return true
}
