package scene

import (
	"slices"
	"strconv"
)

// Position is a place on the earth in degrees, north and east positive.
type Position struct{ Lat, Lon float64 }

// MapData is the chart of the islands.
type MapData struct {
	Sight Sight // zero: everything

	Coast   [][]Position // closed outlines of land
	Water   [][]Position // closed outlines of lakes
	Roads   [][]Position
	Ferries [][]Position
	Towns   []MapTown

	Depots []MapDepot
	Homes  []MapHome
	Routes []MapRoute

	Area []Position // what is being chosen, closed
	Pin  *Position  // a place being set
}

// MapTown is a name on the land.
type MapTown struct {
	At   Position
	Name string
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
	Verdict string // empty: no oxygen of ours now
	Key     string
	Rough   bool // the place is only about right
	Chosen  bool
	InHand  bool
}

// MapRoute is one run: where it starts, its stops in order, where it ends.
type MapRoute struct {
	Stops  []Position
	Labels []string // beside each stop; nil: the stops between the ends are counted
}

// islands is a map while it is drawn.
type islands struct {
	Scene
	sight        Sight
	point        func(Position) Point
	frame        box
	taken, lines crowd // words and marks; the runs
}

const mapMargin = 24.0

// mostNames is how many homes a map names at most: the most urgent ones.
const mostNames = 60

// Map draws land, runs, depots and homes, north up. The scale is true at the
// middle latitude.
func Map(data MapData, w, h float64) Scene {
	m := &islands{Scene: Scene{W: w, H: h}, sight: data.Sight, frame: box{1, 1, w - 1, h - 1}}
	seen := true
	if m.sight.Scale <= 0 {
		m.sight, seen = Fit(data.Everything(), w, h)
	}
	if !seen || w < 4*mapMargin || h < 4*mapMargin {
		m.add(Bar{W: w, H: h, Ink: Sea})
		return m.Scene
	}
	m.point = m.sight.onto(w, h)
	m.ground(data)
	for i, r := range data.Routes {
		m.route(i, r, len(data.Routes) == 1 || m.sight.PerKm() >= near)
	}
	m.scale()
	m.places(data)
	m.choosing(data)
	return m.Scene
}

// Everything lists every position of the map.
func (d MapData) Everything() []Position {
	var all []Position
	for _, lines := range [][][]Position{d.Coast, d.Roads} {
		for _, line := range lines {
			all = append(all, line...)
		}
	}
	for _, p := range d.Depots {
		all = append(all, p.At)
	}
	for _, p := range d.Homes {
		all = append(all, p.At)
	}
	for _, r := range d.Routes {
		all = append(all, r.Stops...)
	}
	return all
}

// ground adds sea, ferries, land, lakes and roads. A country whose outline has
// no coast is all land.
func (m *islands) ground(data MapData) {
	under := Sea
	if len(data.Coast) == 0 && len(data.Roads) > 0 {
		under = Land
	}
	m.add(Bar{W: m.W, H: m.H, Ink: under})
	for _, ferry := range data.Ferries {
		m.stroke(m.points(ferry), 1, Coast, 3)
	}
	m.filled(data.Coast, Land)
	m.filled(data.Water, Sea)
	for _, road := range data.Roads {
		m.stroke(m.points(road), 1.2, Road, 0)
	}
}

func (m *islands) filled(rings [][]Position, ink Ink) {
	for _, ring := range rings {
		if len(ring) < 3 {
			continue
		}
		points := thinned(m.points(ring))
		if land := clipRing(points, m.frame); len(land) >= 3 {
			m.add(Polygon{Points: land, Ink: ink})
			m.stroke(append(points, points[0]), 1, Coast, 0)
		}
	}
}

// stroke adds what of a line of many points can be seen.
func (m *islands) stroke(points []Point, width float64, ink Ink, dash float64) {
	points = thinned(points)
	for k := 0; k+1 < len(points); k++ {
		if a, b, seen := clipLine(points[k], points[k+1], m.frame); seen {
			m.add(Line{a.X, a.Y, b.X, b.Y, width, ink, dash})
		}
	}
}

func (m *islands) points(line []Position) []Point {
	points := make([]Point, len(line))
	for i, p := range line {
		points[i] = m.point(p)
	}
	return points
}

// sees reports whether a sign of a size fits on the map at a point.
func (m *islands) sees(p Point, size float64) bool {
	half := size/2 + 1
	return p.X >= half && p.Y >= half && p.X <= m.W-half && p.Y <= m.H-half
}

// routeDash tells one run from the next.
var routeDash = []float64{0, 9, 4, 2}

// route adds one run; runs differ by their dashes, and each stop between the
// ends carries its number beside it where there is room for that.
func (m *islands) route(i int, r MapRoute, numbered bool) {
	points := m.points(r.Stops)
	for k := 0; k+1 < len(points); k++ {
		a, b, seen := clipLine(points[k], points[k+1], m.frame)
		if !seen {
			continue
		}
		m.add(Line{a.X, a.Y, b.X, b.Y, 2, Gas, routeDash[i%len(routeDash)]})
		for _, d := range (Line{X1: a.X, Y1: a.Y, X2: b.X, Y2: b.Y, Dash: 3}).Dashes() {
			m.lines.take(box{d.X1 - 2, d.Y1 - 2, d.X1 + 2, d.Y1 + 2})
		}
	}
	if !numbered {
		return
	}
	for k, p := range points {
		if label := r.label(k); label != "" && m.sees(p, 28) {
			m.taken.put(&m.Scene, Words{X: p.X - 14, Y: p.Y - 5, Size: 10, Bold: true, Align: Middle, Text: label, Ink: Text})
		}
	}
}

func (r MapRoute) label(k int) string {
	switch {
	case k < len(r.Labels):
		return r.Labels[k]
	case r.Labels != nil || k == 0 || k+1 == len(r.Stops):
		return ""
	}
	return strconv.Itoa(k)
}

// Sizes of the marks of depots and homes. From afar a home that holds is
// small, so that those that do not stand out.
const (
	depotMark = 12.0
	homeMark  = 13.0
	calmMark  = 8.0
)

// near is from how many points a kilometre on every home is drawn in full and
// every stop numbered.
const near = 45

func (m *islands) markSize(h MapHome) float64 {
	if h.Verdict == Holds && m.sight.PerKm() < near && !h.InHand {
		return calmMark
	}
	return homeMark
}

// places adds depots and homes, the most urgent on top, then names where they
// fit.
func (m *islands) places(data MapData) {
	for _, d := range data.Depots {
		if p := m.point(d.At); m.sees(p, depotMark) {
			m.add(Bar{X: p.X - depotMark/2, Y: p.Y - depotMark/2, W: depotMark, H: depotMark, Ink: Text})
			m.add(Bar{X: p.X - depotMark/6, Y: p.Y - depotMark/6, W: depotMark / 3, H: depotMark / 3, Ink: Ground})
			m.standing(p, depotMark, d.Key)
		}
	}
	homes := slices.SortedStableFunc(slices.Values(data.Homes), func(a, b MapHome) int {
		return urgency(a.Verdict) - urgency(b.Verdict)
	})
	homes = slices.DeleteFunc(homes, func(h MapHome) bool { return !m.sees(m.point(h.At), homeMark*1.8) })
	for _, h := range homes {
		if size := m.markSize(h); size == homeMark {
			p := m.point(h.At)
			m.add(Ring{p.X, p.Y, size * 0.7, 1, Ground, Ground})
		}
	}
	for _, h := range homes {
		m.home(h, m.markSize(h))
	}
	m.names(data, homes)
}

// names writes names until no room is left: depots, then homes that do not
// hold, then towns, then the others.
func (m *islands) names(data MapData, homes []MapHome) {
	for _, d := range data.Depots {
		m.name(m.point(d.At), d.Name, true, Text)
	}
	slices.Reverse(homes) // the urgent ones get their names first
	calm := slices.IndexFunc(homes, func(h MapHome) bool { return urgency(h.Verdict) <= urgency(Holds) })
	if calm < 0 {
		calm = len(homes)
	}
	m.nameHomes(homes[:min(calm, mostNames)])
	for _, t := range data.Towns {
		if p := m.point(t.At); m.sees(p, homeMark) {
			m.name(p, t.Name, false, Faint)
		}
	}
	if calm < mostNames && m.sight.PerKm() >= near {
		m.nameHomes(homes[calm:min(len(homes), mostNames)])
	}
}

func (m *islands) nameHomes(homes []MapHome) {
	for _, h := range homes {
		m.name(m.point(h.At), h.Name, h.InHand, Text)
	}
}

// home adds one home: its verdict, a corner where the place is only about
// right, a ring where it is chosen or in hand.
func (m *islands) home(h MapHome, size float64) {
	p := m.point(h.At)
	if h.Verdict == "" {
		m.add(Ring{X: p.X, Y: p.Y, R: 3.5, Width: 1.5, Ink: Faint})
	} else {
		m.Place(VerdictMark(h.Verdict, size), p.X-size/2, p.Y-size/2)
	}
	if h.Rough {
		m.add(backed(Words{X: p.X + size*0.55, Y: p.Y - size*0.25, Size: 9, Bold: true, Text: "?", Ink: Text})...)
	}
	if h.Chosen {
		m.add(Ring{p.X, p.Y, size * 0.78, 1.5, Outline, ""})
	}
	if h.InHand {
		m.add(Ring{p.X, p.Y, size * 0.88, 2, Text, ""})
	}
	m.standing(p, size, h.Key)
}

func (m *islands) standing(p Point, size float64, key string) {
	m.taken.take(box{p.X - size/2, p.Y - size/2, p.X + size/2, p.Y + size/2})
	m.Spots = append(m.Spots, Spot{p.X, p.Y, size * 0.8, key})
}

// name writes a name right, left, above or below its mark, clear of the runs if
// it can, and not at all where other words stand.
func (m *islands) name(p Point, name string, bold bool, ink Ink) {
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
				m.add(Words{X: at.X, Y: at.Y, Size: size, Bold: bold, Text: name, Ink: ink})
				return
			}
		}
	}
}
