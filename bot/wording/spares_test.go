package wording

import (
	"testing"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
)

func TestSparesGolden(t *testing.T) {
	d := &dept.Department{}
	for i, id := range []string{"E1", "E2", "E3", "T4", "T5", "T6"} {
		d.Stations = append(d.Stations, dept.Station{ID: dept.StationID(id), Lat: 40, Lon: -90 + 0.012*float64(i*i)})
		d.Companies = append(d.Companies, dept.Company{ID: dept.CompanyID(id), Station: dept.StationID(id)})
	}
	for _, id := range []dept.CompanyID{"E7", "E8"} {
		d.Companies = append(d.Companies, dept.Company{ID: id, Station: "T4"})
	}
	d.Index()
	names := map[dept.CompanyID]string{"E1": "Engine 1", "E2": "Engine 2", "E3": "Engine 3", "T4": "Truck 4", "T5": "Truck 5", "T6": "Truck 6",
		"E7": "Engine 7", "E8": "Engine 8"}
	ask := func(goal cover.Goal, k int, can string, out ...dept.CompanyID) []chat.Block {
		p, silent := cover.Published.Place(d, cover.Places{Out: out, Spares: k, Can: func(c dept.CompanyID) bool { return string(c) == can }}, goal)
		return Spares(SparesView{Kind: "power unit", Plan: p, Silent: silent, Name: func(id dept.CompanyID) string { return names[id] }})
	}
	both := func(first, second cover.Goal, k int, out ...dept.CompanyID) []chat.Block {
		q := cover.Places{Out: out, Spares: k, Can: func(c dept.CompanyID) bool { return c == "E1" }}
		p, silent := cover.Published.Place(d, q, first)
		other, _ := cover.Published.Place(d, q, second)
		return Spares(SparesView{Kind: "power unit", Plan: p, Else: other, Silent: silent, Name: func(id dept.CompanyID) string { return names[id] }})
	}
	golden(t, "spares", []spoken{
		{"one spare, three out", ask(cover.Total, 1, "E1", "E2", "E3", "T5")},
		{"one spare, the longest drive", ask(cover.Farthest, 1, "E1", "E2", "E3", "T5")},
		{"two spares, four out", ask(cover.Total, 2, "E1", "E2", "E3", "T4", "T5")},
		{"where the farthest would be better served otherwise", both(cover.Total, cover.Farthest, 1, "T4", "E7", "E8", "T6")},
		{"the same, asked for the longest drive", both(cover.Farthest, cover.Total, 1, "T4", "E7", "E8", "T6")},
		{"both goals want the same", both(cover.Total, cover.Farthest, 2, "E2", "E3", "T5")},
		{"nobody else has one", ask(cover.Total, 1, "", "E1", "E2", "E3")},
		{"enough for all", ask(cover.Total, 3, "E1", "E2", "E3")},
		{"none out", ask(cover.Total, 1, "E1")},
		{"no spare", ask(cover.Total, 0, "E1", "E2")},
		{"a company without a station", ask(cover.Total, 1, "E1", "E9")},
	})
}
