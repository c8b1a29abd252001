package config_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crosslay/config"
)

// small is a department without mistakes, to put mistakes into. The numbers
// count its lines.
const small = `department: Quillwater Fire Department
zone: America/Denver
shift_change: "07:00"
rota: {platoons: [A, B], cycle: [A, B], starts: 2026-01-01}
stations:
  - {id: st1, name: Station 1, lat: 39.1, lon: -105.2}
  - {id: st2, name: Station 2, lat: 39.2, lon: -105.3}
roads:
  - {between: [st1, st2], miles: 2}
rooms:
  - {id: r1, for: station, station: st1, backend: terminal, address: "#one"}
  - {id: shop, for: shop, backend: terminal, address: "#shop"}
  - {id: off, for: officers, backend: terminal, address: "#officers"}
companies:
  - {id: E1, name: Engine 1, station: st1}
people:
  - {id: ana, name: Ana Ruizo, roles: [crew], company: E1, platoon: A, accounts: {terminal: ana}}
sheets:
  - kind: saw
    name: chain saw
    checks:
      - {id: fuel, label: fuel, answer: level, min: 1/2, fault: crew}
      - {id: run, label: run, answer: run, min: 2, max: 5, fault: shop}
      - id: chain
        label: chain
        answer: condition
        fault: shop
        damages:
          - {name: loose, act: crew}
          - {name: cracked, act: out of service}
items:
  - {id: saw, number: S-01, kind: saw, company: E1}
  - {id: saw-2, number: S-02, kind: saw, spare: true}
reminders:
  low_fuel: [{after: 1h, to: company}, {after: 3h, to: officers}]
`

func TestSmallDepartmentHasNoMistakes(t *testing.T) {
	if _, err := config.Parse("f", []byte(small)); err != nil {
		t.Fatal(err)
	}
}

// Each mistake is a replacement in small and the lines that it must bring about:
// no fewer and no more.
var mistakes = []struct{ name, old, new, want string }{
	{"unknown_key", "zone:", "colour: red\nzone:", `f:2: colour: this key is not known.`},
	{"nearest_key", "roads:", "raods:", `f:8: raods: this key is not known. Did you mean roads?`},
	{"nearest_key_deep", "min: 2, max: 5", "min: 2, maxx: 5", `f:23: sheets.saw.checks.run.maxx: this key is not known. Did you mean max?
f:23: sheets.saw.checks.run.min: a run needs its range in minutes.`},
	{"key_twice", "zone:", "department: Y\nzone:", `f:2: department: the key stands twice, first in line 1. Keep one of the two.`},
	{"key_missing", "zone: America/Denver\n", "", `f:1: zone: this key is missing. Add zone: to this block.`},
	{"no_value", "zone: America/Denver", "zone:", `f:2: zone: nothing is written here, where a single value belongs.`},
	{"wrong_type_value", "name: Station 1", "name: [Station, 1]", `f:6: stations.st1.name: a list is written here, where a single value belongs.`},
	{"wrong_type_block", "{platoons: [A, B], cycle: [A, B], starts: 2026-01-01}", "A", `f:4: rota: a single value is written here, where a block of keys belongs.
f:17: people.ana.platoon: there is no platoon "A".`},
	{"wrong_type_list", "[{after: 1h, to: company}, {after: 3h, to: officers}]", "1h", `f:35: reminders.low_fuel: a single value is written here, where a list belongs.`},
	{"anchor", "zone: America/Denver", "zone: &z America/Denver", `f:2: zone: an anchor (&), alias (*) or tag (!) is written here, where a single value belongs.`},
	{"zone", "America/Denver", "America/Dnever", `f:2: zone: "America/Dnever" is not a time zone. Write region and city, as in America/Denver.`},
	{"zone_of_the_machine", "America/Denver", "Local", `f:2: zone: "Local" is not a time zone.`},
	{"clock", `"07:00"`, `"7am"`, `f:3: shift_change: "7am" is not a time of day. Write it like "07:00", in quotes.
f:4: rota.cycle: no shift change. Give the time`},
	{"rota_stranger", "cycle: [A, B]", "cycle: [A, B, C]", `f:4: rota.cycle: tour 3 of the cycle is worked by platoon "C", which is not among the platoons.`},
	{"rota_idle", "cycle: [A, B]", "cycle: [A]", `f:4: rota.cycle: platoon "B" never works in the cycle.`},
	{"rota_broken_days", `shift_change: "07:00"` + "\nrota: {platoons: [A, B], cycle: [A, B]", `shift_change: ["07:00", "17:00"]` + "\nrota: {platoons: [A, B], cycle: [A, B, A]", `f:4: rota.cycle: the cycle has 3 tours, which is not a whole number of days of 2 tours.`},
	{"rota_start", "2026-01-01", "2026-02-30", `f:4: rota.starts: "2026-02-30" is not a date. Write it like 2026-03-08.`},
	{"position", "lat: 39.1", "lat: 391", `f:6: stations.st1.lat: the position must lie within -90 and 90 degrees.`},
	{"station_twice", "{id: st2,", "{id: ST1,", `f:7: stations.ST1.id: the station id "ST1" stands twice, first in line 6.
f:9: roads[1].between: there is no station "st2". Did you mean st1 or ST1?`},
	{"road_to_nowhere", "[st1, st2]", "[st1, st9]", `f:9: roads[1].between: there is no station "st9". Did you mean st1 or st2?`},
	{"road_two_lengths", "miles: 2", "miles: 2, km: 3", `f:9: roads[1].miles: a road has one length. Write either miles: or km:.`},
	{"road_zero", "miles: 2", "miles: 0", `f:9: roads[1].miles: the length must be above zero.`},
	{"room_twice", `"#shop"`, `"#one"`, `f:12: rooms.shop.address: the channel "terminal #one" stands twice, first in line 11.`},
	{"two_shop_rooms", "for: officers", "for: shop", `f:10: rooms: there is no room for the officers. Add one with for: officers.
f:13: rooms.off.for: the room for "shop" stands twice, first in line 12.`},
	{"no_shop_room", `  - {id: shop, for: shop, backend: terminal, address: "#shop"}` + "\n", "", `f:10: rooms: there is no room for the shop. Add one with for: shop.`},
	{"no_officers_room", `  - {id: off, for: officers, backend: terminal, address: "#officers"}` + "\n", "", `f:10: rooms: there is no room for the officers.`},
	{"room_without_company", "for: station, station: st1", "for: company", `f:11: rooms.r1.company: this key is missing.
f:15: companies.E1.station: company E1 has no room to talk in. Add a room with for: station and station: st1, or with for: company and company: E1.`},
	{"company_without_room", "E1, name: Engine 1, station: st1", "E1, name: Engine 1, station: st2", `f:15: companies.E1.station: company E1 has no room to talk in.`},
	{"company_nowhere", "E1, name: Engine 1, station: st1", "E1, name: Engine 1, station: st7", `f:15: companies.E1.station: there is no station "st7". Did you mean st1 or st2?`},
	{"company_names_collide", "people:", "  - {id: E2, name: Engine 2, names: [e1], station: st1}\npeople:", `f:16: companies.E2.names: the company name "e1" stands twice, first in line 15.`},
	{"quiet", `address: "#one"`, `address: "#one", quiet: ["22-6"]`, `f:11: rooms.r1.quiet: "22-6" is not a part of the day. Write it like "22:00-06:30".`},
	{"shop_closes_first", "stations:", `shop_hours: {days: [mon], from: "16:00", to: "07:00"}` + "\nstations:", `f:5: shop_hours.to: the shop would close before it opens.`},
	{"shop_day", "stations:", `shop_hours: {days: [moonday], from: "07:00", to: "16:00"}` + "\nstations:", `f:5: shop_hours.days: "moonday" is not a day of the week.`},
	{"role", "roles: [crew]", "roles: [boss]", `f:17: people.ana.roles: "boss" is not a role. Write one of: crew, officer, chief, shop.`},
	{"person_of_nowhere", "[crew], company: E1", "[crew], company: E7", `f:17: people.ana.company: there is no company "E7". Did you mean E1?`},
	{"crew_without_company", "[crew], company: E1", "[crew]", `f:17: people.ana.company: this key is missing.`},
	{"account_twice", "sheets:", "  - {id: bo, name: Bo, roles: [shop], accounts: {terminal: ana}}\nsheets:", `f:18: people.bo.accounts: the account "terminal ana" stands twice, first in line 17.`},
	{"sheet_unused", "items:", "  - kind: fan\n    name: fan\n    checks: [{id: run, label: run, answer: run, min: 5, max: 10, fault: shop}]\nitems:", `f:31: sheets.fan.kind: no item uses the sheet fan.`},
	{"sheet_without_checks", "items:", "  - {kind: fan, name: fan, checks: []}\nitems:", `f:31: sheets.fan.checks: the sheet has no checks. List at least one.
f:31: sheets.fan.kind: no item uses the sheet fan.`},
	{"floor_above_full", "min: 1/2", "min: 3/2", `f:22: sheets.saw.checks.fuel.min: "3/2" is not a fraction of full, from 0 to 1. Write it like 3/4.`},
	{"floor_missing", "level, min: 1/2", "level", `f:22: sheets.saw.checks.fuel.min: this key is missing.`},
	{"limits_upside_down", "min: 2, max: 5", "min: 5, max: 2", `f:23: sheets.saw.checks.run.min: the lower limit lies above the upper one. Swap min and max.`},
	{"run_without_range", "answer: run, min: 2, max: 5", "answer: run", `f:23: sheets.saw.checks.run.min: a run needs its range in minutes.`},
	{"unit_unknown", "answer: level, min: 1/2", "answer: number, unit: furlong, min: 1", `f:22: sheets.saw.checks.fuel.unit: "furlong" is not a unit.`},
	{"number_of_another_unit", "answer: level, min: 1/2", "answer: number, unit: psi, min: 3 in", `f:22: sheets.saw.checks.fuel.min: "3 in" is not a figure in psi or a unit like it.
f:22: sheets.saw.checks.fuel.min: a number without limits would pass whatever it is.`},
	{"limits_missing", "answer: level, min: 1/2", "answer: number, unit: psi", `f:22: sheets.saw.checks.fuel.min: a number without limits would pass whatever it is.`},
	{"limit_of_no_use", "answer: level, min: 1/2", "answer: gauge, min: 1/2", `f:22: sheets.saw.checks.fuel.min: an answer of kind gauge takes no min.`},
	{"good_missing", "answer: level, min: 1/2", "answer: yes_no", `f:22: sheets.saw.checks.fuel.good: this key is missing.`},
	{"answer_unknown", "answer: condition", "answer: conditon", `f:26: sheets.saw.checks.chain.answer: "conditon" is not known here. Did you mean condition?`},
	{"choices_cannot_fail", "answer: level, min: 1/2", "answer: choice, choices: [{name: green, good: true}]", `f:22: sheets.saw.checks.fuel.choices: of the choices some must be good and some not.`},
	{"fault_missing", "max: 5, fault: shop", "max: 5", `f:23: sheets.saw.checks.run.fault: this key is missing.`},
	{"act_unknown", "act: out of service", "act: tag it", `f:30: sheets.saw.checks.chain.damages.cracked.act: "tag it" does not say who acts. Write one of: crew, shop, out of service.`},
	{"damage_twice", "{name: cracked,", "{name: cracked, names: [Loose],", `f:30: sheets.saw.checks.chain.damages.cracked.names: the damage "Loose" stands twice, first in line 29.`},
	{"check_twice", "id: run, label: run", "id: fuel, label: run", `f:23: sheets.saw.checks.fuel.id: the check "fuel" stands twice, first in line 22.`},
	{"check_names_collide", "label: run,", "label: run, names: [fuel],", `f:23: sheets.saw.checks.run.names: the name of a check "fuel" stands twice, first in line 22.`},
	{"check_called_good", "label: run,", "label: run, names: [Good],", `f:23: sheets.saw.checks.run.names: nothing can be called "Good", since crews answer with that word.`},
	{"item_called_ok", "S-01, kind", "S-01, names: ok, kind", `f:32: items.saw.names: nothing can be called "ok"`},
	{"sheet_called_all", "name: chain saw", "name: All", `f:20: sheets.saw.name: nothing can be called "All"`},
	{"damage_called_bad", "{name: cracked,", "{name: bad,", `f:30: sheets.saw.checks.chain.damages.bad.name: nothing can be called "bad"`},
	{"check_id_with_dot", "id: fuel,", "id: fu.el,", `f:22: sheets.saw.checks[1].id: "fu.el" cannot be an id.`},
	{"when", "fault: crew}\n      - {id: run", "fault: crew, when: often}\n      - {id: run", `f:22: sheets.saw.checks.fuel.when: "often" is not a time to check.`},
	{"when_day", "fault: crew}\n      - {id: run", "fault: crew, when: day 32}\n      - {id: run", `f:22: sheets.saw.checks.fuel.when: "32" is not a day of the month.`},
	{"use_does_not_fit", "answer: run, min", "use: fuel, answer: run, min", `f:23: sheets.saw.checks.run.use: fuel cannot be computed from an answer of kind run.`},
	{"fluid_without_proviso", "answer: level, min: 1/2", "answer: gauge, use: fluid", `f:22: sheets.saw.checks.fuel.proviso: a fluid check must say what a low reading hangs on.`},
	{"repeat_to_the_shop", "answer: condition", "answer: condition\n        repeat: {times: 2, days: 14}", `f:27: sheets.saw.checks.chain.repeat: this fault goes to the shop the first time.`},
	{"label_long", "label: fuel", "label: how full the fuel tank is", `f:22: sheets.saw.checks.fuel.label: the label has more than 24 characters`},
	{"kind_unknown", "S-01, kind: saw", "S-01, kind: swa", `f:32: items.saw.kind: there is no sheet for the kind "swa". Did you mean saw?`},
	{"item_twice", "{id: saw-2", "{id: saw", `f:33: items.saw.id: the item id "saw" stands twice, first in line 32.`},
	{"number_twice", "S-02", "s-01", `f:33: items.saw-2.number: the item number "s-01" stands twice, first in line 32.`},
	{"item_of_nobody", ", company: E1}", "}", `f:32: items.saw.company: nobody carries this item.`},
	{"item_of_nowhere", "saw, company: E1}", "saw, company: E5}", `f:32: items.saw.company: there is no company "E5". Did you mean E1?`},
	{"spare_of_somebody", "spare: true", "spare: true, company: E1", `f:33: items.saw-2.spare: a spare belongs to no company`},
	{"hangs_on_nothing", "spare: true", "spare: true, hangs_on: pump", `f:33: items.saw-2.hangs_on: there is no item "pump".`},
	{"hangs_on_itself", "spare: true", "spare: true, hangs_on: saw-2", `f:33: items.saw-2.hangs_on: an item cannot hang on itself.`},
	{"hangs_on_another_company", "spare: true", "spare: true, hangs_on: saw", `f:33: items.saw-2.hangs_on: saw does not ride with the same company.`},
	{"figure_without_unit", "spare: true", "spare: true, figures: {stroke: 10}", `f:33: items.saw-2.figures.stroke: "10" is not a figure in mm or a unit like it. Write the figure and its unit, as in 10 mm.`},
	{"endurance", "spare: true", "spare: true, figures: {tank_endurance: long}", `f:33: items.saw-2.figures.tank_endurance: "long" is not a span of time. Write it like 45m, 150 min or 2h.`},
	{"hours", "spare: true", "spare: true, hours: -3", `f:33: items.saw-2.hours: engine hours cannot be below zero.`},
	{"hours_at_the_service", "spare: true", "spare: true, hours: 3, last_service_hours: 4", `f:33: items.saw-2.last_service_hours: the hours at the last service are not between zero and hours.`},
	{"name_is_a_number", "spare: true", "spare: true, names: [s-01]", `f:33: items.saw-2.names: the name "s-01" is what item saw is known by.`},
	{"turnover_of_a_run", "answer: run, min", "turnover: 30, answer: run, min", `f:23: sheets.saw.checks.run.turnover: only fuel gets old in its tank.`},
	{"connection_of_a_level", "answer: level, min: 1/2", "use: connection, answer: level, min: 1/2", `f:22: sheets.saw.checks.fuel.use: connection cannot be computed from an answer of kind level.`},
	{"ladder_unknown", "low_fuel:", "low_fule:", `f:35: reminders.low_fule: this key is not known. Did you mean low_fuel?`},
	{"ladder_order", "after: 3h", "after: 30m", `f:35: reminders.low_fuel[2].after: this step comes no later than the one above it.`},
	{"ladder_audience", "to: officers}]", "to: mayor}]", `f:35: reminders.low_fuel[2].to: "mayor" is not known here. Write one of: company, officers, shop.`},
	{"slack_channel", `backend: terminal, address: "#one"`, `backend: slack, address: "Station 1"`, `f:11: rooms.r1.address: "Station 1" is no channel of Slack. Write the channel's id (C...), or its name in small letters with a #.`},
	{"slack_member", "terminal: ana", "slack: ana", `f:17: people.ana.accounts.slack: "ana" is no member of Slack. Write the member ID (U...)`},
	{"matrix_room", `backend: terminal, address: "#one"`, `backend: matrix, address: "#one"`, `f:11: rooms.r1.address: "#one" is no room of Matrix. Write its alias or its id in quotes, as in "#station-1:example.org"`},
	{"matrix_account", "terminal: ana", "matrix: ana", `f:17: people.ana.accounts.matrix: "ana" is no account of Matrix. Write it in full and in quotes`},
	{"secret_value", "terminal: ana", "slack: xoxb-12-abc", `f:17: people.ana.accounts.slack: this looks like a secret, and a department file must hold none.`},
	{"password_key", "zone:", "password: hunter\nzone:", `f:2: password: this looks like a secret`},
	{"token_key_deep", "accounts: {terminal: ana}", "accounts: {terminal: ana, bot_token: q}", `f:17: people.ana.accounts.bot_token: this looks like a secret`},
	{"secret_in_a_comment", "zone:", "# syt_abc_def\nzone:", `f:2: this looks like a secret`},
	{"second_document", "items:", "---\nitems:", `f:32: a second document begins here.`},
}

func TestMistakesAreToldByLineAndKey(t *testing.T) {
	for _, m := range mistakes {
		t.Run(m.name, func(t *testing.T) {
			_, err := config.Parse("f", []byte(strings.Replace(small, m.old, m.new, 1)))
			holds(t, err, m.want)
		})
	}
}

// holds demands that each line of the error begins with the line wanted, and
// that there are as many.
func holds(t *testing.T, err error, want string) {
	t.Helper()
	var problems config.Problems
	if !errors.As(err, &problems) {
		t.Fatalf("got the error %v, want %s", err, want)
	}
	got, lines := strings.Split(err.Error(), "\n"), strings.Split(want, "\n")
	for i := range max(len(got), len(lines)) {
		if i >= len(got) || i >= len(lines) || !strings.HasPrefix(got[i], strings.TrimSuffix(lines[i], ".")) {
			t.Fatalf("got\n%v\nwant\n%s", err, want)
		}
	}
}

func TestFilesThatCannotBeRead(t *testing.T) {
	for _, c := range []struct{ name, data, want string }{
		{"empty", "", "f: the file is empty."},
		{"only_comments", "# nothing\n", "f: the file is empty."},
		{"not_yaml", "stations: [1, 2\n", "f:1: this is not YAML: "},
		{"tab", "a:\n\tb: 1\n", "f:2: this is not YAML: "},
		{"a_list", "- 1\n", "f:1: a list is written here, where a block of keys belongs."},
		{"a_word", "hello\n", "f:1: a single value is written here, where a block of keys belongs."},
		{"too_long_a_line", "a: " + strings.Repeat("x", 2000), "f:1: the line has more than 1000 characters."},
		{"too_deep", strings.Repeat("[\n", 200), "f:101: brackets or lists are nested too deep."},
		{"too_big", strings.Repeat("# a\n", 1<<19), "f: the file has more than a megabyte."},
		{"too_many_lines", strings.Repeat("# a\n", 10001), "f: the file has more than 10000 lines."},
		{"binary", "a\x00b", "f:1: this is not a text file."},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := config.Parse("f", []byte(c.data))
			holds(t, err, c.want)
		})
	}
}

func TestLoadSaysWhyAFileCannotBeOpened(t *testing.T) {
	dir := t.TempDir()
	none := filepath.Join(dir, "none.yaml")
	_, err := config.Load(none)
	holds(t, err, none+": there is no such file. Give the path of a department file.")
	_, err = config.Load(dir)
	holds(t, err, dir+": this is a directory.")
	big := filepath.Join(dir, "big.yaml")
	if err := os.WriteFile(big, make([]byte, 2<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err = config.Load(big)
	holds(t, err, big+": the file has more than a megabyte.")
}

func TestMistakesAreCutShortWhereNobodyWouldRead(t *testing.T) {
	_, err := config.Parse("f", []byte(small+strings.Repeat("x: 1\n", 500)))
	var problems config.Problems
	if !errors.As(err, &problems) || len(problems) != 201 || problems[200].Text != "300 more mistakes follow from here on" {
		t.Fatalf("got %d problems, the last %v", len(problems), problems[len(problems)-1])
	}
}

func TestAllMistakesComeAtOnceInOrder(t *testing.T) {
	bad := strings.NewReplacer("America/Denver", "Mars/Base", "min: 1/2", "min: 9", "S-02", "S-01", "for: shop", "for: shops").Replace(small)
	_, err := config.Parse("f", []byte(bad))
	var problems config.Problems
	if !errors.As(err, &problems) || len(problems) != 5 {
		t.Fatalf("want 5 mistakes, got\n%v", err)
	}
	for i := 1; i < len(problems); i++ {
		if problems[i].Line < problems[i-1].Line {
			t.Errorf("line %d is told after line %d", problems[i].Line, problems[i-1].Line)
		}
	}
}

// No sentence about a file may carry its secrets on into a log or a channel.
func TestSecretsAreNeverRepeated(t *testing.T) {
	for _, where := range []string{"%s: x", "zone: %s", "zone: [%s", "# %s", "rota: {platoons: %s}", "units: %s", "items: [{id: %s}]"} {
		for _, secret := range []string{"xoxb-17-kqvzw", "syt_kqvzw_kqvzw", "xapp-1-kqvzw", "xoxe.xoxp-1-kqvzw"} {
			_, err := config.Parse("f", []byte(fmt.Sprintf(where, secret)))
			if err == nil || strings.Contains(err.Error(), "kqvzw") {
				t.Errorf("%s with %s gave %v", where, secret, err)
			}
			if err != nil && !strings.Contains(err.Error(), "secret") {
				t.Errorf("%s with %s is not called a secret:\n%v", where, secret, err)
			}
		}
	}
}
