package scene

import (
	"math"
	"strings"
	"time"
)

// How far the forecast fades under its safe end, its middle and its far end.
const fadeSure, fadeLikely, fadeFar = 0.45, 0.68, 0.86

// forecast adds the gas still to come: nearly solid under the safe end, paler
// to the middle, palest to the far end, with the middle as a line.
func (c *chart) forecast() {
	var low, mid, high []Point
	for _, f := range c.Forecast {
		if !c.shows(f.At) {
			continue
		}
		x := c.x(f.At)
		low = append(low, Point{x, c.y(f.Low)})
		mid = append(mid, Point{x, c.y(f.Mid)})
		high = append(high, Point{x, c.y(f.High)})
	}
	if len(mid) < 2 {
		return
	}
	first, last := mid[0].X, mid[len(mid)-1].X
	ground := []Point{{first, c.bottom}, {last, c.bottom}}
	c.add(between(low, ground, fadeSure), between(mid, low, fadeLikely), between(high, mid, fadeFar))
	c.polyline(mid, 0)
}

// between returns the area from the upper edge down to the lower one.
func between(upper, lower []Point, fade float64) Polygon {
	points := append([]Point(nil), upper...)
	for i := len(lower) - 1; i >= 0; i-- {
		points = append(points, lower[i])
	}
	return Polygon{Points: points, Ink: Gas, Fade: fade}
}

func (c *chart) polyline(points []Point, dash float64) {
	for i := 0; i+1 < len(points); i++ {
		a, b := points[i], points[i+1]
		if a.Y >= c.bottom && b.Y >= c.bottom {
			continue // nothing left: the axis already says so
		}
		c.add(Line{a.X, a.Y, b.X, b.Y, 2, Gas, dash})
	}
}

// readings adds the observed amounts: a full dot was read by us, a hollow one
// told by phone.
func (c *chart) readings() {
	var run []Point
	var dots []Shape
	for _, r := range c.Readings {
		if !c.shows(r.At) {
			continue
		}
		p := Point{c.x(r.At), c.y(r.Litres)}
		if r.Fresh {
			c.polyline(run, 0)
			run = nil
		}
		run = append(run, p)
		dots = append(dots, dot(p, r.Told))
		c.Spots = append(c.Spots, Spot{p.X, p.Y, 9, r.Key})
	}
	if n := len(c.Forecast); n > 0 && len(run) > 0 && c.shows(c.Forecast[0].At) {
		from := c.Forecast[0]
		c.polyline([]Point{run[len(run)-1], {c.x(from.At), c.y(from.Mid)}}, 4)
	}
	c.polyline(run, 0)
	c.add(dots...)
}

func dot(p Point, told bool) Ring {
	if told {
		return Ring{p.X, p.Y, 4, 2, Text, Ground}
	}
	return Ring{p.X, p.Y, 4, 2, Text, Text}
}

// marks adds act-by and the visits, each a line through the plot with its
// label in the first free row above it.
func (c *chart) marks() {
	if at := c.ActBy; !at.IsZero() && c.shows(at) {
		ink := Text
		if !at.After(c.Now) {
			ink = Alarm
		}
		y := c.mark(at, "act by "+clock(at), ink)
		x := c.x(at)
		c.add(Polygon{Points: []Point{{x - 5.5, y - 5}, {x + 5.5, y - 5}, {x, y + 4}}, Ink: ink})
	}
	for i, v := range c.Visits {
		if v.At.IsZero() || !c.shows(v.At) {
			continue
		}
		ink := Text
		if i == 0 && Late(v.At, c.ActBy) {
			ink = Alarm
		}
		says := v.Says + " " + clock(v.At)
		y := c.mark(v.At, strings.TrimSpace(says), ink)
		x := c.x(v.At)
		c.add(Polygon{Points: []Point{{x, y - 5}, {x + 12, y - 0.5}, {x, y + 4}}, Ink: ink})
	}
	for _, word := range c.labels {
		c.add(backed(word)...)
	}
}

// mark adds a line and its label, and returns the height of the label's row.
func (c *chart) mark(at time.Time, says string, ink Ink) float64 {
	const head = 16 // room for the mark itself
	x := c.x(at)
	wide := Width(says, chartSize, false)
	lane, word := 0, Words{}
	for ; lane < markLanes; lane++ {
		base := float64(lane)*markLane + chartSize
		right := Words{X: x + head, Y: base, Size: chartSize, Text: says, Ink: ink}
		left := Words{X: x - 9, Y: base, Size: chartSize, Align: Right, Text: says, Ink: ink}
		if word = right; x+head+wide <= c.W && c.taken.takeFree(box{x - 7, base - chartSize, x + head + wide + 6, base + 3}) {
			break
		}
		if word = left; x-9-wide >= 0 && c.taken.takeFree(box{x - 15 - wide, base - chartSize, x + head, base + 3}) {
			break
		}
	}
	y := float64(min(lane, markLanes-1))*markLane + chartSize*0.64
	c.add(Line{x, y, x, c.bottom, 1.5, ink, 0})
	if lane < markLanes {
		c.labels = append(c.labels, word)
	}
	return y
}

// key explains the signs in one row under the axis.
func (c *chart) key() {
	k := keyRow{&c.Scene, c.left, c.H - 5}
	k.say("read", 9, func(x, mid float64) []Shape { return []Shape{dot(Point{x + 4.5, mid}, false)} })
	k.say("told", 9, func(x, mid float64) []Shape { return []Shape{dot(Point{x + 4.5, mid}, true)} })
	k.say("forecast, safe end to far end", 36, func(x, mid float64) []Shape {
		var steps []Shape
		for i, fade := range []float64{fadeSure, fadeLikely, fadeFar} {
			steps = append(steps, Bar{X: x + 12*float64(i), Y: mid - 4, W: 12, H: 8, Ink: Gas, Fade: fade, FadeTo: fade})
		}
		return steps
	})
	if c.showsReserve() {
		k.say("reserve "+thousands(math.Round(c.Reserve))+" L", 24, func(x, mid float64) []Shape {
			return []Shape{Line{x, mid, x + 24, mid, 1, Caution, 5}}
		})
	}
	if len(c.Outages) > 0 {
		k.say("power out", 30, func(x, mid float64) []Shape { return hatch(x, x+30, mid-4, mid+4, 7, 1) })
	}
	if len(c.Trips) > 0 {
		k.say("on a trip", 24, func(x, mid float64) []Shape { return bracket(x, x+24, mid) })
	}
}

// clock writes an instant as every picture does: weekday and local time.
func clock(t time.Time) string { return t.Format("Mon 15:04") }
