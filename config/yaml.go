package config

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// Bounds of a file. They keep a slip of the hand from costing minutes: the
// largest departments need half of each.
const (
	maxBytes   = 1 << 20
	maxLines   = 10000
	maxLine    = 1000
	maxNesting = 100
	maxText    = 200
)

const (
	tooBig        = "the file has more than a megabyte"
	tooBigInstead = "Look whether this is the right file; a department of a hundred companies fits in a fifth of that"
)

// reader collects the problems of one file.
type reader struct {
	file     string
	problems Problems
}

func (r *reader) add(line int, key, text, instead string) {
	r.problems = append(r.problems, Problem{r.file, line, key, text, instead})
}

// root is the mapping that the file consists of, or nil after a problem.
func (r *reader) root(data []byte) ast.Node {
	if !r.bounded(data) {
		return nil
	}
	file := r.parse(data)
	if file == nil {
		return nil
	}
	var body ast.Node
	for _, doc := range file.Docs {
		if doc.Body == nil {
			continue
		}
		if body != nil {
			r.add(lineOf(doc.Body), "", "a second document begins here", "Keep one department in one file, without a line of ---")
			return nil
		}
		body = doc.Body
	}
	if body == nil {
		r.add(0, "", "the file is empty", "Begin with the department's name, as in department: Quillwater Fire Department")
	}
	return body
}

// parse reads YAML. The YAML package has been seen to panic on broken text, which
// is a problem of the file like any other.
func (r *reader) parse(data []byte) (file *ast.File) {
	defer func() {
		if recover() != nil {
			file = nil
			r.add(0, "", "this is not YAML", "Compare it with the example department")
		}
	}()
	file, err := parser.ParseBytes(data, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return file
	}
	line, text := 0, "it cannot be read"
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) {
		text = firstLine(syntax.Message)
		if syntax.Token != nil && syntax.Token.Position != nil {
			line = syntax.Token.Position.Line
		}
	}
	r.add(line, "", "this is not YAML: "+text, "Look at the indentation, the brackets and the quotes of this line and the one above")
	return nil
}

// bounded refuses what would take the YAML package out of its depth.
func (r *reader) bounded(data []byte) bool {
	if len(data) > maxBytes {
		r.add(0, "", tooBig, tooBigInstead)
		return false
	}
	if bytes.Count(data, []byte("\n")) > maxLines {
		r.add(0, "", fmt.Sprintf("the file has more than %d lines", maxLines), tooBigInstead)
		return false
	}
	open := 0
	for i, line := range strings.Split(string(data), "\n") {
		if len(line) > maxLine {
			r.add(i+1, "", fmt.Sprintf("the line has more than %d characters", maxLine), "Break it into several lines")
			return false
		}
		if strings.ContainsRune(line, 0) {
			r.add(i+1, "", "this is not a text file", "Give a department file in YAML")
			return false
		}
		open += strings.Count(line, "[") + strings.Count(line, "{") - strings.Count(line, "]") - strings.Count(line, "}")
		open = max(open, 0)
		if open > maxNesting || strings.Count(line, "- ") > maxNesting {
			r.add(i+1, "", "brackets or lists are nested too deep", "Close the brackets that were opened above")
			return false
		}
	}
	return true
}

func firstLine(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return s
}

func lineOf(n ast.Node) int {
	if n == nil || n.GetToken() == nil || n.GetToken().Position == nil {
		return 0
	}
	return n.GetToken().Position.Line
}

// scalar is the text of a plain value as it was written, so that 07 stays 07;
// false for lists, mappings and no value at all.
func scalar(n ast.Node) (string, bool) {
	switch v := n.(type) {
	case *ast.StringNode:
		return strings.TrimSpace(v.Value), true
	case *ast.LiteralNode:
		if v.Value == nil {
			return "", true
		}
		return strings.TrimSpace(v.Value.Value), true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return strings.TrimSpace(n.GetToken().Value), true
	}
	return "", false
}

// describe names what stands where something else was wanted.
func describe(n ast.Node) string {
	switch n.(type) {
	case nil, *ast.NullNode:
		return "nothing is written here"
	case *ast.SequenceNode:
		return "a list is written here"
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a block of keys is written here"
	case *ast.AnchorNode, *ast.AliasNode, *ast.TagNode, *ast.MergeKeyNode:
		return "an anchor (&), alias (*) or tag (!) is written here"
	}
	return "a single value is written here"
}
