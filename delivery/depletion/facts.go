package depletion

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"lungwort/inventory/gas"
)

// order returns the flow in force, or what is seen where none is ordered.
func (h Household) order() gas.Flow {
	return cmp.Or(h.Flow, h.ObservedFlow, h.HighFlow)
}

// highest returns the highest credible flow.
func (h Household) highest() gas.Flow { return max(h.Flow, h.HighFlow, h.ObservedFlow) }

// unusable says in a sentence why nothing can be computed; empty: it can.
func (h Household) unusable(l Limits) string {
	switch {
	case h.Pulse:
		return "The device gives pulses, and a pulse setting is not a flow in L/min. Without the device's bolus and a breath rate there is no prediction"
	case h.order() == 0:
		return "No flow is ordered and none was observed. Ask for the order"
	case !isFlow(h.Flow) || !isFlow(h.HighFlow) || !isFlow(h.ObservedFlow):
		return fmt.Sprintf("A flow is not between %s and %s. Check the order", slowest, fastest)
	case !(h.HoursPerDay >= 0 && h.HoursPerDay <= 24):
		return fmt.Sprintf("%g hours a day do not fit in a day. Check the order", h.HoursPerDay)
	case !(l.WithoutOxygen > 0 && l.WithoutOxygen < 1):
		return "The programme's limit for being without oxygen must lie between 0 and 100 %. Set it again"
	}
	return ""
}

// A flow under slowest is below the finest flow meter for infants, one over
// fastest beyond any in a home: a slip of the pen.
const (
	slowest gas.Flow = 0.001
	fastest gas.Flow = 60
)

func isFlow(f gas.Flow) bool { return f == 0 || f >= slowest && f <= fastest }

// stock is the gas that can be counted on. What is not known is not counted.
type stock struct {
	start    time.Time     // when the clock starts: the reading of the cylinder used first
	gas      gas.Litres    // down to gauge zero
	first    gas.Litres    // of it, in the cylinder used first
	err      gas.Litres    // standard error of gas by the reading of gauges
	planning gas.Litres    // above the reserve, by the smaller method
	minutes  int           // planning minutes at the highest credible flow
	closed   float64       // days since they were read, of the closed cylinders together; near empty they count less
	counted  int           // cylinders
	newest   time.Duration // age of the newest reading counted
	oldest   time.Duration
	notes    []string // what was left out
	doubt    string   // why the verdict is unknown although numbers stand
}

// count adds up the cylinders whose readings can be relied on.
func (h Household) count(l Limits, p priors) stock {
	s := stock{start: h.Now}
	first := h.usedFirst()
	for i, c := range h.Cylinders {
		why := h.doubts(c, i == first && h.Source == OnCylinder)
		if why == "" {
			in, err := s.add(c, h.highest(), l, p)
			if err == nil {
				s.aged(h.Now.Sub(c.ReadAt))
				if i == first || first < 0 && s.counted == 1 {
					s.start, s.first = c.since(), in
				}
				if i != first {
					s.closed += h.Now.Sub(c.ReadAt).Hours() / 24 * math.Min(1, float64(in)/(lossIn*p.lostFor*float64(h.order())))
				}
				continue
			}
			why = err.Error()
		}
		s.notes = append(s.notes, "not counted: "+why)
		if i == first {
			s.doubt = capital(why)
		}
	}
	switch {
	case h.Source != OnCylinder && h.Source != OnConcentrator:
		s.doubt = "It is not known whether the person breathes from a cylinder or the concentrator. Ask"
	case h.Source == OnConcentrator && h.ValveOpen:
		s.doubt = "The concentrator runs, yet the valve of a cylinder is recorded as open. Ask"
	case h.Source == OnCylinder && len(h.Cylinders) == 0:
		s.doubt = "The person breathes from a cylinder, but none is recorded in the home. Ask"
	case s.counted == 0 && len(h.Cylinders) > 0:
		s.doubt = capital(strings.TrimPrefix(s.notes[0], "not counted: "))
	}
	return s
}

func capital(sentence string) string { return strings.ToUpper(sentence[:1]) + sentence[1:] }

// usedFirst returns the place of the cylinder the person breathes from; -1
// while a concentrator runs.
func (h Household) usedFirst() int {
	if h.Source == OnConcentrator {
		return -1
	}
	for i, c := range h.Cylinders {
		if c.InUse {
			return i
		}
	}
	return 0
}

// doubts says why the reading of c cannot be relied on; empty: it can.
func (h Household) doubts(c Cylinder, breathed bool) string {
	age, limit := h.Now.Sub(c.ReadAt), h.ShutLimit
	if breathed {
		limit = h.OpenLimit
	}
	switch {
	case !c.Known:
		return fmt.Sprintf("the %s has no gauge reading. Ask for one", c.Size.Code)
	case age < 0:
		return fmt.Sprintf("the reading of the %s lies %s ahead. Ask when it was taken", c.Size.Code, inWords(-age))
	case limit > 0 && age > limit:
		return fmt.Sprintf("the reading of the %s is %s old, older than the limit of %s. Ask for a new one",
			c.Size.Code, inWords(age), inWords(limit))
	}
	return ""
}

// add counts a cylinder in and returns the litres in it.
func (s *stock) add(c Cylinder, flow gas.Flow, l Limits, p priors) (gas.Litres, error) {
	t := Warmth(c.Temperature, l.Temperature)
	plan, err := gas.PlanMinutes(c.Size, c.Gauge, l.Reserve, flow, t)
	if err != nil {
		return 0, err
	}
	usable := plan.Methods[0].Litres
	for _, m := range plan.Methods {
		usable = min(usable, m.Litres)
	}
	in := c.Size.ContentsAt(c.Gauge, t)
	s.planning += usable
	s.minutes += plan.Minutes
	s.gas += in
	// Near empty the error shrinks with the gas, so that a cylinder more never
	// makes the low end earlier.
	s.err = gas.Litres(math.Hypot(float64(s.err), float64(min(in/2, inGas(p.gaugeError, c.Size)))))
	s.counted++
	return in, nil
}

// Warmth returns the temperature noted with a reading, else the usual one.
func Warmth(noted *gas.Celsius, usual gas.Celsius) gas.Celsius {
	if noted != nil {
		return *noted
	}
	return usual
}

// aged takes note of the age of a reading counted in.
func (s *stock) aged(age time.Duration) {
	if s.counted == 1 {
		s.newest = age
	}
	s.newest, s.oldest = min(s.newest, age), max(s.oldest, age)
}

// inGas returns the litres by which an error of the gauge moves the contents.
func inGas(err gas.Pressure, s gas.Size) gas.Litres {
	return s.Contents * gas.Litres(err/s.Service)
}
