package scene

import (
	"math"
	"slices"
	"strconv"
)

// Position is a place on the earth in degrees, north and east positive.
type Position struct{ Lat, Lon float64 }

// MapData is the chart of the islands.
type MapData struct {
	Coast  [][]Position // closed outlines of land
	Depots []MapDepot
	Homes  []MapHome
	Routes []MapRoute
}

// MapDepot is a depot or ward store.
type MapDepot struct {
	At   Position
	Name string
	Key  string
}

// MapHome is one household with its verdict.
type MapHome struct {
	At      Position
	Name    string // written beside the mark where there is room; may be empty
	Verdict string
	Key     string
}

// MapRoute is one run: where it starts, its stops in order, where it ends.
type MapRoute struct{ Stops []Position }

// earthKmPerDegree is a degree of latitude on a sphere of the earth's mean
// radius, 6371.0088 km (IUGG).
const earthKmPerDegree = 6371.0088 * math.Pi / 180

// islands is a map while it is drawn.
type islands struct {
	Scene
	west, north    float64 // degrees at the map's top left
	perLat, aspect float64 // points a degree of latitude; how much shorter one of longitude is
	offX, offY     float64
	taken, lines   crowd // words and marks; the runs
}

const mapMargin = 24.0

// Map draws land, runs, depots and homes, north up. The scale is true at the
// middle latitude, which serves for islands a few dozen kilometres across.
func Map(data MapData, w, h float64) Scene {
	m := &islands{Scene: Scene{W: w, H: h}}
	m.add(Bar{W: w, H: h, Ink: Sea})
	if w < 4*mapMargin || h < 4*mapMargin || !m.fit(data) {
		return m.Scene
	}
	for _, outline := range data.Coast {
		if len(outline) >= 3 {
			m.add(Polygon{Points: m.points(outline), Ink: Land})
		}
	}
	for i, r := range data.Routes {
		m.route(i, r)
	}
	m.scale()
	m.places(data)
	return m.Scene
}

// fit chooses the scale so that everything lies inside the margin.
func (m *islands) fit(data MapData) bool {
	south, west, north, east := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	data.each(func(p Position) {
		south, north = math.Min(south, p.Lat), math.Max(north, p.Lat)
		west, east = math.Min(west, p.Lon), math.Max(east, p.Lon)
	})
	if !(north >= south) || math.Abs(north) > 85 || math.Abs(south) > 85 {
		return false
	}
	const least = 0.01 // degrees: a single place still gets a map of about a kilometre
	m.aspect = math.Cos((north + south) / 2 * math.Pi / 180)
	tall, wide := math.Max(north-south, least), math.Max((east-west)*m.aspect, least)
	innerW, innerH := m.W-2*mapMargin, m.H-2*mapMargin
	m.perLat = math.Min(innerW/wide, innerH/tall)
	m.north, m.west = north, west
	m.offX = mapMargin + (innerW-(east-west)*m.aspect*m.perLat)/2
	m.offY = mapMargin + (innerH-(north-south)*m.perLat)/2
	return true
}

func (d MapData) each(visit func(Position)) {
	for _, outline := range d.Coast {
		for _, p := range outline {
			visit(p)
		}
	}
	for _, p := range d.Depots {
		visit(p.At)
	}
	for _, p := range d.Homes {
		visit(p.At)
	}
	for _, r := range d.Routes {
		for _, p := range r.Stops {
			visit(p)
		}
	}
}

func (m *islands) point(p Position) Point {
	return Point{m.offX + (p.Lon-m.west)*m.aspect*m.perLat, m.offY + (m.north-p.Lat)*m.perLat}
}

func (m *islands) points(outline []Position) []Point {
	points := make([]Point, len(outline))
	for i, p := range outline {
		points[i] = m.point(p)
	}
	return points
}

// route adds one run; runs differ by their dashes, and each stop between the
// ends carries its number beside it.
func (m *islands) route(i int, r MapRoute) {
	dash := []float64{0, 9, 4, 2}[i%4]
	points := m.points(r.Stops)
	for k := 0; k+1 < len(points); k++ {
		a, b := points[k], points[k+1]
		m.add(Line{a.X, a.Y, b.X, b.Y, 2, Gas, dash})
		for _, d := range (Line{X1: a.X, Y1: a.Y, X2: b.X, Y2: b.Y, Dash: 3}).Dashes() {
			m.lines.take(box{d.X1 - 2, d.Y1 - 2, d.X1 + 2, d.Y1 + 2})
		}
	}
	for k := 1; k+1 < len(points); k++ {
		p := points[k]
		m.taken.put(&m.Scene, Words{X: p.X - 14, Y: p.Y - 5, Size: 10, Bold: true, Align: Middle, Text: strconv.Itoa(k), Ink: Text})
	}
}

// places adds depots and homes, the most urgent on top, then names where they
// fit.
func (m *islands) places(data MapData) {
	const depot, home = 12.0, 13.0
	for _, d := range data.Depots {
		p := m.point(d.At)
		m.add(Bar{X: p.X - depot/2, Y: p.Y - depot/2, W: depot, H: depot, Ink: Text})
		m.add(Bar{X: p.X - depot/6, Y: p.Y - depot/6, W: depot / 3, H: depot / 3, Ink: Ground})
		m.standing(p, depot, d.Key)
	}
	homes := slices.SortedStableFunc(slices.Values(data.Homes), func(a, b MapHome) int {
		return urgency(a.Verdict) - urgency(b.Verdict)
	})
	for _, h := range homes {
		p := m.point(h.At)
		m.add(Ring{p.X, p.Y, home * 0.7, 1, Ground, Ground})
	}
	for _, h := range homes {
		p := m.point(h.At)
		m.Place(VerdictMark(h.Verdict, home), p.X-home/2, p.Y-home/2)
		m.standing(p, home, h.Key)
	}
	slices.Reverse(homes) // the urgent ones get their names first
	for _, d := range data.Depots {
		m.name(m.point(d.At), d.Name, true)
	}
	for _, h := range homes {
		m.name(m.point(h.At), h.Name, false)
	}
}

func (m *islands) standing(p Point, size float64, key string) {
	m.taken.take(box{p.X - size/2, p.Y - size/2, p.X + size/2, p.Y + size/2})
	m.Spots = append(m.Spots, Spot{p.X, p.Y, size * 0.8, key})
}

// name writes a name right, left, above or below its mark, clear of the runs if
// it can, and not at all where other words stand.
func (m *islands) name(p Point, name string, bold bool) {
	const size, off = 10.5, 12.0
	if name == "" {
		return
	}
	wide := Width(name, size, bold)
	corners := []Point{{p.X + off, p.Y + 4}, {p.X - off - wide, p.Y + 4}, {p.X - wide/2, p.Y - off}, {p.X - wide/2, p.Y + off + 8}}
	for _, clear := range []bool{true, false} {
		for _, at := range corners {
			b := box{at.X - 1, at.Y - size, at.X + wide + 1, at.Y + 3}
			inside := b.left >= 0 && b.right <= m.W && b.top >= 0 && b.bottom <= m.H
			if inside && (!clear || m.lines.free(b)) && m.taken.takeFree(b) {
				m.add(Words{X: at.X, Y: at.Y, Size: size, Bold: bold, Text: name, Ink: Text})
				return
			}
		}
	}
}

// scale adds a bar of a round number of kilometres and the north sign.
func (m *islands) scale() {
	perKm := m.perLat / earthKmPerDegree
	km := niceStep(60 / perKm)
	long, y := km*perKm, m.H-10
	m.add(
		Line{10, y, 10 + long, y, 2, Text, 0},
		Line{10, y - 4, 10, y + 1, 2, Text, 0},
		Line{10 + long, y - 4, 10 + long, y + 1, 2, Text, 0},
		Words{X: 14, Y: y - 5, Size: 10, Text: thousands(km) + " km", Ink: Text},
		Polygon{Points: []Point{{m.W - 16, 8}, {m.W - 11, 20}, {m.W - 21, 20}}, Ink: Text},
		Words{X: m.W - 16, Y: 31, Size: 10, Bold: true, Align: Middle, Text: "N", Ink: Text},
	)
	m.taken.take(box{6, y - 18, 14 + long, m.H})
	m.taken.take(box{m.W - 24, 4, m.W - 8, 34})
}
