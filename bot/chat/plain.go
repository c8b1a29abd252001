package chat

import "strings"

// Plain is the message as text, one line a line, without the choices.
func (m Message) Plain() string {
	var b strings.Builder
	for _, block := range m.Blocks {
		for _, line := range block.Lines {
			if b.Len() > 0 {
				b.WriteByte('\n')
			}
			b.WriteString(line)
		}
	}
	return b.String()
}

// Text makes a block of lines in a role; an empty text makes no lines.
func Text(role Role, lines ...string) Block { return Block{Role: role, Lines: lines} }
