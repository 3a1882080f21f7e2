package scene

import (
	"math"
	"time"
)

// RoundsData is the day's rounds side by side on one time axis.
type RoundsData struct {
	Now, From, To time.Time
	Lanes         []Lane
}

// Lane is one vehicle's round.
type Lane struct {
	Name, Below  string
	Leaves, Back time.Time // both zero: nothing to do
	Ends         time.Time // of the shift
	Wrong        bool      // overloaded, or past the shift
	Blocks       []Block
	Rests        []Rest
}

// Rest is a break of the driver.
type Rest struct{ From, Until time.Time }

// Block is one stop on a round.
type Block struct {
	Key, Label   string
	From, To     time.Time
	Opens, Shuts time.Time // the door, where it is not open all day
	ActBy        time.Time // zero: nobody waits for gas
	Load         float64   // the fullest of the vehicle's limits on leaving, 1 is full
	Late         bool
	Locked       bool
	Fixed        bool // under way
	InHand       bool
	Carried      bool
}

// The measures of the picture, in points.
const (
	laneName  = 112.0
	axisHigh  = 22.0
	leastLane = 34.0
	mostLane  = 54.0
	// leastBlock is as wide as its number.
	leastBlock = 13.0
)

// RoundsHeight returns how high the picture of so many lanes is at its best.
func RoundsHeight(lanes int) float64 { return axisHigh + mostLane*float64(max(lanes, 1)) }

// LaneAt returns which lane and what time lie at a place of the picture. False
// beside the lanes.
func (d RoundsData) LaneAt(x, y, w, h float64) (lane int, at time.Time, ok bool) {
	high := d.lane(h)
	lane = int((y - axisHigh) / high)
	share := (x - laneName) / (w - laneName)
	if y < axisHigh || lane >= len(d.Lanes) || share < 0 || share > 1 {
		return 0, time.Time{}, false
	}
	return lane, d.From.Add(time.Duration(share * float64(d.To.Sub(d.From)))), true
}

func (d RoundsData) lane(h float64) float64 {
	return math.Max(leastLane, math.Min(mostLane, (h-axisHigh)/float64(max(len(d.Lanes), 1))))
}

// Rounds draws the rounds as timelines: rides as lines, stops as blocks with
// their number, the door under a block that it binds, act-by as a notch above.
// Behind stands how full the vehicle is.
func Rounds(d RoundsData, w, h float64) Scene {
	r := rounds{RoundsData: d, Scene: Scene{W: w, H: h}}
	if w <= laneName+40 || h < axisHigh+leastLane || !d.To.After(d.From) {
		return r.Scene
	}
	r.axis()
	high := d.lane(h)
	for i, lane := range d.Lanes {
		top := axisHigh + float64(i)*high
		if top+high > h+0.01 {
			break
		}
		r.draw(lane, top, high)
	}
	return r.Scene
}

type rounds struct {
	RoundsData
	Scene
}

// axis labels the hours, with a line down through now.
func (r *rounds) axis() {
	const size = 11.0
	free := laneName
	if now := r.x(r.Now); !r.Now.Before(r.From) && now < r.W-1 {
		half := Width("now", size, true) / 2
		at := math.Max(laneName+half, math.Min(now, r.W-half))
		r.add(Words{X: at, Y: axisHigh - 6, Size: size, Bold: true, Align: Middle, Text: "now", Ink: Text}, Line{now, axisHigh, now, r.H, 1, Faint, 3})
		free = at + half + 8
	}
	for _, t := range Ticks(r.From, r.To.Sub(r.From)) {
		x, half := r.x(t.At), Width(t.Label, size, false)/2
		if x-half < free || x+half > r.W {
			continue
		}
		r.add(Line{x, axisHigh - 3, x, axisHigh, 1, Rule, 0}, Words{X: x, Y: axisHigh - 6, Size: size, Align: Middle, Text: t.Label, Ink: Faint})
		free = x + half + 8
	}
}

// x is where an instant lies, kept inside the picture.
func (r *rounds) x(t time.Time) float64 {
	share := float64(t.Sub(r.From)) / float64(r.To.Sub(r.From))
	return laneName + math.Max(0, math.Min(1, share))*(r.W-laneName)
}

func (r *rounds) draw(l Lane, top, high float64) {
	middle := top + high*0.55
	ink := Text
	if l.Wrong {
		ink = Alarm
	}
	r.add(Line{0, top + 0.5, r.W, top + 0.5, 1, Rule, 0},
		Words{X: 6, Y: top + high*0.45, Size: 12, Bold: true, Text: fit(l.Name, 12, true), Ink: ink},
		Words{X: 6, Y: top + high*0.45 + 13, Size: 10, Text: fit(l.Below, 10, false), Ink: Faint})
	if !l.Ends.IsZero() && l.Ends.Before(r.To) {
		x := r.x(l.Ends)
		r.add(Bar{X: x, Y: top + 1, W: r.W - x, H: high - 1, Ink: Panel})
	}
	if l.Leaves.IsZero() {
		return
	}
	from, back := r.x(l.Leaves), r.x(l.Back)
	r.fullness(l, top, high, back)
	r.add(Line{from, middle, back, middle, 2, ink, 0}, Line{from, middle - 5, from, middle + 5, 2, ink, 0}, Line{back, middle - 5, back, middle + 5, 2, ink, 0})
	for _, rest := range l.Rests {
		r.rest(rest, middle)
	}
	for _, b := range l.Blocks {
		r.block(b, top, high)
	}
}

// rest draws a break as a hollow piece of the way.
func (r *rounds) rest(rest Rest, middle float64) {
	from, until := r.x(rest.From), r.x(rest.Until)
	if until-from < 3 {
		return
	}
	r.add(Bar{X: from, Y: middle - 4, W: until - from, H: 8, Ink: Ground}, Frame{X: from, Y: middle - 4, W: until - from, H: 8, Width: 1.5, Ink: Faint, Dash: 2})
	if Width("break", 9, false) < until-from {
		r.add(Words{X: (from + until) / 2, Y: middle + 3, Size: 9, Align: Middle, Text: "break", Ink: Text})
	}
}

// fit cuts a text to the room for names.
func fit(text string, size float64, bold bool) string {
	for letters := []rune(text); Width(text, size, bold) > laneName-12 && len(letters) > 1; {
		letters = letters[:len(letters)-1]
		text = string(letters) + "…"
	}
	return text
}

// fullness shows along the round how full the vehicle is after each stop.
func (r *rounds) fullness(l Lane, top, high, back float64) {
	for i, b := range l.Blocks {
		from, to := r.x(b.To), back
		if i+1 < len(l.Blocks) {
			to = r.x(l.Blocks[i+1].From)
		}
		tall, ink := math.Min(1, b.Load)*high*0.4, Loan
		if b.Load > 1 {
			ink = Alarm
		}
		if to > from && tall > 0.2 {
			r.add(Bar{X: from, Y: top + high - tall, W: to - from, H: tall, Ink: ink, Fade: 0.75, FadeTo: 0.75})
		}
	}
}

func (r *rounds) block(b Block, top, high float64) {
	left, right := r.x(b.From), r.x(b.To)
	right = math.Min(r.W-1, math.Max(right, left+leastBlock))
	left = math.Min(left, right-leastBlock)
	y, tall := top+high*0.35, high*0.4
	ink := Gas
	switch {
	case b.Late:
		ink = Alarm
	case b.Fixed:
		ink = Loan
	}
	r.door(b, top+high-3)
	if b.Carried {
		r.add(Bar{X: left, Y: y - 3, W: right - left, H: tall, Round: 3, Ink: ink, Fade: 0.45, FadeTo: 0.45},
			Frame{X: left, Y: y - 3, W: right - left, H: tall, Width: 1.5, Ink: Text, Dash: 3})
	} else {
		r.add(Bar{X: left, Y: y, W: right - left, H: tall, Round: 3, Ink: ink})
	}
	if b.InHand {
		r.add(Frame{X: left + 1, Y: y - 4, W: right - left - 2, H: tall + 7, Round: 3, Width: 2, Ink: Outline})
	}
	if b.Locked {
		r.add(Bar{X: left, Y: y + tall, W: right - left, H: 3, Ink: Text})
	}
	label := Ground
	if b.Carried {
		label = Text
	}
	r.add(Words{X: (left + right) / 2, Y: y + tall/2 + 4, Size: 10, Bold: true, Align: Middle, Text: b.Label, Ink: label})
	r.notch(b, top, y)
	r.Spots = append(r.Spots, Spot{X: (left + right) / 2, Y: y + tall/2, R: math.Max(7, (right-left)/2), Key: b.Key})
}

// door draws between which times the home opens, where that binds the day.
func (r *rounds) door(b Block, y float64) {
	if b.Opens.IsZero() || b.Shuts.IsZero() || !b.InHand && !b.Carried {
		return
	}
	from, to := r.x(b.Opens), r.x(b.Shuts)
	if to <= from+1 {
		return
	}
	r.add(Line{from, y, to, y, 2, Fine, 0}, Line{from + 1, y - 4, from + 1, y + 2, 2, Fine, 0}, Line{to - 1, y - 4, to - 1, y + 2, 2, Fine, 0})
}

// notch draws the act-by of a block.
func (r *rounds) notch(b Block, top, y float64) {
	if b.ActBy.IsZero() || b.ActBy.After(r.To) {
		return
	}
	x, ink := math.Max(laneName+5, math.Min(r.W-5, r.x(b.ActBy))), Text
	if b.Late {
		ink = Alarm
	}
	r.add(Polygon{Points: []Point{{x - 4, top + 2}, {x + 4, top + 2}, {x, top + 9}}, Ink: ink})
	if b.InHand || b.Carried {
		r.add(Line{x, top + 9, x, y + 8, 1.5, ink, 0})
	}
	gone := b.ActBy.Before(r.From) // several pile up at the edge: only the one in hand has its number there
	if wide := Width(b.Label, 9, false); x+6+wide < r.W && (!gone || b.InHand || b.Carried) {
		r.add(Words{X: x + 6, Y: top + 10, Size: 9, Text: b.Label, Ink: Faint})
	}
}

// RoundsLeast returns how high the picture of so many lanes is at least.
func RoundsLeast(lanes int) float64 { return axisHigh + leastLane*float64(max(lanes, 1)) }
