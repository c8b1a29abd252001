package slack

import (
	"slices"
	"strings"
	"unicode/utf8"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// What Slack takes, and where we stop before it.
const (
	mostHeader  = 150   // characters of a header
	mostSection = 2900  // of a section's text: 3000
	mostContext = 1900  // of a text in small print
	mostBlocks  = 40    // texts of one message; 50 blocks with buttons and pictures
	mostPage    = 10000 // characters of one message's blocks, by our own caution
	mostText    = 3900  // of the text behind the blocks: 4000 advised
)

// page is one Slack message. What is too long for one goes on in the next, in
// the same thread.
type page struct {
	text   string // for notifications and screen readers
	blocks []api.Block
	images []api.Block
	rows   []api.Block // of buttons
}

// all are the blocks in the order in which they are shown.
func (p page) all() []api.Block { return slices.Concat(p.blocks, p.images, p.rows) }

// pages lays a message out. Texts are plain everywhere: what people wrote is
// never read as markup. Buttons stand on the first page, of which the key is
// known when they are pressed.
func pages(m chat.Message) []page {
	var all []page
	var now page
	size := 0
	turn := func() {
		all = append(all, now)
		now, size = page{}, 0
	}
	for _, part := range parts(m.Blocks) {
		n := utf8.RuneCountInString(part.text)
		if len(now.blocks) > 0 && (len(now.blocks) >= mostBlocks || size+n > mostPage) {
			turn()
		}
		now.blocks = append(now.blocks, part.block())
		now.text, size = now.text+part.text+"\n", size+n
	}
	if len(now.blocks) > 0 || len(all) == 0 {
		turn()
	}
	for i := range all {
		all[i].text = fallback(all[i].text)
	}
	if len(all[0].blocks) == 0 { // a message of a picture alone
		all[0].blocks = append(all[0].blocks, part{chat.Body, all[0].text}.block())
	}
	all[0].rows = buttons(m)
	return all
}

// part is a text that fits into one block.
type part struct {
	role chat.Role
	text string
}

// parts cuts blocks into texts that fit, at the ends of lines where possible.
func parts(blocks []chat.Block) []part {
	var out []part
	for _, b := range blocks {
		most := limit(b.Role)
		text := ""
		for _, line := range pieces(b.Lines, most) {
			if text != "" && utf8.RuneCountInString(text)+1+utf8.RuneCountInString(line) > most {
				out = append(out, part{b.Role, text})
				text = ""
			}
			text = strings.TrimPrefix(text+"\n"+line, "\n")
		}
		if text != "" {
			out = append(out, part{b.Role, text})
		}
	}
	return out
}

func limit(r chat.Role) int {
	switch r {
	case chat.Title:
		return mostHeader
	case chat.Hint:
		return mostContext
	case chat.Body, chat.List, chat.Safety:
	}
	return mostSection
}

// pieces are the lines without what is empty, none longer than most.
func pieces(lines []string, most int) []string {
	var out []string
	for _, line := range lines {
		runes := []rune(strings.TrimRight(clean(line), " "))
		for len(runes) > most {
			out = append(out, string(runes[:most]))
			runes = runes[most:]
		}
		if len(strings.TrimSpace(string(runes))) > 0 {
			out = append(out, string(runes))
		}
	}
	return out
}

func (p part) block() api.Block {
	switch p.role {
	case chat.Title:
		return api.NewHeaderBlock(plain(strings.ReplaceAll(p.text, "\n", " ")))
	case chat.Hint:
		return api.NewContextBlock("", plain(p.text))
	case chat.Safety:
		return api.NewSectionBlock(plain("⚠️ "+strings.ReplaceAll(p.text, "\n", " ")), nil, nil) // one sentence, broken for wider screens
	case chat.Body, chat.List:
	}
	return api.NewSectionBlock(plain(p.text), nil, nil)
}

func plain(text string) *api.TextBlockObject {
	return api.NewTextBlockObject(api.PlainTextType, text, false, false)
}

// fallback is the text behind the blocks: as many lines as fit, escaped.
func fallback(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimRight(text, "\n"), "\n") {
		line = escaped(clip(line, mostText/5)) // an escaped character has five at most
		if utf8.RuneCountInString(b.String())+utf8.RuneCountInString(line)+2 > mostText {
			b.WriteString("\n…")
			break
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(line)
	}
	if b.Len() == 0 {
		return "…"
	}
	return b.String()
}
