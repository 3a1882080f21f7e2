package scene

import (
	"fmt"
	"math"
	"time"
)

// MonthData is one figure month by month.
type MonthData struct {
	Unit    string
	Percent bool // the scale runs to 100
	Months  []MonthBar
}

// MonthBar is the figure of one month with its band.
type MonthBar struct {
	Month            time.Time
	Value, Low, High float64
	Cases            int
	Known            bool // the value is; a month without one shows its cases alone
	Few              bool // too few cases to say much: drawn hollow
}

// shownMonths is how many months a chart shows: the last ones.
const shownMonths = 12

// MonthChart draws each month as a bar with the whiskers of its band, and
// under it how many cases it rests on.
func MonthChart(data MonthData, w, h float64) Scene {
	s := Scene{W: w, H: h}
	if n := len(data.Months); n > shownMonths {
		data.Months = data.Months[n-shownMonths:]
	}
	if w < 200 || h < 100 || len(data.Months) == 0 {
		return s
	}
	most := 1.0
	for _, m := range data.Months {
		most = math.Max(most, m.High)
	}
	if data.Percent {
		most = 100
	}
	step := niceStep(most / 4)
	most = step * math.Ceil(most/step-1e-9)
	left, top, bottom := 16+math.Max(Width(thousands(most), chartSize, false), Width("0.25", chartSize, false)), 20.0, h-36
	y := func(v float64) float64 { return bottom - math.Min(v, most)/most*(bottom-top) }
	s.add(Words{X: 2, Y: chartSize + 1, Size: chartSize, Text: Shortened(data.Unit, chartSize, false, w-4), Ink: Faint})
	for i := range int(math.Round(most/step)) + 1 {
		v := float64(i) * step
		s.add(Line{left, y(v), w - 8, y(v), 1, Rule, 0},
			Words{X: left - 6, Y: y(v) + chartSize*0.36, Size: chartSize, Align: Right, Text: thousands(v), Ink: Faint})
	}
	room := math.Min(90, (w-8-left)/float64(len(data.Months)))
	every := int(math.Ceil(Width("Mmm ’00 ", chartSize, false) / room))
	for i, m := range data.Months {
		x := left + (float64(i)+0.5)*room
		s.month(m, x, room, bottom, y)
		if (len(data.Months)-1-i)%every == 0 { // the last month is always named
			s.nameMonth(m, math.Min(x, w-Width("Mmm ’00", chartSize, false)/2-1), bottom)
		}
	}
	return s
}

// month draws one month around x.
func (s *Scene) month(m MonthBar, x, room, bottom float64, y func(float64) float64) {
	wide := math.Min(28, room*0.5)
	if m.Known {
		if m.Few {
			s.add(Frame{X: x - wide/2, Y: y(m.Value), W: wide, H: bottom - y(m.Value), Width: 1, Ink: Gas})
		} else {
			s.add(Bar{X: x - wide/2, Y: y(m.Value), W: wide, H: bottom - y(m.Value), Ink: Gas})
		}
		if m.High > m.Low {
			s.add(Line{x, y(m.Low), x, y(m.High), 1.5, Text, 0}, Line{x - 4, y(m.Low), x + 4, y(m.Low), 1.5, Text, 0}, Line{x - 4, y(m.High), x + 4, y(m.High), 1.5, Text, 0})
		}
	}
}

func (s *Scene) nameMonth(m MonthBar, x, bottom float64) {
	s.add(
		Words{X: x, Y: bottom + 14, Size: chartSize, Align: Middle, Text: m.Month.Format("Jan ’06"), Ink: Text},
		Words{X: x, Y: bottom + 29, Size: chartSize, Align: Middle, Text: fmt.Sprintf("%d", m.Cases), Ink: Faint},
	)
}
