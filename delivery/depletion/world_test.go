package depletion

import (
	"math"
	"math/rand/v2"
	"time"

	"lungwort/inventory/gas"
)

// world is an independent simulator of what people do with a cylinder. It
// shares no formula with the forecast but the contents of a cylinder: it
// follows each home minute by minute through walks, pauses, leaks, misread
// gauges and forgotten valves. Its numbers are invented.
type world struct {
	turnedUp   float64 // share who stay at the flow for exertion
	halfMore   float64 // share who turn up by 0.5 L/min on their own
	rationed   float64 // share who turn down by a quarter to make it last
	walking    float64 // mean share of the time at the flow for exertion
	pausing    float64 // mean share of the time with the valve closed
	regulator  float64 // standard deviation of the flow a regulator gives
	leaking    float64 // share with a leak of 2 to 15 % of the flow
	misseen    float64 // share of observed flows noted 0.5 L/min too high
	gaugeError float64 // psi
	misread    float64 // share of gauges read 500 psi off, either way
	fill       float64 // standard deviation of contents
	cold       float64 // standard deviation of temperature, °C
	leftOpen   float64 // share of backups whose valve was left open
	restless   float64 // share who take no pause although the order allows it
	failures   float64 // of power or machine, a year
	hoursDown  float64
}

var (
	ordinary = world{turnedUp: 0.05, halfMore: 0.03, rationed: 0.04, walking: 0.08, pausing: 0.05,
		regulator: 0.05, leaking: 0.05, misseen: 0.1, gaugeError: 30, misread: 0.012, fill: 0.015, cold: 4,
		leftOpen: 0.005, restless: 0.2, failures: 3, hoursDown: 10}
	// shifted is a hard winter in another programme: more leaks, worse
	// reading, more walking about at the higher flow.
	shifted = world{turnedUp: 0.10, halfMore: 0.08, rationed: 0.08, walking: 0.14, pausing: 0.02,
		regulator: 0.08, leaking: 0.12, misseen: 0.2, gaugeError: 60, misread: 0.02, fill: 0.03, cold: 8,
		leftOpen: 0.015, restless: 0.35, failures: 6, hoursDown: 16}
)

// lived is a simulated household: what the programme knows, and what happened.
type lived struct {
	Household
	dry time.Time
}

// person is what the programme does not know of a simulated person.
type person struct {
	rest, exertion   float64 // L/min through the regulator and its leak
	walking, pausing float64 // shares of the time
	sleepsFrom       int     // minute of the day at which the hours off begin
	hoursOff         float64
}

// onCylinder simulates a person on the cylinder from a reading until dry.
func (w world) onCylinder(r *rand.Rand) lived {
	h, temperature := w.home(r)
	h.Source = OnCylinder
	h.ValveOpen = r.Float64() < 0.8
	p := w.person(r, &h)

	history := 0
	if r.Float64() < 0.4 {
		history = 30 + r.IntN(150)
	}
	var litres float64
	for i, c := range h.Cylinders {
		true := w.gauge(r, i, c.Size)
		litres += w.contents(r, c.Size, true, temperature)
		h.Cylinders[i].Gauge = w.read(r, true, c.Size)
		if i == 0 && history > 0 {
			h.remember(w, r, p, c.Size, true, history, temperature)
		}
	}
	age := time.Duration(r.Float64()*0.3*litres/p.rest) * time.Minute
	h.Now = night
	for i := range h.Cylinders {
		h.Cylinders[i].ReadAt = night.Add(-age)
	}
	return lived{Household: h, dry: night.Add(p.empties(r, litres) - age)}
}

// remember adds the reading that was taken some minutes before the last one.
func (h *Household) remember(w world, r *rand.Rand, p person, s gas.Size, gauge gas.Pressure, minutes int, t gas.Celsius) {
	p.hoursOff = 0
	before := s.GaugeFor(s.ContentsAt(gauge, t)+gas.Litres(p.uses(r, minutes)), t)
	if before > s.Service {
		return
	}
	h.Uses = append(h.Uses, Use{Size: s, Before: w.read(r, before, s), After: h.Cylinders[0].Gauge,
		Took: time.Duration(minutes) * time.Minute})
}

// home draws the order and the cylinders.
func (w world) home(r *rand.Rand) (Household, gas.Celsius) {
	codes := []gas.SizeCode{"US-D", "US-E", "US-E", "US-E", "US-M60"}
	h := Household{Flow: gas.Flow([]float64{1, 1.5, 2, 2, 3, 4}[r.IntN(6)])}
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
	case u < w.turnedUp+w.halfMore+w.rationed:
		rest *= 0.75
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
	p := person{rest: rest * gives, exertion: math.Max(rest, exertion) * gives,
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

// empties returns how long the litres last from the reading.
func (p person) empties(r *rand.Rand, litres float64) time.Duration {
	now := p.begin(r)
	minute := 0
	for ; litres > 0; minute++ {
		litres -= now.minute(r, minute)
	}
	return time.Duration(minute) * time.Minute
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
	flow  float64
	until int
}

func (p person) begin(r *rand.Rand) *doing { return &doing{person: p, flow: p.rest} }

// minute returns the litres used in the next minute.
func (d *doing) minute(r *rand.Rand, minute int) float64 {
	if d.hoursOff > 0 {
		if since := (minute - d.sleepsFrom%minutesPerDay + minutesPerDay) % minutesPerDay; float64(since) < d.hoursOff*60 {
			return 0
		}
	}
	if minute >= d.until {
		d.next(r, minute)
	}
	return d.flow
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

// calledOn is a simulated home whose concentrator runs, with what happened.
type calledOn struct {
	Household
	without time.Time // when the person first was without oxygen; zero: not within the days followed
}

const daysFollowed = 3

// onConcentrator simulates a home with a backup, announced outages, trips and
// chance failures.
func (w world) onConcentrator(r *rand.Rand) calledOn {
	h, temperature := w.home(r)
	h.Source, h.Now = OnConcentrator, night
	p := w.person(r, &h)
	p.hoursOff = 0
	read := night.Add(-time.Duration(r.IntN(20*minutesPerDay)) * time.Minute)
	var litres float64
	for i, c := range h.Cylinders {
		true := w.gauge(r, i, c.Size)
		in := w.contents(r, c.Size, true, temperature)
		if i == 0 && r.Float64() < w.leftOpen {
			in = math.Max(0, in-p.rest*night.Sub(read).Minutes())
		}
		litres += in
		h.Cylinders[i].Gauge, h.Cylinders[i].ReadAt = w.read(r, true, c.Size), read
	}
	if r.Float64() < 0.6 {
		h.Outages = append(h.Outages, spell(r, 2, 20))
	}
	if r.Float64() < 0.4 {
		h.Trips = append(h.Trips, spell(r, 1, 8))
	}
	return calledOn{Household: h, without: w.calls(r, h, p, litres)}
}

// spell draws a span that begins within the days followed.
func spell(r *rand.Rand, least, most float64) Span {
	from := night.Add(time.Duration(r.IntN(daysFollowed*minutesPerDay)) * time.Minute)
	return Span{from, from.Add(time.Duration((least + (most-least)*r.Float64()) * float64(time.Hour)))}
}

// calls follows the home minute by minute.
func (w world) calls(r *rand.Rand, h Household, p person, litres float64) time.Time {
	now := p.begin(r)
	broken := 0 // minutes until power or machine is back
	for minute := range daysFollowed * minutesPerDay {
		at := night.Add(time.Duration(minute) * time.Minute)
		if r.Float64() < w.failures/(365*minutesPerDay) {
			broken = max(broken, int(60*w.hoursDown*r.ExpFloat64()))
		}
		calling := broken > 0
		broken--
		for _, s := range append(h.Outages[:len(h.Outages):len(h.Outages)], h.Trips...) {
			calling = calling || !at.Before(s.From) && at.Before(s.Until)
		}
		if calling {
			if litres -= now.minute(r, minute); litres <= 0 {
				return at
			}
		}
	}
	return time.Time{}
}
