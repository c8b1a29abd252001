package slackdouble

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf8"
)

var (
	dayPattern  = regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$`)
	timePattern = regexp.MustCompile(`^([01]\d|2[0-3]):[0-5]\d$`)
)

func pattern(p *regexp.Regexp, what string) rule {
	return func(k *check, path string, v any) {
		if s, ok := v.(string); !ok || !p.MatchString(s) {
			k.fail(path, "must be %s", what)
		}
	}
}

func focus(k *check, path string, v any) {
	boolean(k, path, v)
	if v == true {
		k.focused++
	}
}

// with adds fields to the ones that most elements have.
func with(fields map[string]rule) map[string]rule {
	fields["focus_on_load"] = focus
	return fields
}

// elementShapes are the elements, from the Block Kit reference.
func elementShapes() map[string]shape {
	hint, dispatch := plain(150), shape{may: map[string]rule{"trigger_actions_on": list(1, 2, oneOf("on_enter_pressed", "on_character_entered"))}}.check
	menu := func(fields map[string]rule) shape {
		fields["placeholder"], fields["confirm"] = hint, confirm
		return shape{may: with(fields)}
	}
	static := func() map[string]rule {
		return map[string]rule{"options": list(1, 100, plainOption), "option_groups": list(1, 100, optionGroup)}
	}
	choose := func(initial string, check rule, fields map[string]rule) map[string]rule {
		fields[initial] = check
		return fields
	}
	return map[string]shape{
		"image": {need: words("alt_text"), may: map[string]rule{
			"image_url": str(3000), "slack_file": slackFile, "alt_text": str(2000),
		}},
		"button": {need: words("text"), may: map[string]rule{
			"text": plain(75), "url": str(3000), "value": str(2000), "style": oneOf("primary", "danger"), "confirm": confirm,
			"accessibility_label": str(75),
		}},
		"static_select": menu(choose("initial_option", option, static())),
		"multi_static_select": menu(choose("initial_options", list(1, 100, option),
			choose("max_selected_items", number(1, 100), static()))),
		"users_select":         menu(map[string]rule{"initial_user": str(255)}),
		"channels_select":      menu(map[string]rule{"initial_channel": str(255), "response_url_enabled": boolean}),
		"conversations_select": menu(map[string]rule{"initial_conversation": str(255), "default_to_current_conversation": boolean, "response_url_enabled": boolean, "filter": anything}),
		"overflow":             {need: words("options"), may: map[string]rule{"options": list(1, 5, plainOption), "confirm": confirm}},
		"checkboxes":           choices("initial_options", list(1, 10, option)),
		"radio_buttons":        choices("initial_option", option),
		"datepicker":           menu(map[string]rule{"initial_date": pattern(dayPattern, "YYYY-MM-DD")}),
		"timepicker":           menu(map[string]rule{"initial_time": pattern(timePattern, "HH:mm"), "timezone": str(255)}),
		"datetimepicker":       {may: with(map[string]rule{"initial_date_time": number(1e9, 9999999999), "confirm": confirm})},
		"plain_text_input": {may: with(map[string]rule{
			"initial_value": str(3000), "multiline": boolean, "min_length": number(0, 3000), "max_length": number(1, 3000),
			"placeholder": hint, "dispatch_action_config": dispatch,
		})},
		"number_input": {need: words("is_decimal_allowed"), may: with(map[string]rule{
			"is_decimal_allowed": boolean, "initial_value": decimal, "min_value": decimal, "max_value": decimal, "placeholder": hint,
			"dispatch_action_config": dispatch,
		})},
		"email_text_input": {may: with(map[string]rule{"initial_value": str(3000), "placeholder": hint, "dispatch_action_config": dispatch})},
		"url_text_input":   {may: with(map[string]rule{"initial_value": str(3000), "placeholder": hint, "dispatch_action_config": dispatch})},
		"file_input":       {may: map[string]rule{"filetypes": list(1, 100, str(20)), "max_files": number(1, 10)}},
		"rich_text_input":  {need: words("action_id"), may: with(map[string]rule{"initial_value": anything, "placeholder": hint, "dispatch_action_config": dispatch})},
	}
}

func choices(initial string, check rule) shape {
	return shape{need: words("options"), may: with(map[string]rule{"options": list(1, 10, option), initial: check, "confirm": confirm})}
}

func decimal(k *check, path string, v any) {
	if s, ok := v.(string); !ok || !isDecimal(s) {
		k.fail(path, "must be a number written as a string")
	}
}

func isDecimal(s string) bool {
	_, err := strconv.ParseFloat(s, 64)
	return err == nil
}

func option(k *check, path string, v any) {
	shape{need: words("text value"), may: map[string]rule{
		"text": text(75), "value": str(75), "description": text(75), "url": str(3000),
	}}.check(k, path, v)
}

// plainOption is an option of a menu; radio buttons and checkboxes take mrkdwn too.
func plainOption(k *check, path string, v any) {
	option(k, path, v)
	if o, _ := v.(object); o != nil {
		plain(75)(k, path+".text", o["text"])
	}
}

func optionGroup(k *check, path string, v any) {
	shape{need: words("label options"), may: map[string]rule{"label": plain(75), "options": list(1, 100, plainOption)}}.check(k, path, v)
}

func confirm(k *check, path string, v any) {
	shape{need: words("title text confirm deny"), may: map[string]rule{
		"title": plain(100), "text": text(300), "confirm": plain(30), "deny": plain(30), "style": oneOf("primary", "danger"),
	}}.check(k, path, v)
}

// across checks what fields of one element say of each other.
func (k *check) across(path, kind string, o object) {
	if (kind == "static_select" || kind == "multi_static_select") && (o["options"] == nil) == (o["option_groups"] == nil) {
		k.fail(path, "either options or option_groups")
	}
	all := optionsOf(o)
	initial, _ := o["initial_options"].([]any)
	if one := o["initial_option"]; one != nil {
		initial = append(initial, one)
	}
	for _, i := range initial {
		if !slices.ContainsFunc(all, func(a any) bool { return reflect.DeepEqual(a, i) }) {
			k.fail(path, "what is chosen at first is none of the options")
		}
	}
	for i, a := range all {
		if slices.ContainsFunc(all[:i], func(b any) bool { return valueOf(a) == valueOf(b) }) {
			k.fail(path, "two options have the value %q", valueOf(a))
		}
	}
	k.bounds(path, kind, o)
}

func (k *check) bounds(path, kind string, o object) {
	first, _ := o["initial_value"].(string)
	switch kind {
	case "plain_text_input":
		least, _ := o["min_length"].(float64)
		most, limited := o["max_length"].(float64)
		n := float64(utf8.RuneCountInString(first))
		if limited && (most < least || n > most) || first != "" && n < least {
			k.fail(path, "initial_value, min_length and max_length do not fit")
		}
	case "number_input":
		if why := outside(o, first); first != "" && why != "" {
			k.fail(path, "initial_value: %s", why)
		}
	}
}

// outside says why a number is not one that a number_input takes; "" if it is.
func outside(o object, s string) string {
	n, err := strconv.ParseFloat(s, 64)
	least, _ := o["min_value"].(string)
	most, _ := o["max_value"].(string)
	low, lowErr := strconv.ParseFloat(least, 64)
	high, highErr := strconv.ParseFloat(most, 64)
	switch {
	case err != nil:
		return "is no number"
	case lowErr == nil && n < low:
		return "is under min_value"
	case highErr == nil && n > high:
		return "is over max_value"
	case o["is_decimal_allowed"] != true && n != float64(int64(n)):
		return "is no whole number"
	}
	return ""
}

func optionsOf(o object) []any {
	all, _ := o["options"].([]any)
	all = slices.Clone(all)
	groups, _ := o["option_groups"].([]any)
	for _, g := range groups {
		group, _ := g.(object)
		list, _ := group["options"].([]any)
		all = append(all, list...)
	}
	return all
}

func valueOf(option any) string {
	o, _ := option.(object)
	s, _ := o["value"].(string)
	return s
}
