package wording

import "crosslay/bot/chat"

// StatusLine is what there is to say of one company.
type StatusLine struct {
	Company, Text string
}

// StatusDepartment answers an officer who asks for the department as a whole.
func StatusDepartment(name string, lines []StatusLine, totals string) []chat.Block {
	var texts []string
	for _, l := range lines {
		texts = append(texts, join(": ", l.Company, l.Text))
	}
	return blocks(block(chat.Title, name), block(chat.List, texts...), block(chat.Body, totals))
}

// Lines is a list under a title.
func Lines(title string, lines []string) []chat.Block {
	return blocks(block(chat.Title, title), block(chat.List, lines...))
}
