package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/sqlite"
)

type recordsCmd struct {
	DB      string `name:"db" required:"" help:"Database file." placeholder:"FILE"`
	Format  string `enum:"jsonl,csv" default:"jsonl" help:"jsonl or csv."`
	Kind    string `help:"Only records of a kind: reading, run, defect, prompt, reminder, service, words."`
	Item    string `help:"Only records about an item."`
	Company string `help:"Only records about a company."`
	Since   string `help:"Only what was said on or after a day: 2026-11-25."`
}

// Run prints the records, oldest first.
func (c *recordsCmd) Run() error {
	filter := sqlite.Filter{Kind: bot.RecordKind(c.Kind), Item: dept.ItemID(c.Item), Company: dept.CompanyID(c.Company)}
	if c.Since != "" {
		since, err := time.Parse(time.DateOnly, c.Since)
		if err != nil {
			return fmt.Errorf("%q is not a day; write it like 2026-11-25", c.Since)
		}
		filter.Since = since
	}
	store, err := sqlite.Open(c.DB, sqlite.Options{ReadOnly: true})
	if err != nil {
		return err
	}
	defer store.Close()
	out := bufio.NewWriter(os.Stdout)
	write, flush := jsonLines(out)
	if c.Format == "csv" {
		write, flush = csvLines(out)
	}
	err = store.Records(context.Background(), filter, write)
	return errors.Join(err, flush(), out.Flush())
}

// recordLine is a record with what became of it.
type recordLine struct {
	bot.Record
	SupersededBy string `json:"superseded_by,omitempty"`
}

func jsonLines(out io.Writer) (func(bot.Record, string) error, func() error) {
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	write := func(r bot.Record, by string) error { return enc.Encode(recordLine{r, by}) }
	return write, func() error { return nil }
}

func csvLines(out io.Writer) (func(bot.Record, string) error, func() error) {
	w := csv.NewWriter(out)
	_ = w.Write([]string{ // kept for Error
		"id", "kind", "at", "arrived", "company", "date", "platoon", "item", "check", "defect", "state", "value",
		"words", "who", "message", "supersedes", "superseded_by", "note",
	})
	write := func(r bot.Record, by string) error {
		return w.Write([]string{
			r.ID, string(r.Kind), stamp(r.At), stamp(r.Arrived), string(r.Company), r.Date.String(), string(r.Platoon),
			string(r.Item), string(r.Check), string(r.Defect), r.State, figure(r.Value),
			r.Words, r.Who, r.Message, r.Supersedes, by, r.Note,
		})
	}
	return write, func() error { w.Flush(); return w.Error() }
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

func figure(v check.Value) string {
	if v.Number != nil {
		return strconv.FormatFloat(*v.Number, 'g', -1, 64)
	}
	return v.Word
}
