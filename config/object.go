package config

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"github.com/goccy/go-yaml/ast"
)

// object is a block of keys being read. Every read of a key that is wrong adds a
// problem and gives the zero value, so that reading goes on to the next mistake.
type object struct {
	*reader
	path   string // "" for the file itself
	line   int
	fields map[string]field
}

type field struct {
	line  int
	value ast.Node
}

// object reads n as a block of the known keys and no others.
func (r *reader) object(n ast.Node, path string, line int, known ...string) (object, bool) {
	o := object{reader: r, path: path, line: line, fields: map[string]field{}}
	pairs, ok := pairsOf(n)
	if !ok {
		r.add(line, path, describe(n)+", where a block of keys belongs", "Keys here are: "+strings.Join(known, ", "))
		return o, false
	}
	for _, pair := range pairs {
		o.take(pair, known)
	}
	return o, true
}

func pairsOf(n ast.Node) ([]*ast.MappingValueNode, bool) {
	switch m := n.(type) {
	case *ast.MappingNode:
		return m.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{m}, true
	}
	return nil, false
}

func (o *object) take(pair *ast.MappingValueNode, known []string) {
	line, name := lineOf(pair.Key), pair.Key.GetToken().Value
	switch {
	case secretKey.MatchString(name) || looksSecret(name):
		o.add(line, o.at(name), secretText, secretInstead)
	case !contains(known, name):
		o.add(line, o.at(name), "this key is not known", suggest(name, known))
	case o.has(name):
		o.add(line, o.at(name), fmt.Sprintf("the key stands twice, first in line %d", o.fields[name].line), "Keep one of the two")
	default:
		o.fields[name] = field{line, pair.Value}
	}
}

func contains[S ~string](words []S, w S) bool {
	for _, have := range words {
		if have == w {
			return true
		}
	}
	return false
}

// at is the path of a key of the block.
func (o object) at(key string) string {
	if len(key) > 40 {
		key = key[:40] + "..."
	}
	if o.path == "" || key == "" {
		return o.path + key
	}
	return o.path + "." + key
}

func (o object) has(key string) bool { _, ok := o.fields[key]; return ok }

// lineAt is the line of a key, or of the block where the key is missing.
func (o object) lineAt(key string) int {
	if f, ok := o.fields[key]; ok {
		return f.line
	}
	return o.line
}

// wrong adds a problem of a key.
func (o object) wrong(key, text, instead string) { o.add(o.lineAt(key), o.at(key), text, instead) }

// need adds a problem for each key that is missing.
func (o object) need(keys ...string) {
	for _, key := range keys {
		if !o.has(key) {
			o.wrong(key, "this key is missing", "Add "+key+": to this block")
		}
	}
}

// text is a value of one line.
func (o object) text(key string) string {
	f, ok := o.fields[key]
	if !ok {
		return ""
	}
	return o.plain(f.value, key)
}

// plain reads one value as a line of text.
func (o object) plain(n ast.Node, key string) string {
	s, ok := scalar(n)
	switch {
	case !ok:
		o.wrong(key, describe(n)+", where a single value belongs", "Write one value; put quotes around it if it holds signs like # @ : { [")
	case looksSecret(s):
		o.wrong(key, secretText, secretInstead)
	case s == "":
		o.wrong(key, "the value is empty", "Write a value or take the key out")
	case len(s) > maxText:
		o.wrong(key, fmt.Sprintf("the value has more than %d characters", maxText), "Write it shorter")
	case strings.ContainsFunc(s, unicode.IsControl):
		o.wrong(key, "the value holds a line break or an invisible sign", "Write it in one line")
	default:
		return s
	}
	return ""
}

// texts is a list of single values; one value alone counts as a list of one.
func (o object) texts(key string) []string {
	f, ok := o.fields[key]
	if !ok {
		return nil
	}
	list, ok := f.value.(*ast.SequenceNode)
	if !ok {
		if s := o.plain(f.value, key); s != "" {
			return []string{s}
		}
		return nil
	}
	var all []string
	for _, n := range list.Values {
		if s := o.plain(n, key); s != "" {
			all = append(all, s)
		}
	}
	return all
}

// blocks reads a list of blocks of the known keys, each handed to read. Paths
// name a block by its id where it has one, else by its place in the list.
func (o object) blocks(key string, known []string, read func(object)) {
	f, ok := o.fields[key]
	if !ok {
		return
	}
	list, ok := f.value.(*ast.SequenceNode)
	if !ok {
		o.wrong(key, describe(f.value)+", where a list belongs", "Begin each entry with a dash, as in - {"+known[0]+": ...}")
		return
	}
	if len(list.Values) == 0 && o.path == "" {
		o.wrong(key, "the list is empty", "Add at least one entry, or take the key out where it is not needed")
	}
	for i, n := range list.Values {
		if b, ok := o.object(n, o.at(key)+entry(n, i), lineOfBlock(n), known...); ok {
			read(b)
		}
	}
}

// block reads one block of the known keys.
func (o object) block(key string, known ...string) (object, bool) {
	f, ok := o.fields[key]
	if !ok {
		return object{}, false
	}
	return o.object(f.value, o.at(key), f.line, known...)
}

// lineOfBlock is the line of the first key, where the eye looks for the block.
func lineOfBlock(n ast.Node) int {
	if pairs, ok := pairsOf(n); ok && len(pairs) > 0 {
		return lineOf(pairs[0].Key)
	}
	return lineOf(n)
}

func entry(n ast.Node, i int) string {
	pairs, _ := pairsOf(n)
	for _, want := range []string{"id", "kind", "name"} {
		for _, p := range pairs {
			if p.Key.GetToken().Value != want {
				continue
			}
			if s, ok := scalar(p.Value); ok && idShape.MatchString(s) {
				return "." + s
			}
			return fmt.Sprintf("[%d]", i+1)
		}
	}
	return fmt.Sprintf("[%d]", i+1)
}

var idShape = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$`)

// id is an id: it becomes part of keys and of item.check, so it may hold neither
// dots nor blanks.
func (o object) id(key string) string {
	s := o.text(key)
	if s != "" && !idShape.MatchString(s) {
		o.wrong(key, fmt.Sprintf("%q cannot be an id", s), "Use letters, digits, - and _, at most 40, as in e21-pump")
		return ""
	}
	return s
}

// word is one of a closed set of words.
func word[S ~string](o object, key string, known ...S) S {
	s := o.text(key)
	if s == "" {
		return ""
	}
	for _, k := range known {
		if s == string(k) {
			return k
		}
	}
	o.wrong(key, fmt.Sprintf("%q is not known here", s), suggest(s, known))
	return ""
}
