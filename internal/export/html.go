package export

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
)

//go:embed inspection.html
var page string

var inspectionPage = template.Must(template.New("inspection").Parse(page))

// Notice stands on every inspection record.
const Notice = "Local rules, the maker's manual and licensed technicians come before anything written here. " +
	"This is what crews and the shop reported, as it was understood; it does not replace an inspection by a qualified person. " +
	"What nobody said is listed as not answered and never counted as passed. " +
	"Limits and the checks that were due are those of the department file at the time this was made."

// Notice is the caution at the head of the record.
func (Inspection) Notice() string { return Notice }

// Title names the record in the margin of each page.
func (i Inspection) Title() string {
	return fmt.Sprintf("%s, %s to %s", i.Subject, i.From, i.To)
}

// Service says whether the item of an open defect is in service.
func (d OpenDefect) Service() string {
	if d.Out {
		return "out of service"
	}
	return "in service"
}

// HTML writes the record as a page that a browser prints.
func (i Inspection) HTML(out io.Writer) error {
	if err := inspectionPage.Execute(out, i); err != nil {
		return fmt.Errorf("write the inspection record: %w", err)
	}
	return nil
}
