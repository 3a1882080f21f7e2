package depletion

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"time"

	"lungwort/inventory/gas"
)

// onCylinder simulates a person on the cylinder, on the bridge or at home,
// from a reading until dry.
func (w world) onCylinder(r *rand.Rand) lived {
	h, temperature := w.home(r)
	h.Source = OnCylinder
	h.ValveOpen = r.Float64() < 0.8
	p := w.person(r, &h)
	litres := w.filled(r, &h, temperature, p)
	if r.Float64() < w.rationing {
		p.savesBelow = litres / 2
	}
	part := 0.3
	if r.Float64() < w.missed {
		part = 0.7
	}
	age := int(r.Float64() * part * litres / p.rest)
	for i := range h.Cylinders {
		c := &h.Cylinders[i]
		c.ReadAt = c.ReadAt.Add(-time.Duration(age) * time.Minute)
	}
	dry := p.empties(r, litres) - age
	return lived{h, night.Add(time.Duration(dry) * time.Minute)}
}

// filled puts gas into the cylinders, writes down their readings and, of some,
// an earlier one, and returns the litres really there.
func (w world) filled(r *rand.Rand, h *Household, t gas.Celsius, p person) float64 {
	var litres float64
	for i := range h.Cylinders {
		c := &h.Cylinders[i]
		gauge := w.gauge(r, i, c.Size)
		in := w.contents(r, c.Size, gauge, t)
		c.ReadAt = night
		if i > 0 { // as it was brought
			age := 10 * minutesPerDay * r.Float64()
			c.ReadAt = night.Add(-time.Duration(age) * time.Minute)
			in = math.Max(0, in-w.lost(r, c.Size, p, age))
		}
		litres += in
		c.Gauge, c.Temperature = w.read(r, gauge, c.Size), w.noted(r, t)
		if i == 0 && r.Float64() < 0.4 && r.Float64() >= w.missed {
			h.remember(w, r, p, gauge, t)
		}
	}
	return litres
}

// remember adds the reading that was taken some minutes before the last one.
func (h *Household) remember(w world, r *rand.Rand, p person, gauge gas.Pressure, t gas.Celsius) {
	p.hoursOff = 0
	c, minutes := h.Cylinders[0], 30+r.IntN(150)
	before := c.Size.GaugeFor(c.Size.ContentsAt(gauge, t)+gas.Litres(p.uses(r, minutes)), t)
	if before > c.Size.Service {
		return
	}
	h.Uses = append(h.Uses, Use{Size: c.Size, Before: w.read(r, before, c.Size), After: c.Gauge,
		Took: time.Duration(minutes) * time.Minute})
}

const daysFollowed = 3

// onConcentrator simulates a home with a backup read some days ago, announced
// outages, trips and chance failures.
func (w world) onConcentrator(r *rand.Rand) lived {
	h, temperature := w.home(r)
	h.Source = OnConcentrator
	p := w.person(r, &h)
	p.hoursOff = 0
	age := float64(r.IntN(20 * minutesPerDay))
	var litres float64
	for i := range h.Cylinders {
		c := &h.Cylinders[i]
		gauge := w.gauge(r, i, c.Size)
		in := w.contents(r, c.Size, gauge, temperature) - w.lost(r, c.Size, p, age)
		if i == 0 && r.Float64() < w.leftOpen {
			in -= p.rest * age
		}
		litres += math.Max(0, in)
		c.Gauge, c.Temperature = w.read(r, gauge, c.Size), w.noted(r, temperature)
		c.ReadAt = night.Add(-time.Duration(age) * time.Minute)
	}
	var real []Span
	if r.Float64() < 0.6 {
		h.Outages = append(h.Outages, spell(r, 2, 20))
		real = append(real, w.comesTrue(r, h.Outages[0])...)
	}
	if r.Float64() < 0.4 {
		h.Trips = append(h.Trips, spell(r, 1, 8))
		real = append(real, w.comesTrue(r, h.Trips[0])...)
	}
	real = append(real, w.failing(r)...)
	return lived{h, p.calls(r, real, litres)}
}

// spell draws a span that begins within the days followed.
func spell(r *rand.Rand, least, most float64) Span {
	from := night.Add(time.Duration(r.IntN(daysFollowed*minutesPerDay)) * time.Minute)
	return Span{from, from.Add(hours(least + (most-least)*r.Float64()))}
}

// comesTrue returns what becomes of a span that was announced: nothing, or one
// that lasts shorter or longer than was said.
func (w world) comesTrue(r *rand.Rand, said Span) []Span {
	if r.Float64() >= w.called {
		return nil
	}
	lasts := float64(said.Until.Sub(said.From)) * math.Exp(w.overrun*r.NormFloat64())
	return []Span{{said.From, said.From.Add(time.Duration(lasts))}}
}

// failing draws the times without power or machine that nobody foresaw.
func (w world) failing(r *rand.Rand) []Span {
	var all []Span
	between := 365 * 24 / w.failures
	for at := between * r.ExpFloat64(); at < daysFollowed*24; at += between * r.ExpFloat64() {
		from := night.Add(hours(at))
		all = append(all, Span{from, from.Add(hours(w.hoursDown * math.Exp(0.8*r.NormFloat64())))})
	}
	return all
}

// calls follows the home minute by minute and returns when the litres were
// gone while they were needed.
func (p person) calls(r *rand.Rand, real []Span, litres float64) time.Time {
	now := p.begin(r)
	for minute := range daysFollowed * minutesPerDay {
		at := night.Add(time.Duration(minute) * time.Minute)
		calling := func(s Span) bool { return !at.Before(s.From) && at.Before(s.Until) }
		if !slices.ContainsFunc(real, calling) {
			continue
		}
		if litres -= now.minute(r, minute); litres <= 0 {
			return at
		}
	}
	return time.Time{}
}

// onAllCores runs do for each of n homes.
func onAllCores(n int, do func(i int)) {
	var all sync.WaitGroup
	cores := runtime.GOMAXPROCS(0)
	for core := range cores {
		all.Go(func() {
			for i := core; i < n; i += cores {
				do(i)
			}
		})
	}
	all.Wait()
}
