package main

import (
	"context"
	"fmt"
	"os"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/bot/rota"
	"crosslay/internal/ledger"
	"crosslay/internal/outbox"
	"crosslay/internal/picture"
	"crosslay/internal/sqlite"
)

type pictureCmd struct {
	Board boardCmd `cmd:"" help:"Draw the board of a shift: companies by items."`
	Item  itemCmd  `cmd:"" help:"Draw an item's year: runs, fuel, defects."`
	Month monthCmd `cmd:"" help:"Draw the department's month."`
}

// drawn is what every picture is made from and where it goes.
type drawn struct {
	Config string `help:"Department file; the example department without it." placeholder:"FILE"`
	DB     string `name:"db" required:"" help:"Database file." placeholder:"FILE"`
	Out    string `short:"o" help:"File to write; the picture's own name without it." placeholder:"FILE"`
}

type boardCmd struct {
	drawn
	Date    string `help:"Day on which the shift began: 2026-11-25; the shift on duty without it."`
	Platoon string `help:"Platoon, where more than one shift begins on the day."`
}

// Run draws a board.
func (c *boardCmd) Run() error {
	return c.draw(func(setup bot.Setup) (picture.Source, error) {
		shift, err := shiftOf(setup.Rota, c.Date, c.Platoon)
		return picture.Source{Kind: picture.OfBoard, Date: shift.Date, Platoon: shift.Platoon}, err
	})
}

// shiftOf finds the shift of a day and a platoon, or the one on duty.
func shiftOf(r rota.Rota, day, platoon string) (rota.Shift, error) {
	if day == "" {
		return r.At(time.Now()), nil
	}
	date, err := dept.ParseDate(day)
	if err != nil {
		return rota.Shift{}, err
	}
	shifts := r.On(date)
	if platoon == "" {
		return shifts[0], nil
	}
	var have []string
	for _, s := range shifts {
		if strings.EqualFold(string(s.Platoon), platoon) {
			return s, nil
		}
		have = append(have, string(s.Platoon))
	}
	return rota.Shift{}, fmt.Errorf("platoon %s begins no shift on %s; %s does", platoon, day, strings.Join(have, ", "))
}

type itemCmd struct {
	drawn
	Item string `arg:"" help:"Number or id of the item: PU-01."`
	To   string `help:"A day of the last of the twelve months; today without it."`
}

// Run draws an item's year.
func (c *itemCmd) Run() error {
	return c.draw(func(setup bot.Setup) (picture.Source, error) {
		it, err := itemNamed(setup.Dept, c.Item)
		if err != nil {
			return picture.Source{}, err
		}
		to, err := dayOr(c.To, time.Now().In(setup.Dept.Zone))
		return picture.Source{Kind: picture.OfItem, Item: it.ID, Date: to}, err
	})
}

// itemNamed finds an item by its number or its id.
func itemNamed(d *dept.Department, name string) (dept.Item, error) {
	for _, it := range d.Items {
		if strings.EqualFold(it.Number, name) || strings.EqualFold(string(it.ID), name) {
			return it, nil
		}
	}
	return dept.Item{}, fmt.Errorf("no item %q in the department file; give its number or its id", name)
}

func dayOr(text string, now time.Time) (dept.Date, error) {
	if text == "" {
		return dept.DateOf(now), nil
	}
	return dept.ParseDate(text)
}

type monthCmd struct {
	drawn
	Month string `arg:"" optional:"" help:"Month: 2026-11; this one without it."`
}

// Run draws a month.
func (c *monthCmd) Run() error {
	return c.draw(func(setup bot.Setup) (picture.Source, error) {
		if c.Month == "" {
			return picture.Source{Kind: picture.OfMonth, Date: dept.DateOf(time.Now().In(setup.Dept.Zone))}, nil
		}
		m, err := picture.ParseMonth(c.Month)
		return picture.Source{Kind: picture.OfMonth, Date: m}, err
	})
}

// draw makes a picture, writes it to a file, and prints the file's name and what
// the picture shows.
func (c *drawn) draw(which func(bot.Setup) (picture.Source, error)) error {
	setup, err := load(c.Config)
	if err != nil {
		return err
	}
	source, err := which(setup)
	if err != nil {
		return err
	}
	store, err := sqlite.Open(c.DB, sqlite.Options{ReadOnly: true})
	if err != nil {
		return err
	}
	defer store.Close()
	pic, err := paint(context.Background(), setup, store, source, time.Now())
	if err != nil {
		return err
	}
	path := c.Out
	if path == "" {
		path = pic.Name
	}
	if err := os.WriteFile(path, pic.Data, 0o644); err != nil {
		return err
	}
	_, err = fmt.Printf("%s\n%s\n", path, pic.Alt)
	return err
}

// painter draws what messages name, from the records as they are then and the
// department file as it is in force.
func painter(setup func() bot.Setup, store *sqlite.Store) outbox.Painter {
	return func(ctx context.Context, name string) (chat.Picture, error) {
		return drawingFor(setup())(ctx, store, time.Now(), name)
	}
}

// drawingFor draws for a department what messages name, as of any instant.
func drawingFor(setup bot.Setup) func(context.Context, *sqlite.Store, time.Time, string) (chat.Picture, error) {
	return func(ctx context.Context, store *sqlite.Store, now time.Time, name string) (chat.Picture, error) {
		source, err := picture.ParseSource(name)
		if err != nil {
			return chat.Picture{}, err
		}
		return paint(ctx, setup, store, source, now)
	}
}

// drawing is what every kind of picture can do.
type drawing interface {
	PNG() ([]byte, error)
	Alt() string
}

func paint(ctx context.Context, setup bot.Setup, store *sqlite.Store, source picture.Source, now time.Time) (chat.Picture, error) {
	d, err := drawingOf(ctx, setup, store, source, now)
	if err != nil {
		return chat.Picture{}, fmt.Errorf("draw %s: %w", source, err)
	}
	data, err := d.PNG()
	return chat.Picture{Name: source.File(), Type: "image/png", Data: data, Alt: d.Alt()}, err
}

func drawingOf(ctx context.Context, setup bot.Setup, store *sqlite.Store, source picture.Source, now time.Time) (drawing, error) {
	switch source.Kind {
	case picture.OfBoard:
		shift, err := shiftOf(setup.Rota, source.Date.String(), string(source.Platoon))
		if err != nil {
			return nil, err
		}
		book, err := bookOf(ctx, setup, store, append(standing, sqlite.Filter{Since: shift.Start, Until: shift.End.Add(late)})...)
		return picture.BoardOf(book, shift, now), err
	case picture.OfItem:
		return itemYear(ctx, setup, store, source, now)
	case picture.OfMonth:
		from := dept.Date{Year: source.Date.Year, Month: source.Date.Month, Day: 1}
		to := dept.Date{Year: from.Year, Month: from.Month + 1, Day: 1}.AddDays(0)
		book, err := bookOf(ctx, setup, store, append(standing, between(setup, from, to))...)
		return picture.MonthOf(book, from, now), err
	}
	return nil, fmt.Errorf("there are no pictures of %q", source.Kind)
}

func itemYear(ctx context.Context, setup bot.Setup, store *sqlite.Store, source picture.Source, now time.Time) (drawing, error) {
	it, ok := setup.Dept.Item(source.Item)
	if !ok {
		return nil, fmt.Errorf("no item %q in the department file", source.Item)
	}
	from := dept.Date{Year: source.Date.Year - 1, Month: source.Date.Month + 1, Day: 1}.AddDays(0) // a thirteenth month is January
	to := dept.Date{Year: source.Date.Year, Month: source.Date.Month + 1, Day: 1}.AddDays(0)
	asked := between(setup, from, to)
	asked.Kind, asked.Company = bot.OnPrompt, it.Company
	book, err := bookOf(ctx, setup, store, sqlite.Filter{Item: it.ID}, asked)
	if end := dept.Clock(0).On(source.Date.AddDays(1), setup.Dept.Zone); now.After(end) {
		now = end // what came after the last day is not of this picture
	}
	return picture.YearOf(book, it.ID, from, now), err
}

// standing is what holds over from any time ago: outages, spares and defects.
var standing = []sqlite.Filter{{Kind: bot.OnService}, {Kind: bot.OnDefect}}

// late is how long after a shift's end words about it are still looked for.
const late = 24 * time.Hour

// between is the time of the shifts that begin in the days from, and before to.
func between(setup bot.Setup, from, to dept.Date) sqlite.Filter {
	change := setup.Rota.Changes[0]
	return sqlite.Filter{Since: change.On(from, setup.Dept.Zone), Until: change.On(to, setup.Dept.Zone).Add(late)}
}

// bookOf reads the records that any of the filters lets through.
func bookOf(ctx context.Context, setup bot.Setup, store *sqlite.Store, filters ...sqlite.Filter) (*ledger.Book, error) {
	var lines []ledger.Line
	for _, f := range filters {
		err := store.Records(ctx, f, func(r bot.Record, by string) error {
			lines = append(lines, ledger.Line{Record: r, SupersededBy: by})
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return ledger.New(setup, lines), nil
}
