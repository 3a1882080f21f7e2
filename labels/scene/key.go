package scene

// keySize is the size of the words in a key.
const keySize = 10.5

// keyRow is one row that explains the signs of a picture, from the left.
type keyRow struct {
	to      *Scene
	x, base float64
}

// say adds a sign, drawn by draw from (x, mid) on and wide points wide, and
// what it means; a pair that does not fit any more is left out.
func (k *keyRow) say(text string, wide float64, draw func(x, mid float64) []Shape) {
	end := k.x + wide + 5 + Width(text, keySize, false)
	if end > k.to.W {
		return
	}
	k.to.add(draw(k.x, k.base-keySize*0.36)...)
	k.to.add(Words{X: k.x + wide + 5, Y: k.base, Size: keySize, Text: text, Ink: Faint})
	k.x = end + 16
}

// RibbonKey explains the signs of the ribbon in one row.
func RibbonKey(w, h float64) Scene {
	s := Scene{W: w, H: h}
	const least = 14
	if h < least {
		return s
	}
	k := keyRow{&s, 0, h/2 + keySize*0.36}
	k.say("gas, safe end to far end", 36, func(x, mid float64) []Shape {
		return []Shape{
			Bar{X: x, Y: mid - 5, W: 14, H: 10, Ink: Gas},
			Bar{X: x + 14, Y: mid - 5, W: 22, H: 10, Ink: Gas, FadeTo: 0.92},
		}
	})
	k.say("act by", 11, func(x, mid float64) []Shape {
		return []Shape{Polygon{Points: []Point{{x, mid - 5}, {x + 11, mid - 5}, {x + 5.5, mid + 5}}, Ink: Text}}
	})
	k.say("visit", 13, func(x, mid float64) []Shape { return pennant(x, mid, Text) })
	k.say("visit too late", 13, func(x, mid float64) []Shape { return pennant(x, mid, Alarm) })
	k.say("power out", 28, func(x, mid float64) []Shape { return hatch(x, x+28, mid-4, mid+4, 7, 1) })
	k.say("cover if the concentrator stopped now", 26, func(x, mid float64) []Shape {
		return []Shape{Frame{X: x + 0.6, Y: mid - 5, W: 25, H: 10, Width: 1.2, Ink: Outline}}
	})
	k.say("not sure", 26, func(x, mid float64) []Shape {
		return []Shape{Frame{X: x + 0.6, Y: mid - 5, W: 25, H: 10, Width: 1.2, Ink: Unsure, Dash: 3}}
	})
	return s
}

func pennant(x, mid float64, ink Ink) []Shape {
	return []Shape{
		Line{x + 1, mid - 5, x + 1, mid + 6, 1.5, ink, 0},
		Polygon{Points: []Point{{x + 1, mid - 5}, {x + 13, mid - 1}, {x + 1, mid + 3}}, Ink: ink},
	}
}
