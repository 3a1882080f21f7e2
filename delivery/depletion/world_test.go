package depletion

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"time"

	"lungwort/inventory/gas"
)

// world is an independent simulator of what people do with their oxygen. It
// shares no formula with the forecast but the contents of a cylinder: it
// follows each home minute by minute through walks, pauses, leaks, misread
// gauges, wrong dials and forgotten valves. Its numbers are invented, and were
// set before the forecast was fitted to any home of it.
type world struct {
	turnedUp   float64 // share who stay at the flow for exertion
	halfMore   float64 // share who turn up by 0.5 L/min on their own
	misset     float64 // share whose dial stands one mark off, 0.5 L/min either way
	rationing  float64 // share who turn down by a quarter once half is gone
	walking    float64 // mean share of the time at the flow for exertion
	pausing    float64 // mean share of the time with the valve closed
	regulator  float64 // standard deviation of the flow a regulator gives
	leaking    float64 // share with a leak of 2 to 15 % of the flow
	forgetting float64 // chance of a day on which the valve is not closed for the hours off
	restless   float64 // share who take no pause although the order allows it

	misseen     float64 // share of observed flows noted 0.5 L/min too high
	gaugeError  float64 // psi
	misread     float64 // share of gauges read 500 psi off, either way
	missed      float64 // share of readings that were never taken
	fill        float64 // standard deviation of contents
	cold        float64 // standard deviation of temperature, °C
	thermometer float64 // share of readings that note the temperature

	leftOpen  float64 // share of backups whose valve was left open
	seeping   float64 // share of closed cylinders that seep 10 to 60 psi a day
	borrowing float64 // unrecorded uses of a backup, a month

	failures  float64 // of power or machine, a year
	hoursDown float64 // median of a failure
	called    float64 // share of announced outages and trips that come about
	overrun   float64 // standard deviation of the logarithm of their length against what was said
}

var (
	ordinary = world{
		turnedUp: 0.05, halfMore: 0.03, misset: 0.02, rationing: 0.06, walking: 0.08, pausing: 0.05,
		regulator: 0.05, leaking: 0.05, forgetting: 0.1, restless: 0.2,
		misseen: 0.1, gaugeError: 30, misread: 0.012, missed: 0.15, fill: 0.015, cold: 4, thermometer: 0.2,
		leftOpen: 0.005, seeping: 0.03, borrowing: 0.7,
		failures: 3, hoursDown: 6, called: 0.9, overrun: 0.3,
	}
	// shifted is a hard winter in another programme: more leaks, worse
	// reading, more walking about at the higher flow, power slower to return.
	shifted = world{
		turnedUp: 0.10, halfMore: 0.08, misset: 0.04, rationing: 0.12, walking: 0.14, pausing: 0.02,
		regulator: 0.08, leaking: 0.12, forgetting: 0.2, restless: 0.35,
		misseen: 0.2, gaugeError: 60, misread: 0.02, missed: 0.3, fill: 0.03, cold: 8, thermometer: 0.1,
		leftOpen: 0.01, seeping: 0.06, borrowing: 1.4,
		failures: 6, hoursDown: 10, called: 0.95, overrun: 0.5,
	}
)

// person is what the programme does not know of a simulated person.
type person struct {
	rest, exertion    float64 // L/min through the regulator and its leak
	walking, pausing  float64 // shares of the time
	sleepsFrom        int     // minute of the day at which the hours off begin
	hoursOff, forgets float64
	savesBelow        float64 // litres under which the person turns down
}

// home draws the order and the cylinders.
func (w world) home(r *rand.Rand) (Household, gas.Celsius) {
	codes := []gas.SizeCode{"US-D", "US-E", "US-E", "US-E", "US-M60"}
	h := Household{Now: night, Flow: gas.Flow([]float64{1, 1.5, 2, 2, 3, 4}[r.IntN(6)])}
	h.HighFlow = h.Flow + gas.Flow(r.IntN(3))
	s, _ := gas.LookUp(codes[r.IntN(len(codes))])
	for i := range 1 + r.IntN(3) {
		h.Cylinders = append(h.Cylinders, Cylinder{Size: s, Known: true, InUse: i == 0})
	}
	h.HoursPerDay = []float64{24, 16, 18, 20}[r.IntN(4)]
	return h, gas.Celsius(math.Max(0, math.Min(40, 21+w.cold*r.NormFloat64())))
}

// person draws habits, and tells the household what a visitor may observe.
func (w world) person(r *rand.Rand, h *Household) person {
	rest, exertion := float64(h.Flow), float64(h.HighFlow)
	switch u := r.Float64(); {
	case u < w.turnedUp:
		rest = exertion
	case u < w.turnedUp+w.halfMore:
		rest += 0.5
	case u < w.turnedUp+w.halfMore+w.misset:
		rest += []float64{-0.5, 0.5}[r.IntN(2)]
	}
	if r.Float64() < 0.2 {
		h.ObservedFlow = gas.Flow(rest)
		if r.Float64() < w.misseen {
			h.ObservedFlow += 0.5
		}
		h.HighFlow = max(h.HighFlow, h.ObservedFlow)
	}
	gives := 1 + w.regulator*r.NormFloat64()
	if r.Float64() < w.leaking {
		gives += 0.02 + 0.13*r.Float64()
	}
	p := person{rest: rest * gives, exertion: math.Max(rest, exertion) * gives, forgets: w.forgetting,
		walking: w.walking * r.ExpFloat64(), pausing: w.pausing * r.ExpFloat64()}
	p.walking, p.pausing = math.Min(p.walking, 0.5), math.Min(p.pausing, 0.3)
	if !h.ValveOpen && r.Float64() >= w.restless {
		p.hoursOff = 24 - h.HoursPerDay
		p.sleepsFrom = 240 + r.IntN(1200)
	}
	return p
}

// gauge draws what the gauge really stands at: the first cylinder is part
// used, the others are as filled.
func (w world) gauge(r *rand.Rand, place int, s gas.Size) gas.Pressure {
	if place > 0 {
		return s.Service * gas.Pressure(0.9+0.1*r.Float64())
	}
	return s.Service * gas.Pressure(0.2+0.8*r.Float64())
}

// contents returns the litres really there.
func (w world) contents(r *rand.Rand, s gas.Size, gauge gas.Pressure, t gas.Celsius) float64 {
	return float64(s.ContentsAt(gauge, t)) * (1 + w.fill*r.NormFloat64())
}

// read returns what a person writes down: to the next 50 psi, sometimes two
// marks off.
func (w world) read(r *rand.Rand, gauge gas.Pressure, s gas.Size) gas.Pressure {
	psi := gauge.PSI() + w.gaugeError*r.NormFloat64()
	if r.Float64() < w.misread {
		psi += []float64{-500, 500}[r.IntN(2)]
	}
	psi = 50 * math.Round(psi/50)
	return gas.PSI(math.Max(50, math.Min(psi, 1.1*s.Service.PSI())))
}

// noted returns the temperature as written beside a reading; nil: it was not.
func (w world) noted(r *rand.Rand, t gas.Celsius) *gas.Celsius {
	if r.Float64() >= w.thermometer {
		return nil
	}
	written := gas.Celsius(math.Round(float64(t) + r.NormFloat64()))
	return &written
}

// lost returns the litres that left a closed cylinder in so many minutes: it
// seeps, is borrowed without a word, or was never closed.
func (w world) lost(r *rand.Rand, s gas.Size, p person, minutes float64) float64 {
	days := minutes / minutesPerDay
	var litres float64
	if r.Float64() < w.seeping {
		litres += (10 + 50*r.Float64()) * days / s.Service.PSI() * float64(s.Contents)
	}
	for at := r.ExpFloat64() / w.borrowing; at < days/30; at += r.ExpFloat64() / w.borrowing {
		litres += p.rest * (5 + 40*r.ExpFloat64())
	}
	return litres
}

// empties returns after how many minutes the litres are gone.
func (p person) empties(r *rand.Rand, litres float64) int {
	p.savesBelow = math.Min(p.savesBelow, litres)
	now := p.begin(r)
	minute := 0
	for ; litres > 0; minute++ {
		used := now.minute(r, minute)
		if litres < p.savesBelow {
			used *= 0.75
		}
		litres -= used
	}
	return minute
}

// uses returns the litres used in minutes.
func (p person) uses(r *rand.Rand, minutes int) float64 {
	now := p.begin(r)
	var litres float64
	for minute := range minutes {
		litres += now.minute(r, minute)
	}
	return litres
}

// doing is a person at rest, walking, or with the valve closed, until a minute.
type doing struct {
	person
	flow   float64
	until  int
	awake  bool // the valve is not closed for the hours off of this day
	nights int
}

func (p person) begin(r *rand.Rand) *doing { return &doing{person: p, flow: p.rest, nights: -1} }

// minute returns the litres used in the next minute.
func (d *doing) minute(r *rand.Rand, minute int) float64 {
	if d.hoursOff > 0 && d.resting(r, minute) {
		return 0
	}
	if minute >= d.until {
		d.next(r, minute)
	}
	return d.flow
}

func (d *doing) resting(r *rand.Rand, minute int) bool {
	since := minute - d.sleepsFrom + minutesPerDay
	if float64(since%minutesPerDay) >= d.hoursOff*60 {
		return false
	}
	if tonight := since / minutesPerDay; tonight != d.nights {
		d.nights, d.awake = tonight, r.Float64() < d.forgets
	}
	return !d.awake
}

func (d *doing) next(r *rand.Rand, minute int) {
	const spell = 12.0 // minutes, mean
	d.until = minute + 1 + int(spell*r.ExpFloat64())
	switch u := r.Float64(); {
	case u < d.walking:
		d.flow = d.exertion
	case u < d.walking+d.pausing:
		d.flow = 0
	default:
		d.flow = d.rest
	}
}

// drawn returns n homes, each from its own dice, so that it does not matter
// in which order or on how many cores they are drawn.
func drawn[H any](seed uint64, n int, draw func(*rand.Rand) H) []H {
	homes := make([]H, n)
	onAllCores(n, func(i int) {
		var key [32]byte
		binary.LittleEndian.PutUint64(key[:], seed)
		binary.LittleEndian.PutUint64(key[8:], uint64(i))
		homes[i] = draw(rand.New(rand.NewChaCha8(key)))
	})
	return homes
}

// lived is a simulated household: what the programme knows, and when the
// person first was without oxygen; zero: not within the days followed.
type lived struct {
	Household
	without time.Time
}

// by says whether the person was without oxygen before t.
func (l lived) by(t time.Time) bool { return !l.without.IsZero() && l.without.Before(t) }
