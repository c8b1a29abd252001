// Package bot decides what crosslay does: Decide turns one event and what is
// known into records and messages, and the Engine runs it over a Store.
//
// Bottom-up: dept and check say what there is and what is asked; rota, nag, run
// and defect each own one piece of arithmetic or one life cycle; reply says what
// people mean; wording says everything that people read; bot puts them together.
package bot
