package scene

import (
	"math"
	"time"
)

// RibbonData is what one household's ribbon shows. A zero time means none.
type RibbonData struct {
	Now     time.Time
	Horizon time.Duration // how far the right edge lies ahead of Now

	// Low, Mid and High are the 1, 50 and 99 % points of when the gas ends.
	Low, Mid, High time.Time

	// Hollow says that a concentrator runs. The bar is then an outline: the
	// cover if it stopped now, from its safe to its far end.
	Hollow                        bool
	CoverLow, CoverMid, CoverHigh time.Duration

	// ActBy is when gas must have arrived. The first of Visits is the help that
	// counts against it; its flag is red when it stands right of the notch.
	ActBy  time.Time
	Visits []time.Time

	Outages []Span // when the power is out

	// Unknown says the facts are too old, missing or in conflict: the bar is
	// drawn as a guess.
	Unknown bool
}

// Span is a stretch of time. A zero From has always been, a zero To is open.
type Span struct{ From, To time.Time }

// The ribbon is designed 44 points high and scaled to the height it is given.
const (
	ribbonHeight = 44.0
	barTop       = 11.0
	barHeight    = 20.0
	barBottom    = barTop + barHeight
	hatchBottom  = barBottom + 7
	flagTop      = barBottom + 2
	flagBottom   = ribbonHeight - 1
)

// ribbon is a ribbon while it is drawn.
type ribbon struct {
	RibbonData
	Scene
	unit, top float64 // one design point, and the y of the design's top
}

// Ribbon draws one household on the time axis of Axis(Now, Horizon, w, …).
func Ribbon(data RibbonData, w, h float64) Scene {
	r := &ribbon{RibbonData: data, Scene: Scene{W: w, H: h}}
	if w <= 0 || h <= 0 || data.Horizon <= 0 {
		return r.Scene
	}
	r.unit = math.Min(h/ribbonHeight, 1.5)
	r.top = (h - ribbonHeight*r.unit) / 2
	for _, t := range Ticks(data.Now, data.Horizon) {
		x := r.clamped(r.x(t.At), 1)
		r.add(Line{x, 0, x, h, 1, Rule, 0})
	}
	r.bar()
	for _, o := range data.Outages {
		r.hatching(o)
	}
	r.visits()
	r.notch()
	return r.Scene
}

// x returns where t stands; outside the horizon it lies outside the scene.
func (r *ribbon) x(t time.Time) float64 {
	return float64(t.Sub(r.Now)) / float64(r.Horizon) * r.W
}

func (r *ribbon) y(design float64) float64 { return r.top + design*r.unit }

func (r *ribbon) clip(x float64) float64 { return math.Max(0, math.Min(x, r.W)) }

func (r *ribbon) bar() {
	switch {
	case r.Hollow:
		r.hollowBar()
	case r.Low.IsZero() || r.Mid.IsZero() || r.High.IsZero():
		if r.Unknown {
			r.edge(0, r.W, 4)
		}
	case !r.High.After(r.Now):
		r.add(r.piece(0, math.Min(3*r.unit, r.W), Alarm, 0, 0))
	default:
		r.gasBar()
	}
}

// gasBar is solid to the safe end, then fades over the middle to the far end.
func (r *ribbon) gasBar() {
	low, mid, high := r.x(r.Low), r.x(r.Mid), r.x(r.High)
	solid, half, gone := 0.0, 0.45, 0.92
	if r.Unknown {
		solid, half, gone = 0.70, 0.85, 0.96
	}
	r.fading(0, low, solid, solid)
	r.fading(math.Max(low, 0), mid, solid, half)
	r.fading(math.Max(mid, 0), high, half, gone)
	if r.Unknown {
		r.edge(0, high, 4)
	}
}

// fading adds the part of one stretch of the bar that is in sight.
func (r *ribbon) fading(from, to, fade, fadeTo float64) {
	end := r.clip(to)
	if end <= from {
		return
	}
	r.add(r.piece(from, end, Gas, fade, fade+(fadeTo-fade)*(end-from)/(to-from)))
}

func (r *ribbon) piece(from, to float64, ink Ink, fade, fadeTo float64) Bar {
	return Bar{X: from, Y: r.y(barTop), W: to - from, H: barHeight * r.unit, Ink: ink, Fade: fade, FadeTo: fadeTo}
}

// hollowBar is an outline to the safe end of the cover, dashed to its far end,
// with a short stroke at its middle.
func (r *ribbon) hollowBar() {
	low, high := r.x(r.Now.Add(r.CoverLow)), r.x(r.Now.Add(r.CoverHigh))
	if r.clip(high) > r.clip(low) {
		r.edge(r.clip(low), high, 3)
	}
	if mid := r.x(r.Now.Add(r.CoverMid)); mid > r.clip(low) && mid < r.clip(high) {
		r.add(Line{mid, r.y(barTop + 6), mid, r.y(barBottom - 6), 1.2 * r.unit, Outline, 0})
	}
	if r.Unknown {
		r.edge(0, low, 4)
		return
	}
	r.edge(0, low, 0)
}

func (r *ribbon) edge(from, to, dash float64) {
	end := r.clip(to)
	if end <= from {
		return
	}
	ink := Outline
	if r.Unknown {
		ink = Unsure
	}
	in := 0.6 * r.unit // keeps the centred line inside the scene
	r.add(Frame{
		X: from + in, Y: r.y(barTop) + in, W: math.Max(end-from-2*in, 0), H: barHeight*r.unit - 2*in,
		Width: 1.2 * r.unit, Ink: ink, Dash: dash * r.unit,
	})
}
