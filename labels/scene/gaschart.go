package scene

import (
	"math"
	"strconv"
	"time"
)

// ChartData is the gas in one house over time. Amounts are litres at 70 °F and
// 14.696 psia; a zero time means none.
type ChartData struct {
	From, Now, To time.Time // the chart runs from From to To; Now lies between
	Full          float64   // what the house holds full; 0 lets the readings set the scale
	Reserve       float64   // what the planning leaves in the cylinders; 0 draws none
	Readings      []ChartReading
	Forecast      []ChartForecast // in order of time, from now or the last reading on
	ActBy         time.Time
	Visits        []ChartVisit // the first is the help that counts against act-by
	Outages       []Span
	Trips         []ChartTrip // away from home on the cylinder
	Hint          string      // beside the unit, for the screen: the key that shows a table; opens as Spot HintKey
}

// HintKey is the key of the spot on the hint.
const HintKey = "hint"

// ChartReading is one observed amount.
type ChartReading struct {
	At     time.Time
	Litres float64
	Told   bool   // told by phone, not read by us
	Fresh  bool   // gas arrived before it: no line leads here
	Key    string // what a click on it opens
}

// ChartForecast is the gas left at one time: its 1, 50 and 99 % points, so Low
// is the safe end.
type ChartForecast struct {
	At             time.Time
	Low, Mid, High float64
}

// ChartVisit is a planned visit and what it is called.
type ChartVisit struct {
	At   time.Time
	Says string
}

// ChartTrip is the time somebody is away on the cylinder, and where.
type ChartTrip struct {
	Span
	Where string
}

// chart is a gas chart while it is drawn.
type chart struct {
	ChartData
	Scene
	left, right, top, bottom float64 // the plot's edges
	most                     float64 // litres at the plot's top
	taken                    crowd
	labels                   []Words // of the marks, written last
}

const (
	chartSize  = 10.5 // words
	markLane   = 15.0 // height of one row of mark labels over the plot
	markLanes  = 3
	axisHeight = 20.0
	keyHeight  = 20.0
)

// GasChart draws readings as dots joined by a line, the forecast as gas that
// fades from its safe end over its middle to its far end, act-by as a notch,
// visits as flags, hatching where the power is out, and a bracket for a trip.
func GasChart(data ChartData, w, h float64) Scene {
	c := &chart{ChartData: data, Scene: Scene{W: w, H: h}}
	span := data.To.Sub(data.From)
	if w < 160 || h < 140 || span <= 0 {
		return c.Scene
	}
	c.most = c.topLitres()
	c.left = 14 + Width(thousands(c.most), chartSize, false)
	c.right, c.top, c.bottom = w-14, markLane*markLanes+6, h-axisHeight-keyHeight
	c.amounts()
	c.times()
	for _, o := range data.Outages {
		c.hatching(o)
	}
	for _, t := range data.Trips {
		from, to := c.within(t.Span)
		c.add(bracket(from, to, c.bottom-13)...)
	}
	c.reserve()
	c.forecast()
	c.readings()
	c.marks()
	c.key()
	c.hint()
	return c.Scene
}

// hint puts a spot on the first sign of the hint, after those of the readings.
func (c *chart) hint() {
	if c.Hint == "" {
		return
	}
	x := 2 + Width("litres at 70 °F   ", chartSize, false)
	c.Spots = append(c.Spots, Spot{x + Width(c.Hint[:1], chartSize, false)/2, chartSize * 0.66, 5, HintKey})
}

func (c *chart) x(t time.Time) float64 {
	return c.left + float64(t.Sub(c.From))/float64(c.To.Sub(c.From))*(c.right-c.left)
}

func (c *chart) y(litres float64) float64 {
	share := math.Max(0, math.Min(litres/c.most, 1))
	return c.bottom - share*(c.bottom-c.top)
}

func (c *chart) shows(t time.Time) bool { return !t.Before(c.From) && !t.After(c.To) }

// topLitres returns the round amount at the top of the scale.
func (c *chart) topLitres() float64 {
	most := c.Full
	for _, r := range c.Readings {
		most = math.Max(most, r.Litres)
	}
	for _, f := range c.Forecast {
		most = math.Max(most, f.High)
	}
	if !(most > 0) || math.IsInf(most, 0) {
		most = 100
	}
	step := niceStep(most / 4)
	return step * math.Ceil(most/step-1e-9)
}

func (c *chart) amounts() {
	step := niceStep(c.most / 4)
	for i := 0; float64(i)*step <= c.most*(1+1e-9); i++ {
		litres := float64(i) * step
		y := c.y(litres)
		c.add(
			Line{c.left, y, c.right, y, 1, Rule, 0},
			Words{X: c.left - 8, Y: y + chartSize*0.36, Size: chartSize, Align: Right, Text: thousands(litres), Ink: Faint},
		)
	}
	unit := "litres at 70 °F"
	if c.Hint != "" {
		unit += "   " + c.Hint
	}
	c.add(Words{X: 2, Y: chartSize, Size: chartSize, Text: unit, Ink: Faint})
	c.taken.take(box{0, 0, 2 + Width(unit, chartSize, false) + 8, markLane})
}

// times labels the time axis; "now" comes first and keeps its room.
func (c *chart) times() {
	base := c.bottom + 14
	var row crowd
	if c.shows(c.Now) {
		x := c.x(c.Now)
		c.add(Line{x, c.top, x, c.bottom, 1, Faint, 3})
		row.put(&c.Scene, Words{X: x, Y: base, Size: chartSize, Bold: true, Align: Middle, Text: "now", Ink: Text})
	}
	for _, t := range Ticks(c.From, c.To.Sub(c.From)) {
		x, ink := c.x(t.At), Faint
		if t.Day {
			ink = Text
		}
		c.add(Line{x, c.bottom, x, c.bottom + 3, 1, Faint, 0})
		row.put(&c.Scene, Words{X: x, Y: base, Size: chartSize, Bold: t.Day, Align: Middle, Text: t.Label, Ink: ink})
	}
}

func (c *chart) hatching(o Span) {
	from, to := c.within(o)
	c.add(hatch(from, to, c.bottom-9, c.bottom-1, 8, 1)...)
}

// within returns where a stretch of time begins and ends on the plot.
func (c *chart) within(s Span) (from, to float64) {
	from, to = c.left, c.right
	if !s.From.IsZero() {
		from = math.Max(from, c.x(s.From))
	}
	if !s.To.IsZero() {
		to = math.Min(to, c.x(s.To))
	}
	return from, to
}

func (c *chart) showsReserve() bool { return c.Reserve > 0 && c.Reserve < c.most }

func (c *chart) reserve() {
	if !c.showsReserve() {
		return
	}
	y := c.y(c.Reserve)
	c.add(Line{c.left, y, c.right, y, 1, Caution, 5})
}

// niceStep returns the smallest of 1, 2, 5 times a power of ten that is not
// under the given step.
func niceStep(step float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(step)))
	for _, times := range []float64{1, 2, 5} {
		if times*power >= step*(1-1e-9) {
			return times * power
		}
	}
	return 10 * power
}

// thousands writes a whole amount with commas between the thousands, and a
// small one with the digits it needs.
func thousands(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
	}
	s := strconv.FormatFloat(math.Round(v), 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
