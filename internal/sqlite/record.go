package sqlite

import (
	"database/sql"
	"errors"

	"crosslay/bot"
	"crosslay/bot/dept"
)

const recordColumns = `id, kind, at, arrived, company, date, platoon, item, check_id, defect,
	state, number, word, words, who, message, supersedes, note`

// appendRecord leaves a record alone that is there already: its id names the deed.
func (w *writer) appendRecord(r bot.Record) error {
	if r.ID == "" {
		return errors.New("it has no id")
	}
	var number any
	if r.Value.Number != nil {
		number = *r.Value.Number
	}
	return w.exec(`INSERT INTO record (`+recordColumns+`)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING`,
		r.ID, string(r.Kind), ms(r.At), ms(r.Arrived), string(r.Company), r.Date.String(), string(r.Platoon),
		string(r.Item), string(r.Check), string(r.Defect), r.State, number, r.Value.Word, r.Words, r.Who,
		r.Message, r.Supersedes, r.Note)
}

func (w *writer) records(where string, args ...any) ([]bot.Record, error) {
	var list []bot.Record
	err := w.each(`SELECT `+recordColumns+` FROM record `+where, args, func(rows *sql.Rows) error {
		r, err := scanRecord(rows)
		list = append(list, r)
		return err
	})
	return list, err
}

// scanRecord reads recordColumns and what the query selects after them.
func scanRecord(rows *sql.Rows, more ...any) (r bot.Record, err error) {
	var at, arrived int64
	var date string
	var number sql.NullFloat64
	into := []any{&r.ID, &r.Kind, &at, &arrived, &r.Company, &date, &r.Platoon, &r.Item, &r.Check, &r.Defect,
		&r.State, &number, &r.Value.Word, &r.Words, &r.Who, &r.Message, &r.Supersedes, &r.Note}
	if err := rows.Scan(append(into, more...)...); err != nil {
		return r, err
	}
	r.At, r.Arrived = instant(at), instant(arrived)
	if number.Valid {
		r.Value.Number = &number.Float64
	}
	if date != "" {
		r.Date, err = dept.ParseDate(date)
	}
	return r, err
}
