// Package export writes what is on record for people outside the chat: workbooks
// for a spreadsheet, and the inspection record of an item or a company.
//
// Nothing is left out and nothing is smoothed: what was corrected is there beside
// what corrected it, what nobody said is listed as not answered.
package export
