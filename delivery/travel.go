package delivery

import (
	"math"
	"time"
)

// earthMetres is the mean radius of the earth (IUGG 1980).
const earthMetres = 6371008.8

// GreatCircle returns the distance between two points in metres, by the
// haversine formula (R. W. Sinnott, Sky and Telescope 68, 1984).
func GreatCircle(a, b Point) float64 {
	const degree = math.Pi / 180
	dLat, dLon := (b.Lat-a.Lat)*degree, (b.Lon-a.Lon)*degree
	h := math.Pow(math.Sin(dLat/2), 2) +
		math.Cos(a.Lat*degree)*math.Cos(b.Lat*degree)*math.Pow(math.Sin(dLon/2), 2)
	return 2 * earthMetres * math.Asin(math.Min(1, math.Sqrt(h)))
}

// Leg is one ride.
type Leg struct {
	Takes  time.Duration
	Metres int64
	// Crosses says that the ride takes a ferry; Known is false when no ferry
	// joins the two areas, or a point is missing.
	Crosses bool
	Known   bool
}

// Ride returns what a ride between two points takes as a rule: as a file of
// rides lists it, else great circle times the programme's detour factor at the
// speeds of its roads, and the crossing where the areas differ, with a usual
// wait where the ferry keeps a timetable.
func (p Programme) Ride(from, to Point) Leg {
	leg, _ := p.ride(from, to)
	return leg
}

// ride returns the usual ride and how it crosses the water.
func (p Programme) ride(from, to Point) (Leg, passage) {
	if !from.Known() || !to.Known() || p.SpeedKmh <= 0 {
		return Leg{}, passage{}
	}
	given, listed := p.rides[[2]spot{from.spot(), to.spot()}]
	metres := GreatCircle(from, to) * p.Detour
	if from.Area == to.Area && !listed {
		return p.road(metres), passage{}
	}
	way, ok := p.passage(from.Area, to.Area)
	switch {
	case listed && (from.Area == to.Area || !way.timed()):
		given.Crosses = from.Area != to.Area
		return given, passage{}
	case !ok:
		return Leg{}, passage{}
	case way.timed():
		return p.byTimetable(from, to, way), way
	}
	leg := p.road(math.Max(0, metres-float64(way.metres())))
	leg.Takes += way.takes()
	leg.Metres += way.metres()
	leg.Crosses = true
	return leg, way
}

// RideAt returns the ride of somebody who sets out at a time: slow hours drag
// it out, and who misses a departure waits for the next.
func (p Programme) RideAt(from, to Point, at time.Time) Leg {
	leg, way := p.ride(from, to)
	if !leg.Known {
		return leg
	}
	day := p.roads(at)
	if way.timed() {
		leg.Takes = day.cross(from, to, way, at).Sub(at)
	} else {
		leg.Takes = day.drive(at, leg.Takes).Sub(at)
	}
	return leg
}

// Nearest returns the shortest ride from any depot to a point for somebody who
// begins to load at a time; zero when none is known.
func (p Programme) Nearest(to Point, at time.Time) time.Duration {
	var best time.Duration
	for _, d := range p.Depots {
		if leg := p.RideAt(d.Point, to, at.Add(loading)); leg.Known && (best == 0 || leg.Takes < best) {
			best = leg.Takes
		}
	}
	return best
}
