package reply

import (
	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Full is a company's full check: every check of every item that it carries by
// the file, numbered in the order of the file.
func Full(d *dept.Department, book check.Book, company dept.CompanyID) []Item {
	n := 0
	var items []Item
	for _, it := range d.Carried(company) {
		sheet, ok := book[it.Sheet]
		if !ok {
			continue
		}
		item := Item{ID: it.ID, Names: NamesOf(it, sheet), Place: it.Place}
		for i := range sheet.Checks {
			n++
			item.Checks = append(item.Checks, Asked{N: n, Check: &sheet.Checks[i]})
		}
		items = append(items, item)
	}
	return items
}

// Called is everything a company answers to.
func Called(d *dept.Department, company dept.CompanyID) []string {
	for i := range d.Companies {
		if c := &d.Companies[i]; c.ID == company {
			return append([]string{string(c.ID), c.Name}, c.Names...)
		}
	}
	return nil
}

// NamesOf is everything an item answers to, its own names first.
func NamesOf(it dept.Item, sheet *check.Sheet) []string {
	names := append([]string{}, it.Names...)
	names = append(names, sheet.Name)
	names = append(names, sheet.Names...)
	return append(names, it.Number)
}
