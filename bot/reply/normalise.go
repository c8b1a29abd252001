package reply

import (
	"regexp"
	"strconv"
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

var listed = regexp.MustCompile(`(^|[\s,])(\d{1,2})\.([^\s.])`)

// numbered sets the numbers of a list apart from what they number: "1.full 2.ok 3.6min"
// has no "3.6" in it. Nothing else with a point in it counts up from one.
func numbered(s string) string {
	if !strings.HasPrefix(s, "1.") {
		return s
	}
	found := listed.FindAllStringSubmatch(s, -1)
	for i, m := range found {
		if m[2] != strconv.Itoa(i+1) {
			return s
		}
	}
	if len(found) < 3 {
		return s
	}
	return listed.ReplaceAllString(s, "$1$2 $3")
}

func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] == ':' || s[i] == '\r' {
			return false
		}
	}
	return true
}
