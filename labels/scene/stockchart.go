package scene

import (
	"fmt"
	"math"
	"time"
)

// StockData is one kind of thing over the coming days: how many will be ready
// at the end of each.
type StockData struct {
	Now   time.Time
	Ready int // now
	Days  []StockDay
	Limit float64 // chance of running short that is accepted
}

// StockDay is the end of one day.
type StockDay struct {
	Day            time.Time
	Low, Mid, High float64 // ready: 5 % point, mean, 95 % point; under zero is what is short
	Short          float64 // chance that not all of what was wanted was there
}

// stockChart is a stock chart while it is drawn.
type stockChart struct {
	StockData
	Scene
	left, right, top, bottom float64
	most, least, step        float64
}

// StockChart draws what is ready as a band around its mean, what is short under
// a line at zero, and under each day the chance of running short.
func StockChart(data StockData, w, h float64) Scene {
	c := &stockChart{StockData: data, Scene: Scene{W: w, H: h}}
	if w < 200 || h < 120 || len(data.Days) == 0 {
		return c.Scene
	}
	c.scale()
	c.left, c.right = 14+Width(thousands(math.Max(c.most, -c.least))+"-", chartSize, false), w-12
	c.top, c.bottom = 22, h-38
	c.amounts()
	c.band(0, math.Inf(1), Gas)
	c.band(math.Inf(-1), 0, Alarm)
	c.middle()
	c.days()
	return c.Scene
}

func (c *stockChart) scale() {
	c.most = math.Max(1, float64(c.Ready))
	for _, d := range c.Days {
		c.most, c.least = math.Max(c.most, d.High), math.Min(c.least, d.Low)
	}
	c.step = math.Max(1, niceStep((c.most-c.least)/4)) // things are counted whole
	c.most, c.least = c.step*math.Ceil(c.most/c.step-1e-9), c.step*math.Floor(c.least/c.step+1e-9)
}

// x returns where so many days from now stand.
func (c *stockChart) x(days int) float64 {
	return c.left + float64(days)/float64(len(c.Days))*(c.right-c.left)
}

func (c *stockChart) y(n float64) float64 {
	return c.bottom - (n-c.least)/(c.most-c.least)*(c.bottom-c.top)
}

func (c *stockChart) amounts() {
	for i := range int(math.Round((c.most-c.least)/c.step)) + 1 {
		n := c.least + float64(i)*c.step
		y, ink, width := c.y(n), Rule, 1.0
		if math.Abs(n) < c.step/2 {
			n, ink, width = 0, Text, 1.5
		}
		text := thousands(math.Abs(n))
		if n < 0 {
			text = "−" + text
		}
		c.add(Line{c.left, y, c.right, y, width, ink, 0},
			Words{X: c.left - 6, Y: y + chartSize*0.36, Size: chartSize, Align: Right, Text: text, Ink: Faint})
	}
	c.add(Words{X: 2, Y: chartSize + 1, Size: chartSize, Ink: Faint, Text: Shortened("ready at the end of the day: mean and 90 % band", chartSize, false, c.W-4)})
}

// band draws the part of the band between two amounts.
func (c *stockChart) band(from, to float64, ink Ink) {
	inside := func(n float64) float64 { return c.y(math.Max(from, math.Min(n, to))) }
	begin := inside(float64(c.Ready))
	points := []Point{{c.x(0), begin}}
	for i, d := range c.Days {
		points = append(points, Point{c.x(i + 1), inside(d.High)})
	}
	for i := len(c.Days) - 1; i >= 0; i-- {
		points = append(points, Point{c.x(i + 1), inside(c.Days[i].Low)})
	}
	c.add(Polygon{Points: points, Ink: ink, Fade: 0.6})
}

func (c *stockChart) middle() {
	x, y := c.x(0), c.y(float64(c.Ready))
	for i, d := range c.Days {
		nx, ny := c.x(i+1), c.y(d.Mid)
		ink := Gas
		if d.Mid < 0 {
			ink = Alarm
		}
		c.add(Line{x, y, nx, ny, 2, ink, 0})
		x, y = nx, ny
	}
}

// days names each day with its chance; what is over the limit stands out.
func (c *stockChart) days() {
	c.add(Words{X: 2, Y: c.bottom + 30, Size: chartSize, Text: "short", Ink: Faint})
	every := 1
	for (c.x(every) - c.x(0)) < Width("Wed 29 ", chartSize, false) {
		every++
	}
	for i, d := range c.Days {
		x := (c.x(i) + c.x(i+1)) / 2
		c.add(Line{c.x(i + 1), c.bottom, c.x(i + 1), c.bottom + 3, 1, Faint, 0})
		if i%every != 0 {
			continue
		}
		ink, bold := Faint, false
		if d.Short > c.Limit {
			ink, bold = Alarm, true
		}
		c.add(
			Words{X: x, Y: c.bottom + 14, Size: chartSize, Align: Middle, Text: d.Day.Format("Mon 2"), Ink: Text},
			Words{X: x, Y: c.bottom + 30, Size: chartSize, Bold: bold, Align: Middle, Text: fmt.Sprintf("%.0f %%", 100*d.Short), Ink: ink},
		)
	}
}
