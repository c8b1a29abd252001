// Package dept knows a fire department as its people would draw it on a board:
// stations, companies, the items they carry, the people, and the rooms in which
// they talk. It holds no state that changes during a shift; that is kept by bot.
//
// A Department is built by package config from the department file and is not
// changed afterwards: a changed file makes a new Department.
package dept

import "time"

// Typed ids, as written in the department file. They never change meaning while
// a department lives: records refer to them for years.
type (
	StationID string
	CompanyID string
	ItemID    string
	KindID    string // a kind of equipment: power_unit, combi, hose, ...
	SheetID   string // a check sheet; by default the sheet of a kind has the kind's id
	PersonID  string
	RoomID    string
	Platoon   string // "A", "B", "C", ...
)

// Units says in which system the department writes its figures.
type Units string

// The two systems a department file may name.
const (
	US     Units = "us"     // inches, psi, fluid ounces, miles
	Metric Units = "metric" // millimetres, bar, millilitres, kilometres
)

// Department is everything of the department file except sheets, rota and
// ladders, which have packages of their own.
type Department struct {
	Name      string
	Zone      *time.Location
	Units     Units
	Summary   Clock // when the officers' room gets its morning summary
	Stations  []Station
	Companies []Company
	Items     []Item // in the order of the file, which is the order of prompts
	People    []Person
	Rooms     []Room
	Roads     []Road
	ShopHours Hours // the shop's working time; ladders to the shop run in it

	index index
}

// Station is a fire station with its position in degrees (WGS 84).
type Station struct {
	ID       StationID
	Name     string
	Lat, Lon float64
}

// Company is a crew with its apparatus: Engine 21, Truck 9.
type Company struct {
	ID      CompanyID
	Name    string   // "Engine 21"
	Names   []string // what people also write: "e21", "21"
	Station StationID
	Room    RoomID // its own room, or the room of its station
}

// Item is one piece of equipment with a number. A spare has no company of its
// own: it is kept by the shop until it is placed.
type Item struct {
	ID          ItemID
	Number      string // as painted on it: "PU-07"
	Kind        KindID
	Sheet       SheetID
	Names       []string // besides those of its sheet: "the blue one"
	Company     CompanyID
	Spare       bool
	Place       string // where it rides: "officer side 2"
	InService   Date   // in service since
	HangsOn     ItemID // the power unit that drives this tool or hose
	StartHours  float64
	LastService Date
	// ServiceHours are the engine hours at the last service, StartHours where the
	// file does not say.
	ServiceHours float64
	Figures      Figures
}

// Figures are the maker's figures that computing needs; zero means not given.
type Figures struct {
	TankEndurance time.Duration // running time of a full tank
	RodMM         float64       // diameter of the cylinder's rod, millimetres
	StrokeMM      float64       // millimetres
	GaugeBandML   float64       // volume between the gauge's marks, millilitres
}

// Role is what a person may do. A person may have several.
type Role string

// The roles a department file may give.
const (
	Crew    Role = "crew"    // answers and reports
	Officer Role = "officer" // a company's officer: may also take out of service
	Chief   Role = "chief"   // an officer of the battalion or department
	Shop    Role = "shop"    // repairs and returns to service
)

// Person is somebody who talks to the bot. Accounts holds the name by which each
// backend knows the person, keyed by backend ("slack", "matrix", "terminal").
type Person struct {
	ID       PersonID
	Name     string
	Roles    []Role
	Company  CompanyID // "" for shop and chiefs
	Platoon  Platoon
	Accounts map[string]string
}

// Has reports whether the person holds any of the roles.
func (p Person) Has(roles ...Role) bool {
	for _, have := range p.Roles {
		for _, want := range roles {
			if have == want {
				return true
			}
		}
	}
	return false
}

// Purpose says whom a room is for.
type Purpose string

// A department has one shop room, one officers' room, and for every company
// either its station's room or one of its own.
const (
	ForStation  Purpose = "station"
	ForCompany  Purpose = "company"
	ForShop     Purpose = "shop"
	ForOfficers Purpose = "officers"
)

// Room is a channel. It lives in one backend, under the address that the backend
// knows it by.
type Room struct {
	ID      RoomID
	Purpose Purpose
	Station StationID // for ForStation
	Company CompanyID // for ForCompany
	Backend string    // "terminal", "slack", "matrix"
	Address string    // channel id, room alias, ...
	Quiet   []Span    // quiet hours: no reminders, only prompts and answers
}

// Road is the road distance between two stations, valid both ways.
type Road struct {
	A, B StationID
	Km   float64
}
