package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"crosslay/bot"
	"crosslay/internal/export"
	"crosslay/internal/ledger"
)

// writeTo hands f the file at path, or standard output without one. What is not
// text is not written on a terminal. A file that could not be finished is taken
// away: half an export looks like a whole one.
func writeTo(path string, binary bool, f func(io.Writer) error) error {
	if path == "" {
		if binary && term.IsTerminal(int(os.Stdout.Fd())) {
			return errors.New("this format is no text; name a file with --out")
		}
		out := bufio.NewWriter(os.Stdout)
		return errors.Join(f(out), out.Flush())
	}
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(file)
	err = errors.Join(f(out), out.Flush(), file.Close())
	if err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// workbook writes a sheet for each kind of record.
func (c *recordsCmd) workbook(out io.Writer) (func(bot.Record, string) error, func() error, error) {
	var names export.Names
	if c.Config != "" {
		setup, err := load(c.Config)
		if err != nil {
			return nil, nil, err
		}
		names = export.Names{Dept: setup.Dept, Book: setup.Book}
	}
	book, err := export.NewWorkbook(names)
	if err != nil {
		return nil, nil, fmt.Errorf("make the workbook: %w", err)
	}
	write := func(r bot.Record, by string) error { return book.Add(ledger.Line{Record: r, SupersededBy: by}) }
	return write, func() error { return book.Write(out) }, nil
}
