package export

import (
	"fmt"
	"io"
	"time"

	"github.com/xuri/excelize/v2"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// Kinds are the kinds of records, each with a sheet of its own, in order.
var Kinds = []bot.RecordKind{bot.OnReading, bot.OnRun, bot.OnDefect, bot.OnService, bot.OnReminder, bot.OnPrompt, bot.OnWords}

// mostRows is how many rows a sheet can have, the header included.
const mostRows = excelize.TotalRows

// Workbook is a spreadsheet of records, one sheet a kind. Rows go to a passing
// file, so that years of records need little memory.
type Workbook struct {
	names  Names
	file   *excelize.File
	sheets map[bot.RecordKind]*sheet
	styles styles
	newest time.Time // of the records
}

type styles struct{ head, moment, day int }

type sheet struct {
	kind    bot.RecordKind
	columns []column
	stream  *excelize.StreamWriter
	rows    int
}

// NewWorkbook makes an empty workbook. Times are those of the department's
// clocks.
func NewWorkbook(names Names) (*Workbook, error) {
	w := &Workbook{names: names, file: excelize.NewFile(), sheets: map[bot.RecordKind]*sheet{}}
	if err := w.style(); err != nil {
		return nil, err
	}
	for i, kind := range Kinds {
		if err := w.open(i, kind); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", kind, err)
		}
	}
	return w, nil
}

func (w *Workbook) style() error {
	moment, day := "yyyy-mm-dd hh:mm:ss", "yyyy-mm-dd"
	for _, s := range []struct {
		id    *int
		style *excelize.Style
	}{
		{&w.styles.head, &excelize.Style{Font: &excelize.Font{Bold: true}, Border: []excelize.Border{{Type: "bottom", Style: 1, Color: "404040"}}}},
		{&w.styles.moment, &excelize.Style{CustomNumFmt: &moment}},
		{&w.styles.day, &excelize.Style{CustomNumFmt: &day}},
	} {
		id, err := w.file.NewStyle(s.style)
		if err != nil {
			return err
		}
		*s.id = id
	}
	return nil
}

func (w *Workbook) open(i int, kind bot.RecordKind) error {
	title := string(kind)
	if i == 0 {
		if err := w.file.SetSheetName("Sheet1", title); err != nil {
			return err
		}
	} else if _, err := w.file.NewSheet(title); err != nil {
		return err
	}
	stream, err := w.file.NewStreamWriter(title)
	if err != nil {
		return err
	}
	s := &sheet{kind: kind, columns: columnsOf(kind), stream: stream}
	w.sheets[kind] = s
	for n, c := range s.columns {
		if err := stream.SetColWidth(n+1, n+1, c.width); err != nil {
			return err
		}
	}
	// The header stays in sight.
	if err := stream.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	var head []any
	for _, c := range s.columns {
		head = append(head, excelize.Cell{StyleID: w.styles.head, Value: c.heading(w.names.zone())})
	}
	return s.row(head)
}

// row appends a row to a sheet.
func (s *sheet) row(cells []any) error {
	if s.rows == mostRows {
		return fmt.Errorf("there are more than %d records of kind %s, which is all that a sheet can hold; export a shorter time", mostRows-1, s.kind)
	}
	s.rows++
	at, err := excelize.CoordinatesToCellName(1, s.rows)
	if err != nil {
		return err
	}
	return s.stream.SetRow(at, cells)
}

// Add puts a record on the sheet of its kind.
func (w *Workbook) Add(l ledger.Line) error {
	s := w.sheets[l.Kind]
	if s == nil {
		return fmt.Errorf("record %s is of kind %q, which has no sheet", l.ID, l.Kind)
	}
	if l.At.After(w.newest) {
		w.newest = l.At
	}
	cells := make([]any, 0, len(s.columns))
	for _, c := range s.columns {
		cells = append(cells, w.cell(c.value(w.names, l)))
	}
	return s.row(cells)
}

// cell gives a value the form of a cell: times and dates by the wall clock,
// figures as numbers, words harmless, nothing as an empty cell.
func (w *Workbook) cell(v any) any {
	switch v := v.(type) {
	case time.Time:
		if v.IsZero() {
			return nil
		}
		return excelize.Cell{StyleID: w.styles.moment, Value: v.In(w.names.zone())}
	case dept.Date:
		if v.IsZero() {
			return nil
		}
		return excelize.Cell{StyleID: w.styles.day, Value: time.Date(v.Year, v.Month, v.Day, 0, 0, 0, 0, time.UTC)}
	case *float64:
		if v == nil {
			return nil
		}
		return *v // in the general format: another leaves whole figures a bare point
	case string:
		if v == "" {
			return nil
		}
		return Harmless(v)
	}
	return nil
}

// properties date the workbook by its newest record: the same records make the
// same file, whenever it is written.
func (w *Workbook) properties() *excelize.DocProperties {
	p := &excelize.DocProperties{Creator: "crosslay", Title: "Records"}
	if !w.newest.IsZero() {
		p.Created = w.newest.UTC().Format(time.RFC3339)
		p.Modified = p.Created
	}
	return p
}

// Write ends the workbook and writes it out.
func (w *Workbook) Write(out io.Writer) error {
	defer w.file.Close()
	for _, kind := range Kinds {
		s := w.sheets[kind]
		if err := s.filter(); err != nil {
			return fmt.Errorf("sheet %s: %w", kind, err)
		}
		if err := s.stream.Flush(); err != nil {
			return fmt.Errorf("sheet %s: %w", kind, err)
		}
	}
	if err := w.file.SetDocProps(w.properties()); err != nil {
		return err
	}
	return w.file.Write(out)
}

// filter gives every column its filter; a sheet without records needs none.
func (s *sheet) filter() error {
	if s.rows < 2 {
		return nil
	}
	end, err := excelize.CoordinatesToCellName(len(s.columns), s.rows)
	if err != nil {
		return err
	}
	return s.stream.AddTable(&excelize.Table{Range: "A1:" + end, Name: "records_" + string(s.kind), StyleName: "TableStyleLight1"})
}

// column is one column of a sheet.
type column struct {
	head  string
	width float64
	value func(Names, ledger.Line) any
}

// heading names the clock with the columns of times.
func (c column) heading(zone *time.Location) string {
	if c.head == "said" || c.head == "learnt" {
		return c.head + " (" + zone.String() + ")"
	}
	return c.head
}

func refOf(l ledger.Line) check.Ref { return check.Ref{Item: l.Item, Check: l.Check} }
