package slackdouble

import (
	"fmt"
	"slices"
)

// blockList checks the blocks of a message or a view.
func (k *check) blockList(path string, blocks []any, most int) {
	if len(blocks) > most {
		k.fail(path, "has %d blocks, %d are allowed", len(blocks), most)
	}
	for i, b := range blocks {
		k.block(fmt.Sprintf("%s[%d]", path, i), b)
	}
	if k.focused > 1 {
		k.fail(path, "focus_on_load is set on %d elements", k.focused)
	}
}

func (k *check) block(path string, v any) {
	o, _ := v.(object)
	kind, _ := o["type"].(string)
	s, known := k.blockShapes()[kind]
	if !known {
		k.fail(path, "%q is no block of a %s", kind, k.surface)
		return
	}
	s.may["block_id"] = unique(func(k *check) *[]string { return &k.blockIDs })
	k.actions = nil // action ids are unique within their block
	s.check(k, path, v)
	switch kind {
	case "section":
		if o["text"] == nil && o["fields"] == nil {
			k.fail(path, "text or fields is needed")
		}
	case "image":
		if (o["image_url"] == nil) == (o["slack_file"] == nil) {
			k.fail(path, "either image_url or slack_file")
		}
	case "input":
		k.inputs++
	}
}

var buttonsAndMenus = words("button static_select multi_static_select users_select conversations_select channels_select " +
	"overflow datepicker timepicker datetimepicker checkboxes radio_buttons")

// inputElements are what an input block can hold.
var inputElements = words("plain_text_input number_input email_text_input url_text_input static_select multi_static_select " +
	"users_select conversations_select channels_select datepicker timepicker datetimepicker checkboxes radio_buttons " +
	"file_input rich_text_input")

// blockShapes are the blocks that a surface shows, from the Block Kit reference.
func (k *check) blockShapes() map[string]shape {
	shapes := map[string]shape{
		"section": {may: map[string]rule{
			"text": text(3000), "fields": list(1, 10, text(2000)), "expand": boolean,
			"accessory": element(append([]string{"image"}, buttonsAndMenus...)),
		}},
		"header":  {need: words("text"), may: map[string]rule{"text": plain(150)}},
		"divider": {may: map[string]rule{}},
		"image": {need: words("alt_text"), may: map[string]rule{
			"image_url": str(3000), "slack_file": slackFile, "alt_text": str(2000), "title": plain(2000),
		}},
		"actions": {need: words("elements"), may: map[string]rule{"elements": list(1, 25, element(buttonsAndMenus))}},
		"context": {need: words("elements"), may: map[string]rule{"elements": list(1, 10, contextElement)}},
		"input": {need: words("label element"), may: map[string]rule{
			"label": plain(2000), "element": element(inputElements), "hint": plain(2000), "optional": boolean,
			"dispatch_action": boolean,
		}},
		"rich_text": {need: words("elements"), may: map[string]rule{"elements": list(1, 1000, anything)}},
	}
	if k.surface == inMessage {
		shapes["markdown"] = shape{need: words("text"), may: map[string]rule{"text": str(12000)}}
		shapes["table"] = shape{need: words("rows"), may: map[string]rule{
			"rows": list(1, 100, list(1, 20, anything)), "column_settings": list(0, 20, anything),
		}}
	}
	return shapes
}

func contextElement(k *check, path string, v any) {
	if o, _ := v.(object); o["type"] == "image" {
		element([]string{"image"})(k, path, v)
		return
	}
	text(2000)(k, path, v) // MEMORY: the length within a context
}

// slackFile is a picture by its file's id or address. A file that is still being
// worked on makes the blocks invalid for the moment; that breaks no rule.
func slackFile(k *check, path string, v any) {
	o, _ := v.(object)
	id, _ := o["id"].(string)
	address, _ := o["url"].(string)
	if (id == "") == (address == "") || len(o) != 1 {
		k.fail(path, "either id or url")
		return
	}
	f, busy := k.w.picture(id, address)
	switch {
	case f == nil:
		k.fail(path, "is no picture that was uploaded and completed")
	case busy:
		k.busy = path + ": the file is being processed"
	default:
		k.pictures = append(k.pictures, f)
	}
}

// element checks an interactive element or an image, if it is of a kind that may
// stand there.
func element(kinds []string) rule {
	return func(k *check, path string, v any) {
		o, _ := v.(object)
		kind, _ := o["type"].(string)
		if !slices.Contains(kinds, kind) {
			k.fail(path, "%q is no element that can stand here", kind)
			return
		}
		s := elementShapes()[kind]
		if kind != "image" {
			s.may["action_id"] = unique(func(k *check) *[]string { return &k.actions })
		}
		s.check(k, path, v)
		k.across(path, kind, o)
	}
}
