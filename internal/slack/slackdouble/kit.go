package slackdouble

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// surface is where blocks are shown.
type surface string

const (
	inMessage surface = "message"
	inModal   surface = "modal"
)

// check walks over blocks and collects what is wrong with them. Lengths are
// counted in characters as sent, entities and all. MEMORY: that Slack counts so.
type check struct {
	w        *Workspace
	surface  surface
	wrong    []string
	busy     string  // a file is still being worked on
	pictures []*file // shown by the blocks
	blockIDs []string
	actions  []string
	focused  int
	inputs   int
}

func newCheck(w *Workspace, s surface) *check { return &check{w: w, surface: s} }

func (k *check) fail(path, format string, args ...any) {
	k.wrong = append(k.wrong, path+": "+fmt.Sprintf(format, args...))
}

// rule checks one value found at a path.
type rule func(k *check, path string, v any)

// shape is what an object may hold. Fields that stand in need must be there;
// fields that stand nowhere are wrong.
type shape struct {
	need []string
	may  map[string]rule
}

func (s shape) check(k *check, path string, v any) {
	o, ok := v.(object)
	if !ok {
		k.fail(path, "must be an object")
		return
	}
	for _, name := range s.need {
		if _, there := o[name]; !there {
			k.fail(path, "%s is needed", name)
		}
	}
	for name, value := range o {
		check, known := s.may[name]
		switch {
		case name == "type":
		case !known:
			k.fail(path, "%s is no field of it", name)
		default:
			check(k, path+"."+name, value)
		}
	}
}

// str is a string of 1 to most characters.
func str(most int) rule {
	return func(k *check, path string, v any) {
		s, ok := v.(string)
		switch n := utf8.RuneCountInString(s); {
		case !ok:
			k.fail(path, "must be a string")
		case n == 0:
			k.fail(path, "must not be empty")
		case n > most:
			k.fail(path, "has %d characters, %d are allowed", n, most)
		}
	}
}

func anything(*check, string, any) {}

func boolean(k *check, path string, v any) {
	if _, ok := v.(bool); !ok {
		k.fail(path, "must be true or false")
	}
}

func number(least, most float64) rule {
	return func(k *check, path string, v any) {
		if n, ok := v.(float64); !ok || n < least || n > most || n != float64(int(n)) {
			k.fail(path, "must be a whole number from %v to %v", least, most)
		}
	}
}

func oneOf(list ...string) rule {
	return func(k *check, path string, v any) {
		if s, ok := v.(string); !ok || !slices.Contains(list, s) {
			k.fail(path, "must be one of %s", strings.Join(list, ", "))
		}
	}
}

func list(least, most int, each rule) rule {
	return func(k *check, path string, v any) {
		l, ok := v.([]any)
		switch {
		case !ok:
			k.fail(path, "must be an array")
		case len(l) < least:
			k.fail(path, "has %d entries, %d are needed", len(l), least)
		case len(l) > most:
			k.fail(path, "has %d entries, %d are allowed", len(l), most)
		}
		for i, e := range l {
			each(k, fmt.Sprintf("%s[%d]", path, i), e)
		}
	}
}

// plain is a text object of type plain_text; text takes mrkdwn too.
func plain(most int) rule { return textOf(most, "plain_text") }
func text(most int) rule  { return textOf(most, "plain_text", "mrkdwn") }

func textOf(most int, kinds ...string) rule {
	return func(k *check, path string, v any) {
		o, _ := v.(object)
		kind, _ := o["type"].(string)
		if !slices.Contains(kinds, kind) {
			k.fail(path, "must be a text object of type %s", strings.Join(kinds, " or "))
			return
		}
		extra := map[string]rule{"text": str(most)}
		if kind == "plain_text" {
			extra["emoji"] = boolean
		} else {
			extra["verbatim"] = boolean
			k.markup(path, o["text"])
		}
		shape{need: []string{"text"}, may: extra}.check(k, path, v)
	}
}

// markup blames & < > that stand raw in mrkdwn. Slack shows such a text all the
// same, wrongly.
func (k *check) markup(path string, v any) {
	s, _ := v.(string)
	if at := rawMarkup(s); at != "" {
		k.w.blame(TextRaw, "blocks", "%s has %q", path, at)
	}
}

// unique checks an identifier against those already seen.
func unique(seen func(*check) *[]string) rule {
	return func(k *check, path string, v any) {
		str(255)(k, path, v)
		id, _ := v.(string)
		if ids := seen(k); id != "" && slices.Contains(*ids, id) {
			k.fail(path, "%q is used twice", id)
		} else {
			*ids = append(*ids, id)
		}
	}
}
