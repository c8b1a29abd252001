package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/export"
	"crosslay/internal/sqlite"
)

type inspectionCmd struct {
	Subject string `arg:"" help:"Item or company: PU-01, Engine 1, or its id."`
	Config  string `help:"Department file; the example department without it." placeholder:"FILE"`
	DB      string `name:"db" required:"" help:"Database file." placeholder:"FILE"`
	From    string `help:"First day: 2026-01-01; a year before the last without it."`
	To      string `help:"Last day: 2026-12-31; today without it."`
	Out     string `short:"o" help:"File to write, .html or .pdf; without it HTML on standard output." placeholder:"FILE"`
}

// Run writes the inspection record.
func (c *inspectionCmd) Run() error {
	setup, err := load(c.Config)
	if err != nil {
		return err
	}
	subject, err := subjectOf(setup, c.Subject)
	if err != nil {
		return err
	}
	now := time.Now()
	from, to, err := c.period(now.In(setup.Dept.Zone))
	if err != nil {
		return err
	}
	store, err := sqlite.Open(c.DB, sqlite.Options{ReadOnly: true})
	if err != nil {
		return err
	}
	defer store.Close()
	record, err := inspect(context.Background(), setup, store, subject, from, to, now)
	if err != nil {
		return err
	}
	write := record.HTML
	if strings.EqualFold(filepath.Ext(c.Out), ".pdf") {
		write = record.PDF
	}
	return writeTo(c.Out, false, write)
}

func (c *inspectionCmd) period(now time.Time) (from, to dept.Date, err error) {
	if to, err = dayOr(c.To, now); err != nil {
		return from, to, err
	}
	from = dept.Date{Year: to.Year - 1, Month: to.Month, Day: to.Day + 1}.AddDays(0)
	if c.From != "" {
		if from, err = dept.ParseDate(c.From); err != nil {
			return from, to, err
		}
	}
	if to.Before(from) {
		return from, to, fmt.Errorf("the last day, %s, lies before the first, %s", to, from)
	}
	return from, to, nil
}

// subjectOf finds the item or the company that a record is to be about.
func subjectOf(setup bot.Setup, name string) (export.Subject, error) {
	for _, c := range setup.Dept.Companies {
		if !strings.EqualFold(c.Name, name) && !strings.EqualFold(string(c.ID), name) {
			continue
		}
		s := export.Subject{Name: c.Name, Company: c.ID}
		for _, it := range setup.Dept.Carried(c.ID) {
			s.Items = append(s.Items, it.ID)
		}
		return s, nil
	}
	it, err := itemNamed(setup.Dept, name)
	if err != nil {
		return export.Subject{}, fmt.Errorf("%q is neither an item nor a company of the department file", name)
	}
	s := export.Subject{Name: it.Number, Items: []dept.ItemID{it.ID}}
	if sheet := setup.Book[it.Sheet]; sheet != nil {
		s.Name += " " + sheet.Name
	}
	return s, nil
}

// inspect reads what the record needs: all about the items, the prompts and the
// words of the companies in the period. A company's record includes the spares
// that stood on it.
func inspect(ctx context.Context, setup bot.Setup, store *sqlite.Store, s export.Subject, from, to dept.Date, now time.Time) (export.Inspection, error) {
	placed, err := bookOf(ctx, setup, store, sqlite.Filter{Kind: bot.OnService})
	if err != nil {
		return export.Inspection{}, err
	}
	period := between(setup, from, to.AddDays(1))
	for _, spare := range placed.Spares {
		stood := spare.From.Before(period.Until) && (spare.To.IsZero() || spare.To.After(period.Since))
		if spare.Company == s.Company && stood && !slices.Contains(s.Items, spare.Spare) {
			s.Items = append(s.Items, spare.Spare)
		}
	}
	prompts, words := period, period
	prompts.Kind, words.Kind = bot.OnPrompt, bot.OnWords
	filters := []sqlite.Filter{{Kind: bot.OnService}, prompts}
	if words.Company = s.Company; s.Company != "" {
		filters = append(filters, words)
	}
	for _, id := range s.Items {
		filters = append(filters, sqlite.Filter{Item: id})
	}
	book, err := bookOf(ctx, setup, store, filters...)
	if err != nil {
		return export.Inspection{}, err
	}
	return export.InspectionOf(book, s, from, to, now), nil
}
