package slackdouble

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

func blockOf(view object, id string) object {
	blocks, _ := view["blocks"].([]any)
	for _, b := range blocks {
		if o, _ := b.(object); o["block_id"] == id {
			return o
		}
	}
	return nil
}

// filled makes the state of a view from what a person filled in, or says what
// Slack's client would not let them send.
func filled(view object, values map[string]string) (object, error) {
	for id := range values {
		if blockOf(view, id) == nil {
			return nil, fmt.Errorf("the view has no block %q", id)
		}
	}
	state := object{}
	blocks, _ := view["blocks"].([]any)
	for _, b := range blocks {
		block, _ := b.(object)
		id, _ := block["block_id"].(string)
		e, _ := block["element"].(object)
		if block["type"] != "input" {
			continue
		}
		typed, given := values[id]
		v, empty, err := fill(e, typed, given)
		if err != nil {
			return nil, fmt.Errorf("input %q: %w", id, err)
		}
		if empty && block["optional"] != true {
			return nil, fmt.Errorf("input %q must be filled in", id)
		}
		action, _ := e["action_id"].(string)
		state[id] = object{action: v}
	}
	return state, nil
}

// fill gives one element its value.
func fill(e object, typed string, given bool) (v object, empty bool, err error) {
	kind, _ := e["type"].(string)
	v = object{"type": kind}
	switch kind {
	case "static_select", "radio_buttons":
		v["selected_option"], err = picked(e, typed, given)
		return v, v["selected_option"] == nil, err
	case "checkboxes", "multi_static_select":
		list, err := pickedAll(e, typed, given)
		v["selected_options"] = list
		return v, len(list) == 0, err
	case "datepicker", "timepicker":
		key, initial := "selected_date", e["initial_date"]
		check := dayPattern
		if kind == "timepicker" {
			key, initial, check = "selected_time", e["initial_time"], timePattern
		}
		if !given {
			typed, _ = initial.(string)
		}
		if typed == "" {
			v[key] = nil
			return v, true, nil
		}
		if !check.MatchString(typed) {
			return nil, false, fmt.Errorf("%q cannot be picked", typed)
		}
		v[key] = typed
		return v, false, nil
	}
	if !given {
		typed, _ = e["initial_value"].(string)
	}
	v["value"] = nil
	if typed == "" {
		return v, true, nil
	}
	v["value"] = typed
	return v, false, typable(e, kind, typed)
}

// typable says why a text cannot be sent.
func typable(e object, kind, typed string) error {
	n := float64(utf8.RuneCountInString(typed))
	least, _ := e["min_length"].(float64)
	most, limited := e["max_length"].(float64)
	switch {
	case kind == "number_input":
		if why := outside(e, typed); why != "" {
			return fmt.Errorf("%q %s", typed, why)
		}
	case n < least || limited && n > most || n > 3000:
		return fmt.Errorf("%v characters do not fit", n)
	case strings.Contains(typed, "\n") && e["multiline"] != true:
		return fmt.Errorf("one line only")
	}
	return nil
}

func picked(e object, typed string, given bool) (any, error) {
	if !given {
		return e["initial_option"], nil
	}
	if typed == "" {
		return nil, nil
	}
	all := optionsOf(e)
	i := slices.IndexFunc(all, func(o any) bool { return valueOf(o) == typed })
	if i < 0 {
		return nil, fmt.Errorf("there is no option %q", typed)
	}
	return all[i], nil
}

func pickedAll(e object, typed string, given bool) ([]any, error) {
	if !given {
		initial, _ := e["initial_options"].([]any)
		return initial, nil
	}
	list := []any{}
	for v := range strings.SplitSeq(typed, ",") {
		o, err := picked(e, v, true)
		if err != nil {
			return nil, err
		}
		if o != nil {
			list = append(list, o)
		}
	}
	return list, nil
}
