package scene

import (
	"math"
	"time"
)

// hatching adds slanted strokes under the bar where the power is out.
func (r *ribbon) hatching(o Span) {
	from, to := 0.0, r.W
	if !o.From.IsZero() {
		from = r.clip(r.x(o.From))
	}
	if !o.To.IsZero() {
		to = r.clip(r.x(o.To))
	}
	r.add(hatch(from, to, r.y(barBottom+2), r.y(hatchBottom), 7*r.unit, r.unit)...)
}

// hatch returns slanted strokes that fill a strip.
func hatch(from, to, top, bottom, pitch, width float64) []Shape {
	var strokes []Shape
	slant := bottom - top
	for x := from; x+slant <= to; x += pitch {
		strokes = append(strokes, Line{x, bottom, x + slant, top, width, Hatch, 0})
	}
	return strokes
}

// bracket returns a level line with an upright at each end; nothing where it
// has no length.
func bracket(from, to, y float64) []Shape {
	if to <= from {
		return nil
	}
	const half = 4
	return []Shape{Line{from, y, to, y, 2, Text, 0}, Line{from, y - half, from, y + half, 2, Text, 0}, Line{to, y - half, to, y + half, 2, Text, 0}}
}

// notch adds the act-by mark: a triangle that points into the bar, and a line
// through it. Gone by, it stands at the left edge in the alarm ink.
func (r *ribbon) notch() {
	if r.ActBy.IsZero() {
		return
	}
	x, ink := r.x(r.ActBy), Text
	if x > r.W {
		r.arrow(r.W, r.y(5.5), 1, ink)
		return
	}
	if x < 0 {
		x, ink = 0, Alarm
	}
	half := 5.5 * r.unit
	left, right := math.Max(x-half, 0), math.Min(x+half, r.W)
	stroke := r.clamped(x, 1.5*r.unit)
	r.add(
		r.halo(stroke),
		Polygon{Points: []Point{{left, r.y(2)}, {right, r.y(2)}, {x, r.y(barTop)}}, Ink: ink},
		Line{stroke, r.y(4), stroke, r.y(barBottom), 1.5 * r.unit, ink, 0},
	)
}

// visits adds a flag for every planned visit.
func (r *ribbon) visits() {
	for i, at := range r.Visits {
		if at.IsZero() {
			continue
		}
		ink := Text
		if i == 0 && Late(at, r.ActBy) {
			ink = Alarm
		}
		r.flag(at, ink)
	}
}

// Late reports whether help at the given time comes after act-by. Without an
// act-by nothing is late.
func Late(help, actBy time.Time) bool {
	return !actBy.IsZero() && help.After(actBy)
}

// flag adds a pole through the bar and a pennant under it. A visit outside the
// horizon is an arrow at the edge beyond which it lies.
func (r *ribbon) flag(at time.Time, ink Ink) {
	x := r.x(at)
	if x > r.W {
		r.arrow(r.W, r.y((flagTop+flagBottom)/2), 1, ink)
		return
	}
	if x < 0 {
		r.arrow(0, r.y((flagTop+flagBottom)/2), -1, ink)
		return
	}
	fly := 15 * r.unit
	if x+fly > r.W {
		fly = -fly
	}
	pole := r.clamped(x, 1.8*r.unit)
	r.add(
		r.halo(pole),
		Line{pole, r.y(barTop - 4), pole, r.y(flagBottom), 1.8 * r.unit, ink, 0},
		Polygon{Points: []Point{{x, r.y(flagTop)}, {r.clip(x + fly), r.y((flagTop + flagBottom) / 2)}, {x, r.y(flagBottom)}}, Ink: ink},
	)
}

// arrow adds a small arrow head at the edge x that points out of the scene:
// right when way is 1, left when it is -1.
func (r *ribbon) arrow(x, y, way float64, ink Ink) {
	long, half := 8*r.unit, 4.5*r.unit
	back := r.clip(x - way*long)
	r.add(Polygon{Points: []Point{{back, y - half}, {x, y}, {back, y + half}}, Ink: ink})
}

// halo is the stroke of ground that sets an upright at x off from the bar.
func (r *ribbon) halo(x float64) Line {
	x = r.clamped(x, 4*r.unit)
	return Line{x, r.y(barTop), x, r.y(barBottom), 4 * r.unit, Ground, 0}
}

// clamped returns x moved in so far that an upright stroke of the given width
// lies inside the scene.
func (r *ribbon) clamped(x, width float64) float64 {
	return math.Max(width/2, math.Min(x, r.W-width/2))
}
