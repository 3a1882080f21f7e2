// Package truth is what is really so in a season: where each thing is and how
// much gas is in it, who breathes from what, and for how long somebody had
// nothing to breathe from. Nobody in the office can look here; they know what
// they are told and what they read.
package truth

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
)

// Item is one thing.
type Item struct {
	ID     inventory.ItemID
	Serial string
	Kind   inventory.Kind
	Size   gas.Size
	Place  inventory.Place
	Litres float64 // in a cylinder, down to zero on the gauge
	Seeps  float64 // litres a day from the closed cylinder
	Open   bool    // its valve was forgotten
	Broken bool
}

// Gauge returns what the gauge of a cylinder really stands at.
func (i *Item) Gauge() gas.Pressure { return i.Size.GaugeFor(gas.Litres(i.Litres), gas.Room) }

// Fill fills a cylinder to a share of its contents.
func (i *Item) Fill(share float64) { i.Litres, i.Open = float64(i.Size.Contents)*share, false }

// Source is what somebody breathes from.
type Source int

// The sources.
const (
	Nothing  Source = iota // no oxygen is needed, or it is not ours
	Machine                // the concentrator
	Cylinder               // the first of the kit with gas in it
)

// Why is the situation in which somebody breathes from the cylinder.
type Why string

// The situations.
const (
	Bridge       Why = "bridge"
	Outage       Why = "outage"
	Fault        Why = "machine failure"
	CylinderOnly Why = "cylinder-only"
	Trip         Why = "trip"
)

// Whys lists the situations.
func Whys() []Why { return []Why{Bridge, Outage, Fault, CylinderOnly, Trip} }

// Kept is what is left of the flow when somebody turns it down to save gas.
const Kept = 0.75

// Home is one person with what is lent to them.
type Home struct {
	fate.Person
	ID      inventory.PersonID
	Address inventory.AddressID
	Kit     []*Item // in the order in which cylinders are used
	Source  Source
	Why     Why
	At      time.Time // they are really at home from then on
	Since   time.Time // everything until then is reckoned
	Over    time.Time // oxygen is not needed since; zero: it is
	Spells  int       // on the cylinder so far

	half  float64 // litres, under which a saver turns down
	Lacks map[Why]float64
	Saved float64 // minutes on less than ordered
}

// Breathe lets the person breathe from something else from now on.
func (h *Home) Breathe(now time.Time, from Source, why Why) {
	h.Reckon(now)
	if from == Cylinder && (h.Source != Cylinder || h.Why != why) {
		h.Spells++
		h.half = h.Gas() / 2
	}
	h.Source, h.Why, h.Over = from, why, time.Time{}
	if from == Nothing {
		h.Over = now
	}
}

// Idle returns for how many days a thing has stood there unused.
func (h *Home) Idle(now time.Time) float64 {
	if h.Over.IsZero() {
		return 0
	}
	return now.Sub(h.Over).Hours() / 24
}

// Reckon lets the time pass until now.
func (h *Home) Reckon(now time.Time) {
	m := now.Sub(h.Since).Minutes()
	if m <= 0 {
		return
	}
	h.Since = now
	used := h.InUse()
	for _, i := range h.Kit {
		if h.Source == Cylinder && i == used || i.Litres <= 0 {
			continue
		}
		i.Litres = max(0, i.Litres-i.Seeps*m/(24*60))
		if i.Open {
			i.Litres = max(0, i.Litres-float64(h.Flow)*m)
		}
	}
	if h.Source == Cylinder {
		h.breathe(m)
	}
}

// breathe takes minutes of use out of the cylinders, one after another. Where
// all are empty the person has nothing.
func (h *Home) breathe(m float64) {
	for m > 1e-9 {
		flow, least := h.flow()
		i := h.InUse()
		if i == nil {
			h.Lacks[h.Why] += m
			return
		}
		take := min(m, min(i.Litres, max(h.Gas()-least, 0))/flow)
		if i.Litres -= take * flow; i.Litres < 1e-6 {
			i.Litres, i.Open = 0, false
		}
		if flow < h.full() {
			h.Saved += take
		}
		m -= max(take, 1e-6)
	}
}

// full is the flow that really goes while nobody saves.
func (h *Home) full() float64 { return float64(h.Flow) * h.Pace }

// flow returns the flow now, and down to how many litres it stays so.
func (h *Home) flow() (flow, least float64) {
	switch {
	case !h.Saves || h.Why == Bridge || h.Why == Trip:
		return h.full(), 0
	case h.Gas() <= h.half+1e-6:
		return h.full() * Kept, 0
	}
	return h.full(), h.half
}

// Saving reports whether the person has turned the flow down.
func (h *Home) Saving() bool {
	flow, _ := h.flow()
	return h.Source == Cylinder && flow < h.full()
}

// Gas returns the litres in the home.
func (h *Home) Gas() float64 {
	var sum float64
	for _, i := range h.Kit {
		sum += i.Litres
	}
	return sum
}

// Until returns when so many litres are left at the pace of now, counted from
// the last reckoning.
func (h *Home) Until(litres float64) time.Time {
	flow, least := h.flow()
	gas, m := h.Gas(), 0.0
	if least > 0 && litres < least {
		m, gas, flow = (gas-least)/flow, least, flow*Kept
	}
	m += max(0, gas-litres) / flow
	return h.Since.Add(time.Duration(m * float64(time.Minute)))
}

// InUse returns the cylinder that is breathed from, or would be; nil where all
// are empty.
func (h *Home) InUse() *Item {
	for _, i := range h.Kit {
		if i.Kind == inventory.Cylinder && i.Litres > 0 {
			return i
		}
	}
	return nil
}

// Concentrator returns the machine of the home; nil where there is none that
// runs.
func (h *Home) Concentrator() *Item {
	for _, i := range h.Kit {
		if i.Kind == inventory.Concentrator && !i.Broken {
			return i
		}
	}
	return nil
}

// Take takes a thing out of the kit.
func (h *Home) Take(i *Item, to inventory.Place) {
	for n, k := range h.Kit {
		if k == i {
			h.Kit = append(h.Kit[:n:n], h.Kit[n+1:]...)
		}
	}
	i.Place, i.Open = to, false
}

// Give puts a thing into the home.
func (h *Home) Give(i *Item) {
	i.Place = inventory.At(inventory.AtAddress, string(h.Address))
	h.Kit = append(h.Kit, i)
}
