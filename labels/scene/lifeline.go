package scene

import (
	"math"
	"time"
)

// LifeData is the life of one item: its events in order of happening.
type LifeData struct {
	Now     time.Time
	Events  []LifeEvent
	Persons []LifePerson
}

// LifeEvent is one fact on the line.
type LifeEvent struct {
	At       time.Time
	Place    string // where the item was from then on; empty when it did not move
	Says     string // the reading, fill, test or act
	Replaced bool   // corrected by a later fact: its dot stays, hollow and faint
	Key      string // what a click on it opens
}

// LifePerson is the time the item spent with one person. A zero To is still so.
type LifePerson struct {
	From, To time.Time
	Name     string
}

// The life line is designed for this height and centred in any other.
const (
	lifeHeight = 116.0
	lifeSize   = 11.0
	personBase = 12.0 // baselines and heights from its top
	placeBase  = 32.0
	lineAt     = 52.0
	saysBase   = 77.0
	dayBase    = 92.0
	hourBase   = 105.0
	leastGap   = 74.0 // room of one event, wide enough for its day
	lifeMargin = 40.0

	earlierWide = 52.0 // room for the count of the events left out
)

// life is a life line while it is drawn.
type life struct {
	LifeData
	Scene
	top     float64
	earlier int       // events left out
	start   float64   // where the first event stands
	xs      []float64 // where the events stand
	end     float64   // where now stands
}

// LifeLine draws one line through an item's places, with what happened at its
// dots, thick where a person had it. Dots stand apart by the root of the time
// between them, so that a busy morning can be read beside a quiet month; the
// time is written under each. When not all fit, the latest are shown and the
// earlier ones counted.
func LifeLine(data LifeData, w, h float64) Scene {
	l := &life{LifeData: data, Scene: Scene{W: w, H: h}}
	if w < 2*lifeMargin+leastGap || h < lifeHeight || len(data.Events) == 0 {
		return l.Scene
	}
	l.top = (h - lifeHeight) / 2
	l.keepLatest()
	l.spread()
	for _, p := range data.Persons {
		l.person(p)
	}
	l.line()
	for i := range l.Events {
		l.event(i)
	}
	return l.Scene
}

// keepLatest drops the earliest events that do not fit. The last of them
// leaves its place, so that the line still says where it starts.
func (l *life) keepLatest() {
	l.start = lifeMargin
	if room := int((l.W - 2*lifeMargin) / leastGap); room < len(l.Events) {
		l.start = lifeMargin + earlierWide
		l.earlier = len(l.Events) - max(int((l.W-lifeMargin-l.start)/leastGap), 1)
	}
	place := ""
	for _, e := range l.Events[:l.earlier] {
		if e.Place != "" {
			place = e.Place
		}
	}
	l.Events = append([]LifeEvent(nil), l.Events[l.earlier:]...)
	if l.Events[0].Place == "" {
		l.Events[0].Place = place
	}
}

// spread sets where the events and now stand.
func (l *life) spread() {
	roots := make([]float64, len(l.Events)) // of the time after each event
	sum := 0.0
	for i, e := range l.Events {
		next := l.Now
		if i+1 < len(l.Events) {
			next = l.Events[i+1].At
		}
		roots[i] = math.Sqrt(math.Max(next.Sub(e.At).Hours(), 0))
		sum += roots[i]
	}
	free := l.W - lifeMargin - l.start - leastGap*float64(len(l.Events))
	x := l.start
	for i := range l.Events {
		l.xs = append(l.xs, x)
		x += leastGap
		if sum > 0 {
			x += free * roots[i] / sum
		}
	}
	l.end = x
}

// x returns where any time stands, between the dots around it.
func (l *life) x(t time.Time) float64 {
	if t.Before(l.Events[0].At) {
		return l.start - 26
	}
	for i, e := range l.Events {
		next, to := l.Now, l.end
		if i+1 < len(l.Events) {
			next, to = l.Events[i+1].At, l.xs[i+1]
		}
		if t.Before(next) {
			return l.xs[i] + (to-l.xs[i])*float64(t.Sub(e.At))/float64(next.Sub(e.At))
		}
	}
	return l.end
}

// person adds the thick part of the line and the name over it.
func (l *life) person(p LifePerson) {
	from, to := l.x(p.From), l.end
	if !p.To.IsZero() {
		to = l.x(p.To)
	}
	if to <= from {
		return
	}
	name := Shortened(p.Name, lifeSize, true, math.Max(to-from, leastGap))
	l.add(
		Bar{X: from, Y: l.top + lineAt - 7, W: to - from, H: 14, Ink: Loan},
		Bar{X: from, Y: l.top + personBase + 4, W: to - from, H: 3, Ink: Loan},
		Words{X: from, Y: l.top + personBase, Size: lifeSize, Bold: true, Text: name, Ink: Text},
	)
}

func (l *life) line() {
	y := l.top + lineAt
	if l.earlier > 0 {
		l.add(
			Words{X: 2, Y: y + 4, Size: lifeSize, Text: thousands(float64(l.earlier)) + " earlier", Ink: Faint},
			Line{l.start - 26, y, l.start, y, 2.5, Text, 4},
		)
	}
	l.add(
		Line{l.start, y, l.end, y, 2.5, Text, 0},
		Line{l.end, y - 7, l.end, y + 7, 2, Text, 0},
		Words{X: l.end, Y: l.top + saysBase, Size: lifeSize, Bold: true, Align: Middle, Text: "now", Ink: Text},
	)
}

func (l *life) event(i int) {
	e, x, y := l.Events[i], l.xs[i], l.top+lineAt
	ink, ring := Text, Ring{x, y, 6, 2.5, Text, Ground}
	if e.Replaced {
		ink, ring = Faint, Ring{x, y, 5, 1.2, Faint, Ground}
	}
	place := func(e LifeEvent) string { return e.Place }
	says := func(e LifeEvent) string { return e.Says }
	l.add(ring)
	l.write(i, placeBase, true, e.Place, ink, l.room(i, place))
	l.write(i, saysBase, false, e.Says, ink, l.room(i, says))
	l.write(i, dayBase, false, e.At.Format("Mon 2 Jan"), Faint, leastGap)
	l.write(i, hourBase, false, e.At.Format("15:04"), Faint, leastGap)
	l.Spots = append(l.Spots, Spot{x, y, 12, e.Key})
}

func (l *life) write(i int, base float64, bold bool, text string, ink Ink, room float64) {
	if text = Shortened(text, lifeSize, bold, room); text != "" {
		l.add(Words{X: l.xs[i], Y: l.top + base, Size: lifeSize, Bold: bold, Align: Middle, Text: text, Ink: ink})
	}
}

// room returns how wide the words at event i may be, centred on it: to the
// scene's sides, and half way to the next events that have words in that row.
func (l *life) room(i int, words func(LifeEvent) string) float64 {
	room := 2 * math.Min(l.xs[i], l.W-l.xs[i])
	for k, e := range l.Events {
		if k != i && words(e) != "" {
			room = math.Min(room, math.Abs(l.xs[k]-l.xs[i])-8)
		}
	}
	return math.Min(room, l.end-l.xs[i]+leastGap/2-8)
}
