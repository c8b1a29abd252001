// Package config reads department files. It knows the format, finds every mistake
// of a file at once, and says of each in which line it stands and what to write
// instead. What it returns has no mistakes left: the other packages rely on
// that and do not look again.
//
// A file is read in two passes. The first (sections.go, sheets.go) reads each
// block by itself; the second (across.go) checks what blocks say of each other.
package config

import (
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	_ "time/tzdata" // a file is read the same on machines without a zone table

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/rota"
)

// Department is everything that a department file says.
type Department struct {
	Dept    *dept.Department
	Book    check.Book
	Rota    rota.Rota
	Ladders nag.Book
}

// ExampleYAML is the file of an invented department, to start one's own from.
//
//go:embed example.yaml
var ExampleYAML []byte

// Example is the department of ExampleYAML.
func Example() *Department {
	d, err := Parse("example.yaml", ExampleYAML)
	if err != nil {
		panic(fmt.Sprintf("the example department has mistakes:\n%v", err)) // a test keeps this from happening
	}
	return d
}

// Load reads the department file at path. The error is of type Problems.
func Load(path string) (*Department, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, unread(path, "there is no such file", "Give the path of a department file")
	case err != nil:
		return nil, unread(path, "the file cannot be opened", "See that this account may read it")
	case info.IsDir():
		return nil, unread(path, "this is a directory", "Give the path of the file in it")
	case info.Size() > maxBytes:
		return nil, unread(path, tooBig, tooBigInstead)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, unread(path, "the file cannot be read", "See that this account may read it")
	}
	return Parse(path, data)
}

func unread(path, text, instead string) Problems {
	return Problems{{File: path, Text: text, Instead: instead}}
}

// Parse reads a department file; name is what problems call it. The error is of
// type Problems and lists every mistake.
func Parse(name string, data []byte) (*Department, error) {
	r := &reader{file: name}
	var d *draft
	if root := r.root(data); root != nil {
		d = r.department(root)
	}
	r.secretLines(string(data))
	if len(r.problems) > 0 {
		return nil, r.problems.ordered()
	}
	return d.finish(), nil
}
