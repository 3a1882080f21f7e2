package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
)

// north is a point so many kilometres of road north of the equator, with no
// detour: a degree of latitude is 111.195 km on the mean sphere.
func north(km float64) delivery.Point { return delivery.Point{Lat: km / 111.19508, Lon: 1} }

func classed() delivery.Programme {
	p := delivery.NewProgramme()
	p.Detour, p.SpeedKmh = 1, 60
	p.Roads = []delivery.RoadClass{
		{Name: "streets", Km: 5, Kmh: 20, Source: "trip logs"},
		{Name: "country roads", Km: 20, Kmh: 40, Source: "trip logs"},
	}
	return p
}

// TestRoadClasses: the streets first, then the country roads, the rest at the
// driving speed; worked out by hand.
func TestRoadClasses(t *testing.T) {
	p := classed()
	require.NoError(t, p.Check())
	for km, minutes := range map[float64]float64{2: 6, 5: 15, 15: 15 + 15, 25: 15 + 30, 55: 15 + 30 + 30} {
		assert.Equal(t, time.Duration(minutes)*time.Minute, p.Ride(north(1), north(1+km)).Takes, "%g km", km)
	}
	p.Slow = []delivery.SlowHours{{From: "07:00", Until: "09:00", Percent: 200, Source: "trip logs"}}
	eight := time.Date(2030, time.March, 6, 7, 0, 0, 0, time.UTC)
	assert.Equal(t, 30*time.Minute, p.RideAt(north(1), north(6), eight).Takes, "at that hour each class is half as fast")
	assert.Equal(t, "rides 5 km of streets at 20 km/h, then 20 km of country roads at 40 km/h, then at 60 km/h over 1.0 times the straight way", p.RidesSay())
	for _, bad := range []delivery.RoadClass{
		{Km: 5, Kmh: 20, Source: "x"}, {Name: "a", Kmh: 20, Source: "x"}, {Name: "a", Km: 5, Source: "x"}, {Name: "a", Km: 5, Kmh: 20}, {Name: "a", Km: 5, Kmh: 900, Source: "x"},
	} {
		p.Roads = []delivery.RoadClass{bad}
		assert.Error(t, p.Check(), "%v", bad)
	}
}

// TestLongerIsNeverSooner: with any classes a longer way takes no less time.
func TestLongerIsNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := classed()
		p.Roads[0].Kmh = rapid.Float64Range(5, 100).Draw(t, "streets")
		p.Roads[1].Kmh = rapid.Float64Range(5, 100).Draw(t, "roads")
		a, b := rapid.Float64Range(0.1, 200).Draw(t, "a"), rapid.Float64Range(0.1, 200).Draw(t, "b")
		if p.Ride(north(0), north(min(a, b))).Takes > p.Ride(north(0), north(max(a, b))).Takes {
			t.Fatalf("%g and %g km", a, b)
		}
	})
}

// TestListedRides: a listed ride stands before the straight way, that way round
// only, also over water without a timetable; slow hours drag it out.
func TestListedRides(t *testing.T) {
	p := classed()
	p.Roads = nil
	depot, home, over := north(1), north(7), delivery.Point{Lat: 0.2, Lon: 1, Area: "isle"}
	p.Depots = []delivery.Site{{Name: "yard", Title: "The yard", Point: depot}}
	p = p.WithRides(delivery.RidesListed{
		File:   "rides.csv",
		Places: []string{"site:yard", "home:a1", "at:0.2,1", "home:gone"},
		Rides:  [][4]int{{0, 1, 1500, 9000}, {0, 2, 3600, 20000}, {3, 0, 60, 100}},
	}, func(id inventory.AddressID) delivery.Point {
		if id == "a1" {
			return home
		}
		return delivery.Point{}
	})
	assert.Equal(t, delivery.Leg{Takes: 25 * time.Minute, Metres: 9000, Known: true}, p.Ride(depot, home))
	assert.Equal(t, 6*time.Minute, p.Ride(home, depot).Takes, "the way back is not listed")
	assert.Equal(t, delivery.Leg{Takes: time.Hour, Metres: 20000, Known: true, Crosses: true}, p.Ride(depot, over), "no ferry is known: the list says how")
	assert.False(t, p.Ride(over, depot).Known)
	p.Slow = []delivery.SlowHours{{From: "07:00", Until: "09:00", Percent: 200}}
	assert.Equal(t, 50*time.Minute, p.RideAt(depot, home, time.Date(2030, time.March, 6, 7, 0, 0, 0, time.UTC)).Takes)
	assert.Contains(t, p.RidesSay(), "rides listed in rides.csv; the others at 60 km/h")
}
