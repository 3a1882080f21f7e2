package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
)

// TestGreatCircle compares with distances computed by another program at the
// mean radius of 6371.0088 km (IUGG 1980). The second pair is the example of
// several public haversine tests, which give 2887.2600 km at 6372.8 km.
func TestGreatCircle(t *testing.T) {
	for _, c := range []struct {
		name       string
		a, b       delivery.Point
		kilometres float64
	}{
		{"1 degree of longitude on the equator", delivery.Point{}, delivery.Point{Lon: 1}, 111.1951},
		{"Nashville to Los Angeles", delivery.Point{Lat: 36.12, Lon: -86.67}, delivery.Point{Lat: 33.94, Lon: -118.4}, 2886.4484},
		{"1 degree of latitude", delivery.Point{}, delivery.Point{Lat: 1}, 111.1951},
		{"a quarter meridian", delivery.Point{}, delivery.Point{Lat: 90}, 10007.5572},
		{"1 degree of longitude at 60", delivery.Point{Lat: 60}, delivery.Point{Lat: 60, Lon: 1}, 55.5970},
		{"Los Angeles to New York", delivery.Point{Lat: 33.95, Lon: -118.4}, delivery.Point{Lat: 40.63333333333333, Lon: -73.78333333333333}, 3972.8633},
		{"Land's End to John o' Groats", delivery.Point{Lat: 50.066388888889, Lon: -5.714722222222}, delivery.Point{Lat: 58.643888888889, Lon: -3.07}, 968.8549},
		{"New York to London", delivery.Point{Lat: 40.6, Lon: -73.8}, delivery.Point{Lat: 51.6, Lon: -0.5}, 5536.8920},
		{"Wellington to Salamanca, almost antipodes", delivery.Point{Lat: -41.32, Lon: 174.81}, delivery.Point{Lat: 40.96, Lon: -5.5}, 19967.4036},
		{"across a town", delivery.Point{Lat: 40.7128, Lon: -74.006}, delivery.Point{Lat: 40.7306, Lon: -73.9352}, 6.2863},
		{"across a quarter", delivery.Point{Lat: 51.5074, Lon: -0.1278}, delivery.Point{Lat: 51.5155, Lon: -0.0922}, 2.6231},
		{"nowhere", delivery.Point{Lat: 36.5, Lon: -40.5}, delivery.Point{Lat: 36.5, Lon: -40.5}, 0},
		{"antipodes", delivery.Point{Lat: 10, Lon: 20}, delivery.Point{Lat: -10, Lon: -160}, 2 * 10007.5572},
	} {
		assert.InDelta(t, c.kilometres, delivery.GreatCircle(c.a, c.b)/1000, 0.0001, c.name)
		assert.InDelta(t, c.kilometres, delivery.GreatCircle(c.b, c.a)/1000, 0.0001, "%s, and back", c.name)
	}
}

// isles is a programme of three islands in a row: ferries join each to the
// next. A tenth of a degree of latitude is 11.12 km; × 1.3 at 40 km/h 22 min.
func isles() delivery.Programme {
	p := delivery.NewProgramme()
	p.Ferries = []delivery.Ferry{
		{Between: [2]string{"West", "Mid"}, Takes: 30 * time.Minute, Metres: 5000},
		{Between: [2]string{"East", "Mid"}, Takes: 50 * time.Minute, Metres: 9000},
		{Between: [2]string{"Mid", "Far"}, Takes: 90 * time.Minute, Metres: 50_000},
	}
	return p
}

func point(lat float64, area string) delivery.Point {
	return delivery.Point{Lat: lat, Lon: -40.5, Area: area}
}

func TestRide(t *testing.T) {
	slow := isles()
	slow.SpeedKmh = 0
	for name, c := range map[string]struct {
		programme delivery.Programme
		from, to  delivery.Point
		want      delivery.Leg
	}{
		"by road":        {isles(), point(36.5, "West"), point(36.6, "West"), delivery.Leg{Takes: 22 * time.Minute, Metres: 14455, Known: true}},
		"next door":      {isles(), point(36.5, "West"), point(36.5, "West"), delivery.Leg{Takes: time.Minute, Known: true}},
		"by ferry":       {isles(), point(36.5, "West"), point(36.6, "Mid"), delivery.Leg{Takes: 44 * time.Minute, Metres: 14455, Crosses: true, Known: true}},
		"and back":       {isles(), point(36.6, "Mid"), point(36.5, "West"), delivery.Leg{Takes: 44 * time.Minute, Metres: 14455, Crosses: true, Known: true}},
		"by two ferries": {isles(), point(36.5, "West"), point(36.6, "East"), delivery.Leg{Takes: 81 * time.Minute, Metres: 14455, Crosses: true, Known: true}},
		"sea for most":   {isles(), point(36.5, "Mid"), point(36.6, "Far"), delivery.Leg{Takes: 91 * time.Minute, Metres: 50_000, Crosses: true, Known: true}},
		"no ferry":       {isles(), point(36.5, "West"), point(36.6, "Moon"), delivery.Leg{}},
		"no point":       {isles(), point(36.5, "West"), delivery.Point{Area: "West"}, delivery.Leg{}},
		"no speed":       {slow, point(36.5, "West"), point(36.6, "West"), delivery.Leg{}},
	} {
		assert.Equal(t, c.want, c.programme.Ride(c.from, c.to), name)
	}
}

func TestNearest(t *testing.T) {
	p := isles()
	assert.Zero(t, p.Nearest(point(36.5, "West"), minute(0)), "no depot")
	p.Depots = []delivery.Site{{Name: "mid", Point: point(36.5, "Mid")}, {Name: "nowhere"}, {Name: "west", Point: point(36.6, "West")}}
	assert.Equal(t, 22*time.Minute, p.Nearest(point(36.5, "West"), minute(0)))
	assert.Zero(t, p.Nearest(point(36.5, "Moon"), minute(0)))
}

func TestCutTouches(t *testing.T) {
	home := delivery.Address{Town: "Ness", Line: "Mill line", Point: point(36.5, "West")}
	for area, want := range map[string]bool{"West": true, "Ness": true, "Mill line": true, "East": false, "": false} {
		assert.Equal(t, want, delivery.PowerCut{Area: area}.Touches(home), "cut in %q", area)
	}
	assert.False(t, delivery.PowerCut{}.Touches(delivery.Address{}))
}
