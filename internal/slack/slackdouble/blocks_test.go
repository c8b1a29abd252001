package slackdouble

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

func n(s string, times int) string { return strings.Repeat(s, times) }

func plainJSON(s string) string { return `{"type":"plain_text","text":"` + s + `"}` }

func buttonJSON(id, label, value string) string {
	return fmt.Sprintf(`{"type":"button","action_id":%q,"text":%s,"value":%q}`, id, plainJSON(label), value)
}

// many joins count results of f.
func many(count int, f func(i int) string) string {
	var list []string
	for i := range count {
		list = append(list, f(i))
	}
	return strings.Join(list, ",")
}

func section(length int) string {
	return `{"type":"section","text":{"type":"mrkdwn","text":"` + n("x", length) + `"}}`
}

func actions(elements string) string { return `{"type":"actions","elements":[` + elements + `]}` }

func selectJSON(options string) string {
	return actions(`{"type":"static_select","action_id":"a","options":[` + options + `]}`)
}

func optionJSON(label, value string) string {
	return fmt.Sprintf(`{"text":%s,"value":%q}`, plainJSON(label), value)
}

func inputJSON(element string) string {
	return `{"type":"input","label":` + plainJSON("fuel") + `,"element":` + element + `}`
}

// TestLimits: what the Block Kit reference allows is taken up to its figure, and
// not beyond. Source: the reference pages of each block, element and object, as
// gathered in the project's notes on Slack.
func TestLimits(t *testing.T) {
	for name, c := range map[string]struct {
		figure int
		blocks func(n int) string
	}{
		"blocks":       {50, func(k int) string { return many(k, func(int) string { return `{"type":"divider"}` }) }},
		"section_text": {3000, section},
		"section_fields": {10, func(k int) string {
			return `{"type":"section","fields":[` + many(k, func(int) string { return plainJSON("x") }) + `]}`
		}},
		"field_text":  {2000, func(k int) string { return `{"type":"section","fields":[` + plainJSON(n("x", k)) + `]}` }},
		"header_text": {150, func(k int) string { return `{"type":"header","text":` + plainJSON(n("x", k)) + `}` }},
		"actions_elements": {25, func(k int) string {
			return actions(many(k, func(i int) string { return buttonJSON(fmt.Sprint(i), "x", "y") }))
		}},
		"context_elements": {10, func(k int) string {
			return `{"type":"context","elements":[` + many(k, func(int) string { return plainJSON("x") }) + `]}`
		}},
		"button_text":  {75, func(k int) string { return actions(buttonJSON("a", n("x", k), "v")) }},
		"button_value": {2000, func(k int) string { return actions(buttonJSON("a", "x", n("v", k))) }},
		"action_id":    {255, func(k int) string { return actions(buttonJSON(n("a", k), "x", "v")) }},
		"block_id":     {255, func(k int) string { return `{"type":"divider","block_id":"` + n("b", k) + `"}` }},
		"option_text":  {75, func(k int) string { return selectJSON(optionJSON(n("x", k), "v")) }},
		"option_value": {75, func(k int) string { return selectJSON(optionJSON("x", n("v", k))) }},
		"options": {100, func(k int) string {
			return selectJSON(many(k, func(i int) string { return optionJSON("x", fmt.Sprint(i)) }))
		}},
		"image_alt": {2000, func(k int) string {
			return `{"type":"image","image_url":"https://example.invalid/a.png","alt_text":"` + n("x", k) + `"}`
		}},
		"initial_value": {3000, func(k int) string {
			return inputJSON(`{"type":"plain_text_input","initial_value":"` + n("x", k) + `"}`)
		}},
		"placeholder": {150, func(k int) string {
			return inputJSON(`{"type":"plain_text_input","placeholder":` + plainJSON(n("x", k)) + `}`)
		}},
		"confirm_button": {30, func(k int) string {
			return actions(`{"type":"button","text":` + plainJSON("x") + `,"confirm":{"title":` + plainJSON("x") + `,"text":` + plainJSON("x") +
				`,"confirm":` + plainJSON(n("x", k)) + `,"deny":` + plainJSON("x") + `}}`)
		}},
	} {
		t.Run(name, func(t *testing.T) {
			if wrong := wrongBlocks(t, inMessage, c.blocks(c.figure)); len(wrong) > 0 {
				t.Errorf("%d is refused: %v", c.figure, wrong)
			}
			if wrong := wrongBlocks(t, inMessage, c.blocks(c.figure+1)); len(wrong) == 0 {
				t.Errorf("%d is taken", c.figure+1)
			}
		})
	}
}

func wrongBlocks(t *testing.T, s surface, blocks string) []string {
	t.Helper()
	var list []any
	if err := json.Unmarshal([]byte("["+blocks+"]"), &list); err != nil {
		t.Fatalf("%v in %.200s", err, blocks)
	}
	k := newCheck(open(Options{}), s)
	k.blockList("blocks", list, 50)
	return k.wrong
}

// TestBlockShapes: blocks that are wrong in another way than by a figure.
func TestBlockShapes(t *testing.T) {
	for name, blocks := range map[string]string{
		"unknown_block":         `{"type":"paragraph"}`,
		"unknown_field":         `{"type":"divider","color":"red"}`,
		"unknown_element":       actions(`{"type":"knob"}`),
		"no_object":             `"divider"`,
		"text_no_object":        actions(`{"type":"button","text":"x"}`),
		"confirm_no_object":     actions(`{"type":"button","text":` + plainJSON("x") + `,"confirm":true}`),
		"value_no_string":       actions(`{"type":"button","text":` + plainJSON("x") + `,"value":1}`),
		"optional_no_bool":      `{"type":"input","optional":"yes","label":` + plainJSON("x") + `,"element":{"type":"plain_text_input"}}`,
		"length_no_number":      inputJSON(`{"type":"plain_text_input","max_length":"5"}`),
		"length_of_nothing":     inputJSON(`{"type":"plain_text_input","max_length":0}`),
		"elements_no_array":     `{"type":"actions","elements":{}}`,
		"file_by_two_names":     `{"type":"image","alt_text":"x","slack_file":{"id":"F1","url":"https://example.invalid/a.png"}}`,
		"menu_mrkdwn":           selectJSON(`{"text":{"type":"mrkdwn","text":"x"},"value":"1"}`),
		"group_without_label":   actions(`{"type":"static_select","option_groups":[{"options":[` + optionJSON("x", "1") + `]}]}`),
		"empty_text":            section(0),
		"empty_section":         `{"type":"section"}`,
		"empty_actions":         actions(""),
		"header_mrkdwn":         `{"type":"header","text":{"type":"mrkdwn","text":"x"}}`,
		"button_mrkdwn":         actions(`{"type":"button","text":{"type":"mrkdwn","text":"x"}}`),
		"emoji_in_mrkdwn":       `{"type":"section","text":{"type":"mrkdwn","text":"x","emoji":true}}`,
		"verbatim_in_plain":     `{"type":"header","text":{"type":"plain_text","text":"x","verbatim":true}}`,
		"button_style":          actions(`{"type":"button","style":"default","text":` + plainJSON("x") + `}`),
		"block_id_twice":        `{"type":"divider","block_id":"a"},{"type":"divider","block_id":"a"}`,
		"action_id_twice":       actions(buttonJSON("a", "x", "y") + "," + buttonJSON("a", "z", "y")),
		"image_without_alt":     `{"type":"image","image_url":"https://example.invalid/a.png"}`,
		"image_without_source":  `{"type":"image","alt_text":"x"}`,
		"image_with_both":       `{"type":"image","alt_text":"x","image_url":"https://example.invalid/a.png","slack_file":{"id":"F1"}}`,
		"image_of_nothing":      `{"type":"image","alt_text":"x","slack_file":{"id":"F1"}}`,
		"context_button":        `{"type":"context","elements":[` + buttonJSON("a", "x", "y") + `]}`,
		"input_in_actions":      actions(`{"type":"plain_text_input"}`),
		"button_in_input":       inputJSON(buttonJSON("a", "x", "y")),
		"label_missing":         `{"type":"input","element":{"type":"plain_text_input"}}`,
		"initial_no_option":     actions(`{"type":"static_select","options":[` + optionJSON("x", "1") + `],"initial_option":` + optionJSON("x", "2") + `}`),
		"option_twice":          selectJSON(optionJSON("x", "1") + "," + optionJSON("y", "1")),
		"no_options":            actions(`{"type":"static_select","action_id":"a"}`),
		"number_no_kind":        inputJSON(`{"type":"number_input"}`),
		"number_out_of_bounds":  inputJSON(`{"type":"number_input","is_decimal_allowed":false,"max_value":"5","initial_value":"6"}`),
		"number_not_a_string":   inputJSON(`{"type":"number_input","is_decimal_allowed":false,"max_value":5}`),
		"initial_over_length":   inputJSON(`{"type":"plain_text_input","max_length":2,"initial_value":"xyz"}`),
		"date_american":         inputJSON(`{"type":"datepicker","initial_date":"03/08/2026"}`),
		"eleven_radio_buttons":  inputJSON(`{"type":"radio_buttons","options":[` + many(11, func(i int) string { return optionJSON("x", fmt.Sprint(i)) }) + `]}`),
		"two_with_focus":        inputJSON(`{"type":"plain_text_input","focus_on_load":true}`) + "," + inputJSON(`{"type":"plain_text_input","focus_on_load":true}`),
		"checkbox_initial_wide": inputJSON(`{"type":"checkboxes","options":[` + optionJSON("x", "1") + `],"initial_options":[` + optionJSON("y", "1") + `]}`),
	} {
		if wrong := wrongBlocks(t, inMessage, blocks); len(wrong) == 0 {
			t.Errorf("%s is taken", name)
		}
	}
	if wrong := wrongBlocks(t, inModal, `{"type":"markdown","text":"x"}`); len(wrong) == 0 {
		t.Error("a modal takes markdown")
	}
}

// TestViewLimits: the same for what only views have.
func TestViewLimits(t *testing.T) {
	view := func(title, submit, closing, private, callback string, blocks int) string {
		return fmt.Sprintf(`{"type":"modal","title":%s,"submit":%s,"close":%s,"private_metadata":%q,"callback_id":%q,"blocks":[%s]}`,
			plainJSON(title), plainJSON(submit), plainJSON(closing), private, callback,
			many(blocks, func(int) string { return `{"type":"divider"}` }))
	}
	if wrong := wrongView(t, view(n("x", 24), n("x", 24), n("x", 24), n("x", 3000), n("x", 255), 100)); len(wrong) > 0 {
		t.Errorf("the most is refused: %v", wrong)
	}
	for name, v := range map[string]string{
		"title":      view(n("x", 25), "x", "x", "x", "x", 1),
		"submit":     view("x", n("x", 25), "x", "x", "x", 1),
		"close":      view("x", "x", n("x", 25), "x", "x", 1),
		"private":    view("x", "x", "x", n("x", 3001), "x", 1),
		"callback":   view("x", "x", "x", "x", n("x", 256), 1),
		"blocks":     view("x", "x", "x", "x", "x", 101),
		"no_submit":  `{"type":"modal","title":` + plainJSON("x") + `,"blocks":[` + inputJSON(`{"type":"plain_text_input"}`) + `]}`,
		"no_title":   `{"type":"modal","blocks":[]}`,
		"no_kind":    `{"title":` + plainJSON("x") + `,"blocks":[]}`,
		"odd_field":  `{"type":"modal","title":` + plainJSON("x") + `,"blocks":[],"state":{}}`,
		"large":      `{"type":"modal","title":` + plainJSON("x") + `,"blocks":[` + many(90, func(int) string { return section(2900) }) + `]}`,
		"no_mrkdwn":  `{"type":"modal","title":{"type":"mrkdwn","text":"x"},"blocks":[]}`,
		"two_inputs": `{"type":"modal","title":` + plainJSON("x") + `,"submit":` + plainJSON("x") + `,"blocks":[{"type":"divider","block_id":"a"},{"type":"divider","block_id":"a"}]}`,
	} {
		if wrong := wrongView(t, v); len(wrong) == 0 {
			t.Errorf("%s is taken", name)
		}
	}
}

func wrongView(t *testing.T, v string) []string {
	t.Helper()
	var o object
	if err := json.Unmarshal([]byte(v), &o); err != nil {
		t.Fatalf("%v in %.200s", err, v)
	}
	wrong, _ := open(Options{}).viewProblems(o)
	return wrong
}

// FuzzBlocks: no JSON whatever upsets the checker.
func FuzzBlocks(f *testing.F) {
	f.Add(`[` + section(3) + `,` + actions(buttonJSON("a", "x", "y")) + `]`)
	f.Add(`[{"type":"input","label":null,"element":[]},{"type":"image","slack_file":{"id":"F"}},null,1]`)
	f.Add(aView)
	w := open(Options{})
	f.Fuzz(func(t *testing.T, s string) {
		var v any
		if json.Unmarshal([]byte(s), &v) != nil {
			return
		}
		if list, ok := v.([]any); ok {
			newCheck(w, inMessage).blockList("blocks", list, 50)
		}
		if o, ok := v.(object); ok {
			if wrong, _ := w.viewProblems(o); len(wrong) == 0 {
				nameBlocks(w, o)
				filled(o, nil)
			}
		}
	})
}

// TestRawMarkup: which texts are written as the formatting guide asks.
func TestRawMarkup(t *testing.T) {
	for text, good := range map[string]bool{
		"fuel 3/4":                         true,
		"oil &amp; fuel &lt; 3/4 &gt; 1/2": true,
		"oil & fuel":                       false,
		"&nbsp;":                           false,
		"a < b":                            false,
		"a > b":                            false,
		"> quoted\n> again":                true,
		"<@U0123> <#C0123|shop> <!here>":   true,
		"<https://example.invalid/a|page>": true,
		"<page>":                           false,
	} {
		if at := rawMarkup(text); (at == "") != good {
			t.Errorf("%q: %q", text, at)
		}
	}
}
