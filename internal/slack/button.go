package slack

import (
	"encoding/json"
	"fmt"
	"strings"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// What Slack takes of buttons.
const (
	mostLabel  = 75   // characters of a button
	mostValue  = 2000 // of what a button carries
	mostInRow  = 25   // buttons in one block
	mostRows   = 4    // blocks of buttons, by our own count: 100 choices
	mostModal  = 24   // characters of a dialog's title and of its buttons
	mostOption = 75   // of one answer in a list
	mostInputs = 80   // of a dialog: 100 blocks with the items' names
)

// The sorts of buttons, as their action ids begin.
const (
	says  = "say"  // the value is what it says
	asks  = "ask"  // the value is a question; the answer is what it says
	forms = "form" // the value is a form
)

// buttons are the choices of a message, and behind them its form.
func buttons(m chat.Message) []api.Block {
	var all []api.BlockElement
	fills := sheets(m.Form)
	for i, c := range m.Choices[:min(len(m.Choices), max(0, mostInRow*mostRows-len(fills)))] {
		kind, value := says, c.Say
		if c.Ask != "" {
			kind, value = asks, c.Ask
		}
		all = append(all, button(fmt.Sprintf("%s-%d", kind, i), value, c.Label))
	}
	for i, f := range fills {
		all = append(all, button(fmt.Sprintf("%s-%d", forms, i), f.encode(), f.Label))
	}
	var rows []api.Block
	for len(all) > 0 && len(rows) < mostRows {
		n := min(len(all), mostInRow)
		rows = append(rows, api.NewActionBlock("", all[:n]...))
		all = all[n:]
	}
	return rows
}

func button(id, value, label string) api.BlockElement {
	return api.NewButtonBlockElement(id, clip(value, mostValue), plain(clip(clean(label), mostLabel)))
}

// sheet is a form, or the part of one that a button can carry. A button carries
// all that its dialog needs, so that it works after any restart.
type sheet struct {
	Label  string       `json:"-"`
	Title  string       `json:"t"`
	Rest   string       `json:"r,omitempty"`
	Fields []sheetField `json:"f"`
}

// sheetField is a chat.Field in few characters.
type sheetField struct {
	N      int    `json:"n"`
	Label  string `json:"l"`
	Under  string `json:"i,omitempty"` // only where it differs from the field before
	Say    string `json:"s,omitempty"` // with | between them
	Unit   string `json:"u,omitempty"`
	Filled string `json:"v,omitempty"`
}

func (s sheet) encode() string {
	data, err := json.Marshal(s)
	if err != nil { // strings and numbers always go
		return ""
	}
	return string(data)
}

// sheets splits a form into as many buttons as it takes, each named for the
// numbers it asks.
func sheets(f *chat.Form) []sheet {
	if f == nil || len(f.Fields) == 0 {
		return nil
	}
	var out []sheet
	now := sheet{Title: clip(f.Title, mostModal), Rest: f.Rest}
	for _, field := range f.Fields {
		was := now.Fields
		now.Fields = append(now.Fields[:len(was):len(was)], short(field, was))
		if len(was) > 0 && (len(now.encode()) > mostValue || len(now.Fields) > mostInputs) {
			now.Fields = was
			out = append(out, now)
			now.Fields = []sheetField{short(field, nil)}
		}
	}
	out = append(out, now)
	for i := range out {
		out[i].Label = f.Label
		if len(out) > 1 {
			fields := out[i].Fields
			out[i].Label = fmt.Sprintf("%s %d-%d", f.Label, fields[0].N, fields[len(fields)-1].N)
		}
	}
	return out
}

// short is a field behind those that the sheet has already.
func short(f chat.Field, before []sheetField) sheetField {
	s := sheetField{N: f.N, Label: clip(f.Label, mostOption), Under: clip(f.Under, mostOption), Say: strings.Join(f.Say, "|"),
		Unit: f.Unit, Filled: clip(f.Filled, mostOption)}
	if len(s.Say) > mostValue/2 { // a list that long is typed
		s.Say = ""
	}
	for i := len(before) - 1; i >= 0; i-- {
		if before[i].Under == "" {
			continue
		}
		if before[i].Under == s.Under {
			s.Under = ""
		}
		break
	}
	return s
}
