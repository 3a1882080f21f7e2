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

// Ride returns the ride between two points: great circle times the
// programme's detour factor at its driving speed, and the crossing where the
// areas differ.
func (p Programme) Ride(from, to Point) Leg {
	if !from.Known() || !to.Known() || p.SpeedKmh <= 0 {
		return Leg{}
	}
	metres := GreatCircle(from, to) * p.Detour
	if from.Area == to.Area {
		return p.road(metres)
	}
	ferry, ok := p.ferry(from.Area, to.Area)
	if !ok {
		return Leg{}
	}
	leg := p.road(math.Max(0, metres-float64(ferry.Metres)))
	leg.Takes += ferry.Takes
	leg.Metres += ferry.Metres
	leg.Crosses = true
	return leg
}

func (p Programme) road(metres float64) Leg {
	hours := metres / 1000 / p.SpeedKmh
	takes := time.Duration(hours * float64(time.Hour)).Round(time.Minute)
	return Leg{Takes: max(takes, time.Minute), Metres: int64(math.Round(metres)), Known: true}
}

// ferry returns the crossing between two areas; where none joins them
// directly, the quickest by way of one other area.
func (p Programme) ferry(a, b string) (Ferry, bool) {
	if f, ok := p.crossing(a, b); ok {
		return f, true
	}
	var best Ferry
	for _, first := range p.Ferries {
		for _, via := range first.Between {
			f1, ok1 := p.crossing(a, via)
			f2, ok2 := p.crossing(via, b)
			if ok1 && ok2 && (best.Takes == 0 || f1.Takes+f2.Takes < best.Takes) {
				best = Ferry{Between: [2]string{a, b}, Takes: f1.Takes + f2.Takes, Metres: f1.Metres + f2.Metres}
			}
		}
	}
	return best, best.Takes > 0
}

func (p Programme) crossing(a, b string) (Ferry, bool) {
	for _, f := range p.Ferries {
		if f.Between == [2]string{a, b} || f.Between == [2]string{b, a} {
			return f, true
		}
	}
	return Ferry{}, false
}

// Nearest returns the shortest ride from any depot to a point; zero when none
// is known.
func (p Programme) Nearest(to Point) time.Duration {
	var best time.Duration
	for _, d := range p.Depots {
		if leg := p.Ride(d.Point, to); leg.Known && (best == 0 || leg.Takes < best) {
			best = leg.Takes
		}
	}
	return best
}
