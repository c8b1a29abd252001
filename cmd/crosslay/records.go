package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/export"
	"crosslay/internal/sqlite"
)

type recordsCmd struct {
	DB      string `name:"db" required:"" help:"Database file." placeholder:"FILE"`
	Format  string `enum:"jsonl,csv,xlsx" default:"jsonl" help:"jsonl, csv, or xlsx: a workbook with a sheet for each kind."`
	Out     string `short:"o" help:"File to write; standard output without it." placeholder:"FILE"`
	Config  string `help:"Department file: a workbook then has names, units, limits and local times." placeholder:"FILE"`
	Kind    string `enum:"all,reading,run,defect,prompt,reminder,service,words" default:"all" help:"Only records of a kind: reading, run, defect, prompt, reminder, service, words."`
	Item    string `help:"Only records about an item, by its id."`
	Company string `help:"Only records about a company, by its id."`
	Since   string `help:"Only what was said on or after a day: 2026-11-25."`
}

// Run writes the records, oldest first.
func (c *recordsCmd) Run() error {
	filter := sqlite.Filter{Item: dept.ItemID(c.Item), Company: dept.CompanyID(c.Company)}
	if c.Kind != "all" {
		filter.Kind = bot.RecordKind(c.Kind)
	}
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
	return writeTo(c.Out, c.Format == "xlsx", func(out io.Writer) error {
		write, flush, err := c.writer(out)
		if err != nil {
			return err
		}
		n := 0
		err = store.Records(context.Background(), filter, func(r bot.Record, by string) error {
			n++
			return write(r, by)
		})
		if err == nil && n == 0 && (c.Item != "" || c.Company != "") {
			err = fmt.Errorf("there is no such record about %s; ids are those of the department file", strings.TrimSpace(c.Company+" "+c.Item))
		}
		return errors.Join(err, flush())
	})
}

// writer is what writes a record in the format, and what ends it.
func (c *recordsCmd) writer(out io.Writer) (func(bot.Record, string) error, func() error, error) {
	switch c.Format {
	case "csv":
		write, flush := csvLines(out)
		return write, flush, nil
	case "xlsx":
		return c.workbook(out)
	}
	write, flush := jsonLines(out)
	return write, flush, nil
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
			export.Harmless(r.Words), export.Harmless(r.Who), r.Message, r.Supersedes, by, export.Harmless(r.Note),
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
