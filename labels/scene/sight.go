package scene

import "math"

// Sight is the part of the earth a map shows: what lies at its middle, and how
// large. The zero Sight shows everything there is.
type Sight struct {
	Mid   Position
	Scale float64 // points a radian of longitude
}

// earthKm is the earth's mean radius (IUGG 1980).
const earthKm = 6371.0088

// The limits of a sight: a point of the map is between 5 km and 10 cm.
const (
	leastPerKm = 0.2
	mostPerKm  = 10_000
)

// PerKm is how many points a kilometre is long at the middle.
func (s Sight) PerKm() float64 { return s.Scale / (earthKm * math.Cos(radians(s.Mid.Lat))) }

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// northing is the ordinate of Mercator's projection in radians. It keeps
// shapes, and a map that is moved stays the same map.
func northing(lat float64) float64 { return math.Asinh(math.Tan(radians(lat))) }

// Point is where a position lies on a map of w by h points.
func (s Sight) Point(p Position, w, h float64) Point { return s.onto(w, h)(p) }

// onto returns where positions lie on a map of w by h points.
func (s Sight) onto(w, h float64) func(Position) Point {
	north := northing(s.Mid.Lat)
	return func(p Position) Point {
		return Point{w/2 + radians(p.Lon-s.Mid.Lon)*s.Scale, h/2 - (northing(p.Lat)-north)*s.Scale}
	}
}

// Position is what lies at a point of a map of w by h points.
func (s Sight) Position(at Point, w, h float64) Position {
	north := northing(s.Mid.Lat) - (at.Y-h/2)/s.Scale
	return Position{
		Lat: math.Atan(math.Sinh(north)) * 180 / math.Pi,
		Lon: s.Mid.Lon + (at.X-w/2)/s.Scale*180/math.Pi,
	}
}

// Moved is the sight after what is seen was pushed by so many points.
func (s Sight) Moved(dx, dy float64) Sight {
	if s.Scale <= 0 {
		return s
	}
	mid := s.Position(Point{-dx, -dy}, 0, 0)
	s.Mid = Position{Lat: math.Max(-85, math.Min(85, mid.Lat)), Lon: math.Max(-180, math.Min(180, mid.Lon))}
	return s
}

// Zoomed is the sight so many times as large, with what lies at a point staying
// there.
func (s Sight) Zoomed(times float64, at Point, w, h float64) Sight {
	perKm := s.PerKm()
	if !(perKm > 0) {
		return s
	}
	times = math.Max(leastPerKm, math.Min(mostPerKm, perKm*times)) / perKm
	fixed := s.Position(at, w, h)
	s.Scale *= times
	now := s.Point(fixed, w, h)
	return s.Moved(at.X-now.X, at.Y-now.Y)
}

// Fit is the sight that shows all of what is given inside the margins of a map
// of w by h points, and false where there is nothing or no room.
func Fit(all []Position, w, h float64) (Sight, bool) {
	south, west, north, east := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range all {
		south, north = math.Min(south, p.Lat), math.Max(north, p.Lat)
		west, east = math.Min(west, p.Lon), math.Max(east, p.Lon)
	}
	if !(north >= south) || math.Abs(north) > 85 || math.Abs(south) > 85 || w < 4*mapMargin || h < 4*mapMargin {
		return Sight{}, false
	}
	s := Sight{Mid: Position{Lon: (west + east) / 2}}
	s.Mid.Lat = math.Atan(math.Sinh((northing(south)+northing(north))/2)) * 180 / math.Pi
	const least = 1.0 / earthKm // radians: a single place still gets a map of about a kilometre
	tall, wide := math.Max(northing(north)-northing(south), least), math.Max(radians(east-west), least)
	s.Scale = math.Min((w-2*mapMargin)/wide, (h-2*mapMargin)/tall)
	return s, true
}
