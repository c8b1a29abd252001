package slack

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// opened is the message that a dialog was opened from; the dialog carries it.
type opened struct {
	Channel string `json:"c"`
	TS      string `json:"m"`
	Thread  string `json:"t,omitempty"`
}

// The ids of inputs.
const (
	rest  = "rest" // the block of the open input
	entry = "in"   // the input in every block
)

// dialog is the view that a form's button opens. A field's block is named for its
// number and unit, which is all that is needed when it comes back.
func (s sheet) dialog(from opened) api.ModalViewRequest {
	var blocks []api.Block
	for _, f := range s.Fields {
		if f.Under != "" {
			blocks = append(blocks, api.NewHeaderBlock(plain(f.Under)))
		}
		block := api.NewInputBlock(fieldID(f), plain(fmt.Sprintf("%d %s", f.N, f.Label)), nil, f.input())
		block.Optional = true
		blocks = append(blocks, block)
	}
	if s.Rest != "" {
		blocks = append(blocks, words(s.Rest))
	}
	return modal(s.Title, from, blocks)
}

// question is the dialog that asks one thing.
func question(title, ask string, from opened) api.ModalViewRequest {
	block := words(ask)
	block.Optional = false
	if title == "" {
		title = "crosslay"
	}
	return modal(title, from, []api.Block{block})
}

func words(label string) *api.InputBlock {
	in := api.NewPlainTextInputBlockElement(nil, entry)
	in.Multiline, in.MaxLength = true, 3000
	block := api.NewInputBlock(rest, plain(label), nil, in)
	block.Optional = true
	return block
}

func modal(title string, from opened, blocks []api.Block) api.ModalViewRequest {
	private, _ := json.Marshal(from) // strings always go
	return api.ModalViewRequest{
		Type: api.VTModal, CallbackID: forms, Title: plain(clip(clean(title), mostModal)), Submit: plain("Send"), Close: plain("Cancel"),
		Blocks: api.Blocks{BlockSet: blocks}, PrivateMetadata: string(private),
	}
}

func fieldID(f sheetField) string { return fmt.Sprintf("n/%d/%s", f.N, f.Unit) }

func (f sheetField) input() api.BlockElement {
	if f.Say == "" {
		in := api.NewPlainTextInputBlockElement(nil, entry)
		in.InitialValue, in.MaxLength = f.Filled, 200
		if f.Unit != "" {
			in.Placeholder = plain(f.Unit)
		}
		return in
	}
	var options []*api.OptionBlockObject
	for _, say := range strings.Split(f.Say, "|") {
		say = clip(say, mostOption)
		options = append(options, api.NewOptionBlockObject(say, plain(say), nil))
	}
	in := api.NewOptionsSelectBlockElement(api.OptTypeStatic, nil, entry, options...)
	if i := slices.IndexFunc(options, func(o *api.OptionBlockObject) bool { return o.Value == f.Filled }); i >= 0 {
		in.InitialOption = options[i]
	}
	return in
}

// sent reads a dialog that came back: where it was opened, and what was filled
// in, as a crew types it.
func (v view) sent() (opened, string) {
	var from opened
	_ = json.Unmarshal([]byte(v.Private), &from) // of another dialog: no channel, no event
	var fields []chat.Filled
	open := ""
	for id, block := range v.State.Values {
		in := block[entry]
		text := in.Value
		if in.Selected.Value != "" {
			text = in.Selected.Value
		}
		if id == rest {
			open = clean(text)
			continue
		}
		if n, unit, ok := numberOf(id); ok {
			fields = append(fields, chat.Filled{N: n, Unit: unit, Text: clean(text)})
		}
	}
	return from, chat.Spoken(fields, open)
}

func numberOf(id string) (n int, unit string, ok bool) {
	id, ok = strings.CutPrefix(id, "n/")
	number, unit, cut := strings.Cut(id, "/")
	n, err := strconv.Atoi(number)
	return n, unit, ok && cut && err == nil
}
