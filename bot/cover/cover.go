// Package cover tells how far one station is from another by road, and about how
// long it takes to drive there.
package cover

import (
	"math"

	"crosslay/bot/dept"
)

const (
	kmPerMile = 1.609344
	// detour is road distance over straight distance, where the file has no road
	// distance: common practice, no single source.
	detour = 1.3
	// earthKm is the mean radius of the earth.
	earthKm = 6371.0
)

// Way is the road from one station to another.
type Way struct {
	Km      float64
	Minutes float64 // an estimate, not a promise
	Stated  bool    // the distance stands in the file
	Rough   bool    // outside the 0.5 to 8 miles for which the formula was validated
}

// Between is the way from a to b.
func Between(d *dept.Department, a, b dept.Station) Way {
	km, stated := d.RoadKm(a.ID, b.ID)
	if !stated {
		km = Straight(a, b) * detour
	}
	w := Way{Km: km, Stated: stated}
	w.Minutes, w.Rough = Minutes(km)
	return w
}

// Minutes is the RAND travel-time formula as published by ISO: T = 0.65 + 1.7 D,
// D in road miles; rough outside 0.5 to 8.0 miles.
func Minutes(km float64) (minutes float64, rough bool) {
	miles := km / kmPerMile
	return 0.65 + 1.7*miles, miles < 0.5 || miles > 8
}

// Straight is the great-circle distance in kilometres (haversine formula).
func Straight(a, b dept.Station) float64 {
	rad := math.Pi / 180
	dLat, dLon := (b.Lat-a.Lat)*rad, (b.Lon-a.Lon)*rad
	h := math.Pow(math.Sin(dLat/2), 2) + math.Cos(a.Lat*rad)*math.Cos(b.Lat*rad)*math.Pow(math.Sin(dLon/2), 2)
	return 2 * earthKm * math.Asin(math.Sqrt(h))
}
