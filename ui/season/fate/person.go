package fate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// Exit is how a person's time on oxygen at home ends.
type Exit string

// The exits.
const (
	Recovers Exit = "recovered"
	Readmits Exit = "readmitted"
	Dies     Exit = "died"
	Leaves   Exit = "moved away"
)

// Span is a stretch of time.
type Span struct{ From, Until time.Time }

// Trip is a way out of the house on the cylinder.
type Trip struct {
	After    time.Duration // the discharge
	Lasts    time.Duration
	Foretold bool
}

// Person is somebody who goes home on oxygen, as they really are. All times but
// the wish count from the discharge, so that one who is held back lives the
// same life later.
type Person struct {
	N                     int
	Family, Given, Born   string
	Record, Phone, Street string
	Town, Line            string
	Point                 delivery.Point

	Wants          time.Time // the ward wants to send them home
	Dawdles        time.Duration
	Flow, Exertion gas.Flow // ordered
	CylinderOnly   bool     // no mains power at home

	Needs  time.Duration // how long oxygen is needed
	Exit   Exit
	Untold time.Duration // so long after the need ended supply still hears nothing
	Away   time.Duration // in hospital, of one who is readmitted; zero: does not come home on oxygen
	Pace   float64       // what really flows, as a share of the order
	Tells  gas.Flow      // the flow they say they are at
	Saves  bool          // turns the flow down once half is gone
	Fault  time.Duration // after the discharge the machine stops; zero: it does not
	Trips  []Trip
}

var (
	families = []string{"Sayle", "Harrow", "Rowan", "Tavener", "Nance", "Quist", "Zane", "Inkpen", "Idris", "Balloch", "Morven", "Marr", "Pascoe",
		"Eddoway", "Hesketh", "Elvery", "Corvane", "Okefor", "Ferrand", "Caskie", "Larkin", "Dalby", "Uddin", "Varga", "Wexel", "Yarrow"}
	given = []string{"Nils", "Kit", "Torvald", "Hedda", "Petra", "Wynn", "Elio", "Yara", "Osric", "Marten", "Fatou", "Quill", "Isolde", "Perrin",
		"Dilys", "Jens", "Ivo", "Runa", "Tobin", "Orla", "Amaro", "Brid", "Cato", "Edda", "Faro", "Gwil", "Una"}
	streets = []string{"Limpet Row", "Slip House", "Brine Street", "Pier Head", "Heron Close", "Kelp Street", "Net Loft Lane", "Chapel Steps"}
)

// draw draws the nth person, who wants to go home at a time.
func (s Seed) draw(n int, wants time.Time) Person {
	r := s.Dice("person", n)
	p := Person{
		N: n, Wants: wants, Family: families[r.IntN(len(families))], Given: given[r.IntN(len(given))],
		Born:   time.Date(1930, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n*23%25000).Format(time.DateOnly),
		Record: fmt.Sprintf("%07d", 60000+37*n), Phone: fmt.Sprintf("555-01%02d", n%100),
	}
	p.settle(r)
	p.order(r)
	p.habits(r)
	p.course(r)
	return p
}

// settle draws the home.
func (p *Person) settle(r *rand.Rand) {
	weights := make([]float64, len(districts))
	for i, d := range districts {
		weights[i] = d.share
	}
	d := districts[choose(r, weights...)]
	p.Town, p.Line, p.Point = d.town, d.line, d.point
	p.Point.Lat += 0.006 * (2*r.Float64() - 1)
	p.Point.Lon += 0.008 * (2*r.Float64() - 1)
	p.Street = fmt.Sprintf("%s %d", streets[r.IntN(len(streets))], 1+r.IntN(60))
	p.CylinderOnly = r.Float64() < cylinderOnly
}

// order draws the flow: most are ordered 1 or 2 L/min.
func (p *Person) order(r *rand.Rand) {
	p.Flow = []gas.Flow{1, 1.5, 2, 3, 4}[choose(r, 0.35, 0.15, 0.35, 0.1, 0.05)]
	if r.Float64() < 0.3 && p.Flow < 4 {
		p.Exertion = p.Flow + 1
	}
	if p.CylinderOnly {
		p.Flow, p.Exertion = min(p.Flow, 2), 0
	}
}

// habits draws how the person really uses oxygen: some turn it up for good, the
// regulator gives a little more or less, some tubing leaks.
func (p *Person) habits(r *rand.Rand) {
	set := float64(p.Flow)
	switch u := r.Float64(); {
	case u < 0.05 && p.Exertion > 0:
		set = float64(p.Exertion)
	case u < 0.08:
		set += 0.5
	}
	p.Tells = gas.Flow(set)
	walking := math.Min(0.5, 0.08*r.ExpFloat64())
	top := math.Max(set, float64(p.Exertion))
	gives := 1 + 0.05*r.NormFloat64()
	if r.Float64() < 0.05 {
		gives += 0.02 + 0.13*r.Float64()
	}
	p.Pace = gives * (set + walking*(top-set)) / float64(p.Flow)
	p.Saves = r.Float64() < saves
}

// course draws how long oxygen is needed, how that ends, and what goes wrong
// meanwhile.
func (p *Person) course(r *rand.Rand) {
	p.Needs = days(max(0.5, about(r, needMedian, needSpread)))
	p.Dawdles = minutes(10 * r.ExpFloat64())
	if r.Float64() < 0.1 { // the ride is late; in one report it took two hours to come
		p.Dawdles += minutes(30 + 90*r.Float64())
	}
	p.Exit = []Exit{Recovers, Readmits, Dies, Leaves}[choose(r, 1-readmitted-dies-movesAway, readmitted, dies, movesAway)]
	if p.Exit != Recovers { // it happens on some day before
		p.Needs = days(max(0.5, p.Needs.Hours()/24*r.Float64()))
	}
	if p.Exit == Readmits && r.Float64() < 0.6 {
		p.Away = days(2 + 5*r.Float64())
	}
	if p.Exit == Recovers && r.Float64() < stopsUntold {
		p.Untold = days(1 + 6*r.ExpFloat64())
	}
	if at := days(r.ExpFloat64() / machineFails); at < p.Needs && !p.CylinderOnly {
		p.Fault = at
	}
	if p.CylinderOnly {
		return
	}
	for at := 2 + r.ExpFloat64()/trips; at < p.Needs.Hours()/24; at += 0.5 + r.ExpFloat64()/trips {
		morning := math.Floor(at)*24*60 + float64(r.IntN(6*60))
		p.Trips = append(p.Trips, Trip{minutes(morning), minutes(60 * min(8, about(r, tripMedian, 0.5))), r.Float64() < tripForetold})
	}
}
