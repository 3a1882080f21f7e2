package paperwork

import (
	"slices"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
)

// How far a gas chart reaches. On the cylinder hours count, else days.
const (
	hoursBack  = 24 * time.Hour
	hoursAhead = 6 * time.Hour
	daysBack   = 14 * 24 * time.Hour
	daysAhead  = 2 * 24 * time.Hour
)

// GasChart returns the picture of the gas in a home over time: what was read,
// what the forecast says is left, act-by and the visits. Facts are the
// person's own, in any order.
func GasChart(w delivery.Watch, facts []inventory.Fact, runs []delivery.Run, p delivery.Programme, now time.Time) scene.ChartData {
	c := scene.ChartData{Now: now, ActBy: w.ActBy(), Readings: houseReadings(w.Care.Person, facts, p)}
	for _, cylinder := range w.Home.Cylinders {
		c.Full += float64(cylinder.Size.Contents)
		c.Reserve += float64(cylinder.Size.ContentsAt(p.Reserve, gas.Room))
	}
	c.Forecast = forecast(w, now)
	c.Visits = visits(w, runs)
	for _, cut := range w.Cuts {
		c.Outages = append(c.Outages, scene.Span{From: cut.From, To: cut.Until})
	}
	for _, t := range w.Care.Trips {
		c.Trips = append(c.Trips, scene.ChartTrip{Span: scene.Span{From: t.From, To: t.Until}, Where: t.Where})
	}
	c.From, c.To = reach(c, w, now)
	return c
}

// GasSheet returns the printed gas of one home: its answer, the chart and the
// same as a table.
func (d Desk) GasSheet(who inventory.PersonID, name string, a delivery.Answer, c scene.ChartData) paper.GasSheet {
	return paper.GasSheet{Head: d.head(d.code(tag.PaperGas, string(who))), Name: name, Verdict: string(a.Verdict), Says: a.Title, Do: a.Do, Chart: c}
}

// visits returns the planned visit, and the later ones of other runs.
func visits(w delivery.Watch, runs []delivery.Run) []scene.ChartVisit {
	var list []scene.ChartVisit
	for _, r := range runs {
		if at, stops := r.Visit(w.Care.Person); stops {
			list = append(list, scene.ChartVisit{At: at, Says: r.Vehicle})
		}
	}
	slices.SortFunc(list, func(a, b scene.ChartVisit) int { return a.At.Compare(b.At) })
	return list
}

// forecast returns the gas counted on from the reading on: falling to the
// three dry times on the cylinder, flat while the concentrator runs and
// nothing is dated to stop it. A forecast that is not known is not drawn.
func forecast(w delivery.Watch, now time.Time) []scene.ChartForecast {
	f, litres := w.Forecast, float64(w.Forecast.Counted)
	switch {
	case !f.Known || litres == 0:
		return nil
	case w.Home.Source == depletion.OnConcentrator:
		return flat(litres, now, firstDated(w, now))
	case !f.High.After(f.Start):
		return nil
	}
	var points []scene.ChartForecast
	for _, at := range []time.Time{f.Start, f.Low, f.Mid, f.High} {
		left := func(dry time.Time) float64 { return litres * share(at, f.Start, dry) }
		points = append(points, scene.ChartForecast{At: at, Low: left(f.Low), Mid: left(f.Mid), High: left(f.High)})
	}
	return points
}

// share returns how much of the gas of start is left at t when all of it is
// gone at dry, from 1 to 0.
func share(t, start, dry time.Time) float64 {
	if !t.Before(dry) {
		return 0
	}
	return float64(dry.Sub(t)) / float64(dry.Sub(start))
}

func flat(litres float64, now, until time.Time) []scene.ChartForecast {
	if !until.After(now) {
		return nil
	}
	return []scene.ChartForecast{
		{At: now, Low: litres, Mid: litres, High: litres},
		{At: until, Low: litres, Mid: litres, High: litres},
	}
}

// firstDated returns when the gas is next needed for a reason that is known: the
// power goes, a trip begins; at most so far ahead as the chart reaches.
func firstDated(w delivery.Watch, now time.Time) time.Time {
	until := now.Add(daysAhead)
	for _, c := range w.Cuts {
		if c.From.Before(until) {
			until = c.From
		}
	}
	for _, t := range w.Care.Trips {
		if t.Until.After(now) && t.From.Before(until) {
			until = t.From
		}
	}
	return until
}

// reach returns the time the chart shows.
func reach(c scene.ChartData, w delivery.Watch, now time.Time) (from, to time.Time) {
	back, ahead := daysBack, daysAhead
	if w.Home.Source == depletion.OnCylinder {
		back, ahead = hoursBack, hoursAhead
	}
	from, to = now, now.Add(ahead)
	for _, r := range c.Readings {
		if r.At.Before(from) && r.At.After(now.Add(-back)) {
			from = r.At
		}
	}
	if n := len(c.Readings); n > 0 && from.Equal(now) {
		from = c.Readings[n-1].At // the last one, however old
	}
	for _, v := range c.Visits {
		to = later(to, v.At)
	}
	if n := len(c.Forecast); n > 0 && w.Home.Source == depletion.OnCylinder {
		to = later(to, c.Forecast[n-1].At)
	}
	const edge = 20 // of the span, left free at both ends
	span := to.Sub(from)
	return from.Add(-span / edge), to.Add(span / edge)
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// house is the gas known to be in a home while its facts are told.
type house struct {
	programme delivery.Programme
	litres    map[inventory.ItemID]float64
	sizes     map[inventory.ItemID]gas.Size
	fresh     bool // cylinders came or went since the last reading
}

// houseReadings returns the amounts read in the home of a person, all
// cylinders together. What was never read is not counted.
func houseReadings(person inventory.PersonID, facts []inventory.Fact, p delivery.Programme) []scene.ChartReading {
	h := house{programme: p, litres: map[inventory.ItemID]float64{}, sizes: map[inventory.ItemID]gas.Size{}, fresh: true}
	var readings []scene.ChartReading
	for _, f := range inventory.Standing(facts) {
		if f.Person != person || f.Item == "" {
			continue
		}
		seen, told := h.hear(f)
		if !seen {
			continue
		}
		r := scene.ChartReading{At: f.Happened, Litres: h.total(), Told: told, Fresh: h.fresh, Key: factKey(f.ID)}
		if n := len(readings); n > 0 && readings[n-1].At.Equal(r.At) {
			r.Fresh = readings[n-1].Fresh || r.Fresh
			readings[n-1] = r
		} else {
			readings = append(readings, r)
		}
		h.fresh = false
	}
	return readings
}

// hear takes a fact in, and reports whether it is a reading that counts.
func (h *house) hear(f inventory.Fact) (seen, told bool) {
	switch s := f.Statement.(type) {
	case *inventory.Lent:
		if size, ok := h.programme.SizeOf(s.Spec); ok && s.Spec.Kind == inventory.Cylinder {
			h.sizes[f.Item], h.fresh = size, true
		}
	case *inventory.Described:
		if size, ok := h.programme.SizeOf(s.Spec); ok && h.sizes[f.Item].Code != "" {
			h.sizes[f.Item], h.fresh = size, true
		}
	case *inventory.Serving:
		if s.As == inventory.NotNeeded {
			h.drop(f.Item)
		}
	case *inventory.Collected, *inventory.Returned, *inventory.Cleared, *inventory.Moved:
		h.drop(f.Item)
	case *inventory.Observed:
		size, here := h.sizes[f.Item]
		if here && s.Gauge != nil {
			h.litres[f.Item] = float64(size.ContentsAt(*s.Gauge, depletion.Warmth(s.Temperature, gas.Room)))
			return true, s.Told
		}
	}
	return false, false
}

func (h *house) drop(id inventory.ItemID) {
	if _, here := h.sizes[id]; here {
		h.fresh = true
	}
	delete(h.sizes, id)
	delete(h.litres, id)
}

func (h *house) total() float64 {
	var sum float64
	for _, l := range h.litres {
		sum += l
	}
	return sum
}

// factKey is what a spot of a picture opens: the fact of a number.
func factKey(id inventory.FactID) string { return strconv.FormatInt(int64(id), 10) }
