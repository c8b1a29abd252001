package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/config"
)

// readCmd shows how replies are understood: a message a line in, a reading a
// line out.
type readCmd struct {
	Config  string `required:"" type:"path" placeholder:"FILE" help:"Department file."`
	Company string `required:"" placeholder:"ID" help:"Company whose full check the messages answer."`
	JSONL   bool   `name:"jsonl" help:"Read objects with a text instead of plain lines."`
	At      string `placeholder:"TIME" help:"Local time at which the messages are said, like 2026-11-25T07:30; now if left out."`
}

// Run reads standard input to its end.
func (c *readCmd) Run() error { return c.read(os.Stdin, os.Stdout) }

func (c *readCmd) read(in io.Reader, out io.Writer) error {
	d, err := config.Load(c.Config)
	if err != nil {
		return err
	}
	ctx, err := c.context(d)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(out)
	defer w.Flush()
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	lines := bufio.NewReader(in)
	for n := 1; ; n++ {
		line, err := lines.ReadString('\n')
		if line != "" {
			text, bad := c.text(line)
			if bad != nil {
				return fmt.Errorf("line %d: %w", n, bad)
			}
			if err := enc.Encode(readingOf(text, reply.Read(ctx, text))); err != nil {
				return fmt.Errorf("write reading: %w", err)
			}
		}
		if err == io.EOF {
			return w.Flush()
		}
		if err != nil {
			return fmt.Errorf("read messages: %w", err)
		}
	}
}

func (c *readCmd) context(d *config.Department) (reply.Context, error) {
	id := dept.CompanyID(c.Company)
	if _, ok := d.Dept.Company(id); !ok {
		return reply.Context{}, fmt.Errorf("there is no company %q in %s", c.Company, c.Config)
	}
	now := time.Now().In(d.Dept.Zone)
	if c.At != "" {
		at, err := time.ParseInLocation("2006-01-02T15:04", c.At, d.Dept.Zone)
		if err != nil {
			return reply.Context{}, fmt.Errorf("--at %q is not a local time like 2026-11-25T07:30", c.At)
		}
		now = at
	}
	return reply.Context{Items: reply.Full(d.Dept, d.Book, id), Company: reply.Called(d.Dept, id), Now: now}, nil
}

func (c *readCmd) text(line string) (string, error) {
	for len(line) > 0 && (line[len(line)-1] == '\n' || line[len(line)-1] == '\r') {
		line = line[:len(line)-1]
	}
	if !c.JSONL {
		return line, nil
	}
	var o struct {
		Text string `json:"text"`
	}
	if err := json.Unmarshal([]byte(line), &o); err != nil {
		return "", fmt.Errorf("not an object with a text: %w", err)
	}
	return o.Text, nil
}

// reading is the JSON form of a reply.Reading.
type reading struct {
	Text          string       `json:"text"`
	Intent        reply.Intent `json:"intent"`
	Results       []result     `json:"results"`
	NotUnderstood []string     `json:"not_understood"`
	Ask           []string     `json:"ask"`
}

type result struct {
	Check  string      `json:"check"`
	State  check.State `json:"state"`
	Value  any         `json:"value,omitempty"`
	Words  string      `json:"words"`
	Fixed  bool        `json:"fixed,omitempty"`
	Damage string      `json:"damage,omitempty"`
}

func readingOf(text string, r reply.Reading) reading {
	out := reading{Text: text, Intent: r.Intent, Results: []result{}, NotUnderstood: []string{}, Ask: []string{}}
	for _, x := range r.Results {
		out.Results = append(out.Results, result{
			Check: x.Ref.String(), State: x.State, Value: valueOf(x.Value), Words: x.Words, Fixed: x.Fixed, Damage: x.Damage,
		})
	}
	out.NotUnderstood = append(out.NotUnderstood, r.NotUnderstood...)
	for _, ref := range r.Ask {
		out.Ask = append(out.Ask, ref.String())
	}
	return out
}

func valueOf(v check.Value) any {
	switch {
	case v.Number != nil:
		return *v.Number
	case v.Word != "":
		return v.Word
	}
	return nil
}
