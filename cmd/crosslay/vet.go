package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"crosslay/config"
)

// vetCmd checks a department file before it is put to work.
type vetCmd struct {
	File   string `arg:"" help:"Department file to check."`
	Online bool   `help:"Also ask the chat services whether every room can be reached, read and written."`
	DB     string `name:"db" default:"crosslay.db" help:"Database file whose secrets are used, with --online." placeholder:"FILE"`
	secretsFlag
}

// Run prints every mistake of the file, or one line of what it found. Its error
// gives the exit status.
func (c *vetCmd) Run() error {
	if err := c.vet(os.Stdout); err != nil || !c.Online {
		return err
	}
	return c.inspect(os.Stdout)
}

func (c *vetCmd) vet(out io.Writer) error {
	d, err := config.Load(c.File)
	var problems config.Problems
	if errors.As(err, &problems) {
		fmt.Fprintln(out, problems)
		return fmt.Errorf("%s: %s", c.File, counted(len(problems), "mistake", "mistakes"))
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s: %s: no mistakes: %s, %s, %s of %s, %s\n", c.File, d.Dept.Name,
		counted(len(d.Dept.Stations), "station", "stations"), counted(len(d.Dept.Companies), "company", "companies"),
		counted(len(d.Dept.Items), "item", "items"), counted(kindsOf(d), "kind", "kinds"),
		counted(len(d.Dept.People), "person", "people"))
	return err
}

func kindsOf(d *config.Department) int {
	kinds := map[string]bool{}
	for _, it := range d.Dept.Items {
		kinds[string(it.Kind)] = true
	}
	return len(kinds)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
