package bot

import (
	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/wording"
)

// examples are names of the department at hand, for helps: nobody can type along
// with the items of another one.
type examples struct{ company, station, number, kind string }

// anyOf takes the first company with an item, and that item.
func (d *decision) anyOf() examples {
	var ex examples
	for _, c := range d.Dept.Companies {
		station, _ := d.Dept.Station(c.Station)
		ex.company, ex.station = c.Name, station.Name
		for _, it := range d.Dept.Carried(c.ID) {
			ex.number, ex.kind = it.Number, d.thing(it.ID).Name
			return ex
		}
	}
	return ex
}

func (d *decision) officerHelp() []chat.Block {
	ex := d.anyOf()
	return wording.Lines("You can ask:", []string{"status, status " + ex.company + ", status " + ex.station,
		"out of service, open defects, who has not checked",
		"who covers " + ex.company + ", where should the spares go",
		"how is " + ex.number + " doing, which " + ex.kind + " is worst, fuel, runs",
		"week ahead, when is " + ex.number + " due", "board, picture " + ex.number + ", month",
		"history of " + ex.number + ", why no reminder to " + ex.company, "summary, take " + ex.number + " out of service"})
}

// crewHelp tells a crew how to answer, with an engine and a level of its own.
func (d *decision) crewHelp(st *Standing) []chat.Block {
	engine, level := "", ""
	for _, id := range d.carried(st.Company) {
		it, _ := d.Dept.Item(id)
		sheet := d.Book[it.Sheet]
		if sheet == nil {
			continue
		}
		if engine == "" && d.runCheck(id) != nil {
			engine = sheet.Name
		}
		for _, c := range sheet.Checks {
			if level == "" && c.Answer.Kind == check.Level {
				level = c.Label
			}
		}
	}
	return wording.HowTo(engine, level)
}

// aSpare is the number of a spare that could stand in for the defect's item, "" if
// there is none.
func (d *decision) aSpare(f *defect.Defect) string {
	for _, named := range d.shopNames(f) {
		return d.thing(named.ID).Number
	}
	return ""
}
