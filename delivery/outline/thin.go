package outline

import "math"

// Thin returns the outline with at most so many positions, and by how many
// metres its lines may be off for it. It leaves out what changes a line least
// (Douglas & Peucker, The Canadian Cartographer 10(2), 1973), and little rings
// altogether.
func (o Outline) Thin(most int) (Outline, float64) {
	if o.Size() <= most {
		return o, 0
	}
	for metres := 2.0; ; metres *= 1.6 {
		thin := Outline{
			Land: thinAll(o.Land, metres, 3), Water: thinAll(o.Water, metres, 3),
			Roads: thinAll(o.Roads, metres, 2), Ferries: thinAll(o.Ferries, metres, 2), Towns: o.Towns,
		}
		if len(thin.Towns) > most/4 {
			thin.Towns = thin.Towns[:most/4]
		}
		if thin.Size() <= most || metres > 1e6 {
			return thin, metres
		}
	}
}

func thinAll(lines [][]Position, metres float64, least int) [][]Position {
	var kept [][]Position
	for _, line := range lines {
		if reach(line) < metres {
			continue // smaller than what is left out
		}
		if thin := thinLine(line, metres); len(thin) >= least {
			kept = append(kept, thin)
		}
	}
	return kept
}

const metresPerDegree = 6371008.8 * math.Pi / 180

// reach is the largest distance from a line's first position.
func reach(line []Position) (far float64) {
	for _, p := range line {
		far = math.Max(far, off(p, line[0], line[0]))
	}
	return far
}

// thinLine keeps the ends and, between two kept positions, the one furthest
// off their straight line while it is further off than metres. The stack
// stands for recursion, which a hostile line could drive deep.
func thinLine(line []Position, metres float64) []Position {
	keep := make([]bool, len(line))
	keep[0], keep[len(line)-1] = true, true
	for stack := [][2]int{{0, len(line) - 1}}; len(stack) > 0; {
		from, to := stack[len(stack)-1][0], stack[len(stack)-1][1]
		stack = stack[:len(stack)-1]
		worst, at := metres, -1
		for i := from + 1; i < to; i++ {
			if d := off(line[i], line[from], line[to]); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			stack = append(stack, [2]int{from, at}, [2]int{at, to})
		}
	}
	var thin []Position
	for i, p := range line {
		if keep[i] {
			thin = append(thin, p)
		}
	}
	return thin
}

// off is how far p lies from the stretch between a and b, in metres on a plane
// that touches the earth at a.
func off(p, a, b Position) float64 {
	wide := math.Cos(a.Lat * math.Pi / 180)
	x, y := (p.Lon-a.Lon)*wide, p.Lat-a.Lat
	dx, dy := (b.Lon-a.Lon)*wide, b.Lat-a.Lat
	if long := dx*dx + dy*dy; long > 0 {
		share := math.Max(0, math.Min(1, (x*dx+y*dy)/long))
		x, y = x-share*dx, y-share*dy
	}
	return math.Hypot(x, y) * metresPerDegree
}
