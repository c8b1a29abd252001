package slack

import (
	"regexp"
	"strings"
)

// characters are the emoji that crews use in a check, by Slack's names.
var characters = map[string]string{
	"+1": "👍", "thumbsup": "👍", "-1": "👎", "thumbsdown": "👎",
	"white_check_mark": "✅", "heavy_check_mark": "✔️", "ballot_box_with_check": "☑️", "ok_hand": "👌", "ok": "🆗",
	"x": "❌", "negative_squared_cross_mark": "❎", "no_entry": "⛔", "no_entry_sign": "🚫", "warning": "⚠️",
	"question": "❓", "grey_question": "❔", "exclamation": "❗", "heavy_exclamation_mark": "❗", "bangbang": "‼️",
	"fire": "🔥", "fire_engine": "🚒", "fuelpump": "⛽", "oil_drum": "🛢️", "wrench": "🔧", "hammer_and_wrench": "🛠️",
	"gear": "⚙️", "eyes": "👀", "pray": "🙏", "raised_hands": "🙌", "clap": "👏", "muscle": "💪", "wave": "👋", "salute": "🫡",
	"saluting_face": "🫡", "100": "💯", "red_circle": "🔴", "large_green_circle": "🟢", "large_yellow_circle": "🟡",
	"droplet": "💧", "rotating_light": "🚨", "ambulance": "🚑", "point_up": "☝️", "shrug": "🤷", "facepalm": "🤦",
}

// tones are the skin tones, as Slack writes them behind a name.
var tones = map[string]string{
	"skin-tone-2": "🏻", "skin-tone-3": "🏼", "skin-tone-4": "🏽", "skin-tone-5": "🏾", "skin-tone-6": "🏿",
}

// character is the emoji of a reaction, as "+1" or "+1::skin-tone-3". One that is
// not in the table stays as its name between colons.
func character(name string) string {
	base, tone, _ := strings.Cut(name, "::")
	c, ok := characters[base]
	if !ok {
		return ":" + base + ":"
	}
	if t := tones[tone]; t != "" {
		return strings.TrimSuffix(c, "\ufe0f") + t
	}
	return c
}

// code is an emoji in a text, with its tone behind it.
var code = regexp.MustCompile(`:([a-z0-9_+-]+)(?:::(skin-tone-[2-6]))?:`)

// withCharacters puts the characters where a text has the names.
func withCharacters(text string) string {
	return code.ReplaceAllStringFunc(text, func(s string) string {
		m := code.FindStringSubmatch(s)
		if _, ok := characters[m[1]]; !ok {
			return s
		}
		if m[2] != "" {
			return character(m[1] + "::" + m[2])
		}
		return character(m[1])
	})
}
