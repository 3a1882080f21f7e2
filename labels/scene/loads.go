package scene

import (
	"fmt"
	"math"
)

// LoadsData is what a vehicle has on board along one round, dimension by
// dimension.
type LoadsData struct {
	Steps  []string // "leaves", then the numbers of the stops
	InHand int      // which step is in hand; -1 for none
	Lines  []LoadLine
}

// LoadLine is one dimension.
type LoadLine struct {
	Name   string  // "kg of cylinders"
	Values []int64 // on board on leaving each step
	Limit  int64   // zero: none
}

// The measures of the picture, in points.
const (
	loadHead  = 20.0
	leastLoad = 30.0
)

// LoadsLeast returns how high the picture of so many dimensions is at least.
func LoadsLeast(lines int) float64 { return loadHead + leastLoad*float64(lines) }

// Loads draws the load along a round: a column a step, a band a dimension, its
// limit as a line across. What is over the limit is alarming.
func Loads(d LoadsData, w, h float64) Scene {
	s := Scene{W: w, H: h}
	if w <= laneName+40 || len(d.Steps) == 0 || h < LoadsLeast(len(d.Lines)) {
		return s
	}
	column := (w - laneName) / float64(len(d.Steps))
	for i, step := range d.Steps {
		middle := laneName + (float64(i)+0.5)*column
		if Width(step, 11, true) < column {
			s.add(Words{X: middle, Y: 14, Size: 11, Bold: i == d.InHand, Align: Middle, Text: step, Ink: Faint})
		}
	}
	high := math.Min(64, (h-loadHead)/float64(len(d.Lines)))
	for i, line := range d.Lines {
		s.load(line, d.InHand, loadHead+float64(i)*high, high, column)
	}
	return s
}

func (s *Scene) load(l LoadLine, inHand int, top, high, column float64) {
	most := l.Limit
	for _, v := range l.Values {
		most = max(most, v)
	}
	room, foot := high-12, top+high-2
	s.add(Line{0, top + 0.5, s.W, top + 0.5, 1, Rule, 0},
		Words{X: 6, Y: top + high*0.5, Size: 12, Bold: true, Text: fit(l.Name, 12, true), Ink: Text})
	if l.Limit > 0 {
		s.add(Words{X: 6, Y: top + high*0.5 + 12, Size: 10, Text: fmt.Sprintf("at most %d", l.Limit), Ink: Faint})
	}
	for i, v := range l.Values {
		left, tall, ink := laneName+float64(i)*column, 0.0, Loan
		if most > 0 {
			tall = float64(v) / float64(most) * room
		}
		if l.Limit > 0 && v > l.Limit {
			ink = Alarm
		}
		s.add(Bar{X: left + 2, Y: foot - tall, W: column - 4, H: tall, Ink: ink, Fade: 0.45, FadeTo: 0.45})
		if i == inHand {
			s.add(Frame{X: left + 1, Y: top + 2, W: column - 2, H: high - 3, Width: 1.5, Ink: Outline})
		}
		if text := fmt.Sprint(v); Width(text, 10, false) < column-4 {
			s.add(Words{X: left + column/2, Y: foot - 4, Size: 10, Align: Middle, Text: text, Ink: Text})
		}
	}
	if l.Limit > 0 {
		y := foot - float64(l.Limit)/float64(most)*room
		s.add(Line{laneName, y, s.W, y, 1.5, Text, 3})
	}
}
