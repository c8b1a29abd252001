// Package cover tells how far one station is from another by road and about how
// long it takes to drive there, which company is the nearest that can, and where
// a few spares do most good.
package cover

import (
	"math"

	"crosslay/bot/dept"
)

const (
	kmPerMile = 1.609344 // exact: 5280 feet of 0.3048 m
	// earthKm is the mean radius of the earth.
	earthKm = 6371.0
)

// Formula estimates a drive from its length. A department that has measured its
// own drives may put its own constants in.
type Formula struct {
	Base    float64 // minutes, however short
	PerMile float64 // minutes
	From    float64 // road miles for which it was validated
	To      float64
	Detour  float64 // road distance over straight distance, where the file has none
}

// Published is the RAND travel-time formula as published by ISO ("Response-Time
// Considerations"): T = 0.65 + 1.7 D, T in minutes, D in road miles, validated
// for 0.5 to 8.0 miles. The detour is common practice, no single source.
var Published = Formula{Base: 0.65, PerMile: 1.7, From: 0.5, To: 8.0, Detour: 1.3}

// Way is the road from one station to another.
type Way struct {
	Km      float64
	Minutes float64 // an estimate, not a promise
	Stated  bool    // the distance stands in the file
	Rough   bool    // outside the distances for which the formula was validated
}

// Miles is the way's length in miles.
func (w Way) Miles() float64 { return w.Km / kmPerMile }

// Between is the way from a to b by the published formula.
func Between(d *dept.Department, a, b dept.Station) Way { return Published.Between(d, a, b) }

// Between is the way from a to b: the distance from the file, or the straight
// distance times the detour.
func (f Formula) Between(d *dept.Department, a, b dept.Station) Way {
	if a.ID == b.ID {
		w := Way{Stated: true}
		w.Minutes, w.Rough = f.Minutes(0)
		return w
	}
	km, stated := d.RoadKm(a.ID, b.ID)
	if !stated {
		km = Straight(a, b) * f.Detour
	}
	w := Way{Km: km, Stated: stated}
	w.Minutes, w.Rough = f.Minutes(km)
	return w
}

// Minutes is the time of a drive by the published formula; rough outside 0.5 to
// 8.0 miles.
func Minutes(km float64) (minutes float64, rough bool) { return Published.Minutes(km) }

// Minutes is the time of a drive; rough outside the distances for which the
// formula was validated.
func (f Formula) Minutes(km float64) (minutes float64, rough bool) {
	const crumb = 1e-9 // of a conversion
	miles := km / kmPerMile
	return f.Base + f.PerMile*miles, miles < f.From-crumb || miles > f.To+crumb
}

// Straight is the great-circle distance in kilometres (haversine formula).
func Straight(a, b dept.Station) float64 {
	rad := math.Pi / 180
	dLat, dLon := (b.Lat-a.Lat)*rad, (b.Lon-a.Lon)*rad
	h := math.Pow(math.Sin(dLat/2), 2) + math.Cos(a.Lat*rad)*math.Cos(b.Lat*rad)*math.Pow(math.Sin(dLon/2), 2)
	return 2 * earthKm * math.Asin(math.Sqrt(min(h, 1)))
}

// Coverer is a company that can, and the way from its station.
type Coverer struct {
	Company dept.CompanyID
	Way     Way
}

// Nearest is the company that can which is the nearest by time to the station of
// the one that cannot; the order of the file breaks ties. It is false where none
// can, and where the company or its station is not in the department.
func (f Formula) Nearest(d *dept.Department, company dept.CompanyID, can func(dept.CompanyID) bool) (Coverer, bool) {
	to, ok := station(d, company)
	best := Coverer{}
	if !ok {
		return best, false
	}
	for _, c := range d.Companies {
		from, known := station(d, c.ID)
		if c.ID == company || !known || !can(c.ID) {
			continue
		}
		if w := f.Between(d, from, to); best.Company == "" || w.Minutes < best.Way.Minutes {
			best = Coverer{c.ID, w}
		}
	}
	return best, best.Company != ""
}

func station(d *dept.Department, id dept.CompanyID) (dept.Station, bool) {
	c, ok := d.Company(id)
	if !ok {
		return dept.Station{}, false
	}
	return d.Station(c.Station)
}
