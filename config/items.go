package config

import (
	"fmt"
	"slices"

	"crosslay/bot/dept"
)

// sheetsFit finds the sheet of every item, and sheets that no item uses: those
// are as a rule a kind that was misspelled somewhere.
func (d *draft) sheetsFit() {
	used := map[dept.SheetID]bool{}
	for i := range d.dept.Items {
		it := &d.dept.Items[i]
		if it.Sheet == "" {
			d.sheetOfKind(it, d.itemAt[i])
		} else {
			d.sheetNamed(it, d.itemAt[i])
		}
		used[it.Sheet] = true
	}
	for i, s := range d.sheets {
		if s.ID != "" && !used[s.ID] && d.has("items") {
			d.sheetAt[i].wrong("kind", fmt.Sprintf("no item uses the sheet %s", s.ID), "Add an item of this kind, or take the sheet out")
		}
	}
}

func (d *draft) sheetOfKind(it *dept.Item, o object) {
	var of []dept.SheetID
	var kinds []dept.KindID
	for _, s := range d.sheets {
		kinds = append(kinds, s.Kind)
		if s.Kind == it.Kind {
			of = append(of, s.ID)
		}
	}
	switch {
	case it.Kind == "":
	case len(of) == 0:
		o.wrong("kind", fmt.Sprintf("there is no sheet for the kind %q", it.Kind), suggest(string(it.Kind), kinds))
	case len(of) == 1 || slices.Contains(of, dept.SheetID(it.Kind)):
		it.Sheet = of[0]
		if slices.Contains(of, dept.SheetID(it.Kind)) {
			it.Sheet = dept.SheetID(it.Kind)
		}
	default:
		o.wrong("kind", fmt.Sprintf("the kind %s has several sheets", it.Kind), "Add sheet: with the id of one of them")
	}
}

func (d *draft) sheetNamed(it *dept.Item, o object) {
	var ids []dept.SheetID
	for _, s := range d.sheets {
		ids = append(ids, s.ID)
		if s.ID == it.Sheet && s.Kind != it.Kind && it.Kind != "" {
			o.wrong("sheet", fmt.Sprintf("the sheet %s is for the kind %s, and this item is of the kind %s", s.ID, s.Kind, it.Kind), "Make the two agree")
		}
	}
	refers(o, "sheet", it.Sheet, "sheet", ids)
}

// itemsBelong demands that every item is either carried by a company or a spare.
func (d *draft) itemsBelong() {
	companies := d.companyIDs()
	for i, it := range d.dept.Items {
		o := d.itemAt[i]
		refers(o, "company", it.Company, "company", companies)
		switch {
		case it.Spare && o.has("company"):
			o.wrong("spare", "a spare belongs to no company until the shop places it", "Take out either company or spare")
		case !it.Spare && !o.has("company"):
			o.wrong("company", "nobody carries this item", "Add company:, or spare: true if the shop keeps it")
		}
	}
}

// hanging demands that what a tool hangs on exists, drives it itself, and rides
// with the same company.
func (d *draft) hanging() {
	at := map[dept.ItemID]dept.Item{}
	var ids []dept.ItemID
	for _, it := range d.dept.Items {
		at[it.ID] = it
		ids = append(ids, it.ID)
	}
	for i, it := range d.dept.Items {
		o := d.itemAt[i]
		if !refers(o, "hangs_on", it.HangsOn, "item", ids) {
			continue
		}
		switch on := at[it.HangsOn]; {
		case on.ID == it.ID:
			o.wrong("hangs_on", "an item cannot hang on itself", "Write the id of its power unit")
		case on.HangsOn != "":
			o.wrong("hangs_on", fmt.Sprintf("%s hangs on another item itself", on.ID), "Write the id of the power unit that drives both")
		case on.Company != it.Company:
			o.wrong("hangs_on", fmt.Sprintf("%s does not ride with the same company", on.ID), "Write the id of a power unit that does")
		}
	}
}
