package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Home is everything the forecast of one person rests on.
type Home struct {
	Care    Care
	Address Address
	Cuts    []PowerCut    // that touch the address
	Visit   time.Time     // next planned visit; zero for none
	Nearest time.Duration // how soon help could be there if it left now; zero when unknown
}

// Household returns what the forecast needs to know of the home at now.
func (h Home) Household(p Programme, now time.Time) depletion.Household {
	rest, highest := h.Care.Flow()
	seen, _ := h.Care.Observed()
	d := depletion.Household{
		Now:          now,
		Source:       h.source(),
		Flow:         rest,
		HighFlow:     highest,
		ObservedFlow: seen,
		ValveOpen:    h.Care.Breathes == FromCylinder,
		OpenLimit:    p.ReadingOpen,
		ShutLimit:    p.ReadingShut,
	}
	if h.Care.Order != nil {
		d.Flow = h.Care.Order.atRest()
		d.HoursPerDay = h.Care.Order.Hours
		d.Pulse = h.Care.Order.untold()
	}
	for _, cut := range h.Cuts {
		if h.Care.contact(cut.ID).Found == FoundRunning {
			continue // told: their power is on
		}
		d.Outages = append(d.Outages, depletion.Span{From: cut.From, Until: cut.Until})
	}
	for _, t := range h.Care.Tasks {
		if t.Backup {
			d.BackupDue = t.Due
		}
	}
	d.Trips, d.Tubing = h.Care.trips(), h.Care.Tubing
	d.Cylinders = h.cylinders(p)
	d.Uses = h.Care.uses(p)
	return d
}

func (h Home) source() depletion.Source {
	switch h.Care.Breathes {
	case FromCylinder:
		return depletion.OnCylinder
	case FromConcentrator:
		return depletion.OnConcentrator
	}
	return depletion.Unclear
}

// cylinders returns the cylinders in the home in order of use, each with its
// reading lowered by what was breathed from it in spells that ended since. What
// a spell took beyond the first comes out of the next that was not read since.
func (h Home) cylinders(p Programme) []depletion.Cylinder {
	var all []depletion.Cylinder
	var used gas.Litres
	_, highest := h.Care.Flow()
	for _, held := range h.Care.breathable() {
		size, ok := p.SizeOf(held.Spec)
		if !ok {
			continue
		}
		c := depletion.Cylinder{Size: size, InUse: len(all) == 0}
		if held.Gauge != nil {
			c.Known, c.Gauge, c.ReadAt, c.Temperature = true, held.Gauge.Value, held.Gauge.At, held.Gauge.Temperature
			if h.Care.Breathes == FromCylinder {
				c.OpenedAt = later(h.Care.Switched, held.Opened)
			}
			used += gas.Litres(held.Breathed.Minutes()) * gas.Litres(highest)
			if c.ReadAt.After(h.Care.Switched) {
				used = 0
			}
			if used > 0 {
				t := depletion.Warmth(c.Temperature, gas.Room)
				full := size.ContentsAt(c.Gauge, t)
				c.Gauge = size.GaugeFor(max(0, full-used), t)
				used = max(0, used-full)
			}
		}
		all = append(all, c)
	}
	return all
}

// uses returns what the person's earlier readings show.
func (c Care) uses(p Programme) []depletion.Use {
	var all []depletion.Use
	for _, u := range c.Uses {
		if size, ok := p.SizeOf(inventory.Spec{Kind: inventory.Cylinder, Size: u.Size, Marked: u.Marked}); ok {
			all = append(all, depletion.Use{Size: size, Took: u.Took, Before: u.Before.Value, After: u.After.Value,
				BeforeAt: u.Before.Temperature, AfterAt: u.After.Temperature})
		}
	}
	return all
}

// Forecast returns when the gas of the home ends.
func (h Home) Forecast(p Programme, now time.Time) (depletion.Household, depletion.Forecast) {
	d := h.Household(p, now)
	return d, p.predict(d)
}

// predict forecasts a household within the limits of the programme.
func (p Programme) predict(d depletion.Household) depletion.Forecast {
	return depletion.Predict(d, depletion.Limits{WithoutOxygen: p.Risk, Reserve: p.Reserve, Temperature: gas.Room})
}

// Help returns when help arrives: the planned visit, else the one agreed on,
// else the earliest a vehicle could be there. Where nobody knows the way, the
// programme's careful guess counts.
func (h Home) Help(p Programme, now time.Time) time.Time {
	agreed := h.Care.agreed(now)
	switch {
	case !h.Visit.IsZero():
		return h.Visit
	case !agreed.IsZero():
		return agreed
	case h.Nearest > 0:
		return now.Add(loading + h.Nearest)
	}
	return now.Add(p.HelpWithin)
}

// agreed returns the earliest time still ahead from which gas or a machine is to
// be brought, zero for none: as long as no visit is planned, nobody comes before.
func (c Care) agreed(now time.Time) (first time.Time) {
	for _, t := range c.Tasks {
		brings := t.brings(inventory.Cylinder) || t.brings(inventory.Concentrator) || t.brings(inventory.Vessel)
		if brings && t.From.After(now) && (first.IsZero() || t.From.Before(first)) {
			first = t.From
		}
	}
	return first
}

// gasLine returns what is in the home in words: "2 E 1,400 psi read 15:50".
func (h Home) gasLine(now time.Time) string {
	if liquid := h.Care.LiquidLine(now); liquid != "" {
		return h.cylinderLine(now) + "; " + liquid
	}
	return h.cylinderLine(now)
}

// cylinderLine returns what cylinders are there, with the reading and its age.
func (h Home) cylinderLine(now time.Time) string {
	if r, is := h.Care.Refused(TheBackup, now); is && inUse(h.Care) < 0 {
		return "no backup: refused " + Clock(r.At, now)
	}
	words, seen := h.Care.Gas()
	if seen == nil {
		return words
	}
	return fmt.Sprintf("%s %s %s", words, seen.How(), Clock(seen.At, now))
}

// Gas returns what cylinders are in the home in words, with the gauge of the
// one in use: "2 E 1,400 psi", or "E + 2 D: E 1,400 psi"; and the reading, nil
// where there is none.
func (c Care) Gas() (string, *inventory.Seen[gas.Pressure]) {
	i := inUse(c)
	if i < 0 {
		return "no cylinder", nil
	}
	var sizes []string
	count := make(map[string]int)
	for _, held := range c.Kit {
		if held.Spec.Kind == inventory.Cylinder {
			size := letter(held.Spec.Size)
			if count[size] == 0 {
				sizes = append(sizes, size)
			}
			count[size]++
		}
	}
	for i, size := range sizes {
		if n := count[size]; n > 1 {
			sizes[i] = fmt.Sprintf("%d %s", n, size)
		}
	}
	first, words := c.Kit[i], strings.Join(sizes, " + ")
	if len(sizes) > 1 {
		words += ": " + letter(first.Spec.Size)
	}
	if first.Gauge == nil {
		return words + ", no reading", nil
	}
	return words + " " + first.Gauge.Value.String(), first.Gauge
}

// BackupTask returns the task a home needs when its cover has fallen under
// the programme's backup hours, and whether it needs one now. The due time is
// fixed here, when the low cover is recorded.
func (c Care) BackupTask(p Programme, at time.Time) (Tasked, bool) {
	open := func(t OpenTask) bool { return t.Backup || t.Tasked.Task == Deliver }
	if _, refused := c.Refused(TheBackup, at); refused || c.Phase != Running || slices.ContainsFunc(c.Tasks, open) {
		return Tasked{}, false
	}
	if until, _, known := c.liquid(); known && until.Sub(at) >= p.BackupHours {
		return Tasked{}, false // it needs no mains
	}
	cover, known := c.Cover(p)
	if !known || cover >= p.BackupHours {
		return Tasked{}, false // unknown is asked about, not guessed
	}
	var size gas.SizeCode = "US-E"
	for _, cylinder := range (Home{Care: c}).cylinders(p) {
		size = cylinder.Size.Code
	}
	return Tasked{
		Task:   Swap,
		Backup: true,
		Why:    fmt.Sprintf("backup lasts %s, under %s", Spell(cover), Spell(p.BackupHours)),
		Due:    at.Add(p.BackupWithin),
		Bring:  []Wanted{{Kind: inventory.Cylinder, Size: size, Count: 1}},
	}, true
}

// Cover returns how long the gas in the house lasts at the flow of rest by the
// planning rule, and false when a gauge is not known.
func (c Care) Cover(p Programme) (cover time.Duration, known bool) {
	rest, _ := c.Flow()
	for _, cylinder := range (Home{Care: c}).cylinders(p) {
		if !cylinder.Known {
			return 0, false
		}
		plan, err := gas.PlanMinutes(cylinder.Size, cylinder.Gauge, p.Reserve, rest, depletion.Warmth(cylinder.Temperature, gas.Room))
		if err != nil {
			return 0, false
		}
		cover += time.Duration(plan.Minutes) * time.Minute
	}
	return cover, true
}
