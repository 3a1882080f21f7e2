package delivery

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// OutagePlan is what a power cut, under way or announced, does to the homes it
// touches: who runs out when, what it takes to carry them through, who must go
// where power is, and whom to call next.
type OutagePlan struct {
	At    time.Time
	Cut   PowerCut
	Hours time.Duration // power is counted out for so long from Begins on
	Homes []OutageHome  // in the order of the calls
	Sizes []OutageSize  // what the homes need against what is ready
}

// OutageHome is one home in a power cut.
type OutageHome struct {
	Watch
	Contact CutContact

	Flow  gas.Flow      // the highest credible: the gas is counted at it
	Cover time.Duration // planning time from Begins on, the reserve kept
	Known bool          // false: nobody can say how long the gas lasts
	Ends  time.Time     // when the planning time ends; zero when not known
	// SavedEnds is when it ends at the flow the person turned down to; zero
	// when they did not.
	SavedEnds time.Time

	Size     gas.SizeCode // of what could be brought
	Need     int          // cylinders of that size that carry the home through
	Lack     int          // of them, those that no ready cylinder is left for
	Relocate bool         // cylinders can't carry it
	Refuge   Refuge       // where power is then, the nearest; no name: nobody knows
	NoBackup bool         // no cylinder of ours is there
	State    depletion.Verdict
	NextCall time.Time
}

// OutageSize is one size of cylinder: needed by the homes, and ready.
type OutageSize struct {
	Size  gas.SizeCode
	Need  int
	Ready int
}

// Short returns how many cylinders are lacking.
func (s OutageSize) Short() int { return max(0, s.Need-s.Ready) }

// roomLimit is how much gas may stand in one place before a room for it is
// asked for: 300 cubic feet, 12 E, in NFPA 99 (2012), 11.3, for health care
// buildings. For homes the local fire code decides; here it marks where
// bringing cylinders stops making sense.
const roomLimit gas.Litres = 300 * 28.3168

// unseen is the size that is brought where the book knows no size in the home.
const unseen gas.SizeCode = "US-E"

// Begins returns from when on the homes live off their cylinders: the begin of
// the cut, or now when it is under way.
func (o OutagePlan) Begins() time.Time { return later(o.At, o.Cut.From) }

// Out reports whether power is out now.
func (o OutagePlan) Out() bool { return !o.Cut.From.After(o.At) }

// PlanOutage answers a power cut: rows are the watch rows of every home on
// oxygen, ready are the cylinders that could be sent, by size. Hours count
// where the end of the cut is not known.
func PlanOutage(p Programme, cut PowerCut, hours time.Duration, rows []Watch, ready map[gas.SizeCode]int, at time.Time) OutagePlan {
	o := OutagePlan{At: at, Cut: cut, Hours: hours}
	if !cut.Until.IsZero() {
		o.Hours = max(0, cut.Until.Sub(o.Begins()))
	}
	for _, w := range rows {
		if cut.Touches(w.Address) {
			o.Homes = append(o.Homes, o.home(p, w))
		}
	}
	slices.SortStableFunc(o.Homes, byEnd)
	o.share(ready)
	slices.SortStableFunc(o.Homes, func(a, b OutageHome) int {
		return cmp.Or(a.NextCall.Compare(b.NextCall), byEnd(a, b))
	})
	return o
}

// byEnd puts first whose gas ends first; not known stands with the shortest.
func byEnd(a, b OutageHome) int {
	return cmp.Or(a.Ends.Compare(b.Ends), cmp.Compare(b.Flow, a.Flow), cmp.Compare(a.Person.Name(), b.Person.Name()), cmp.Compare(a.Person.ID, b.Person.ID))
}

func (o OutagePlan) home(p Programme, w Watch) OutageHome {
	h := OutageHome{Watch: w, Contact: w.Care.contact(o.Cut.ID), Known: w.Forecast.Known || w.Care.outlasts(o.At), Size: unseen}
	_, h.Flow = w.Care.Flow()
	i := inUse(w.Care)
	if h.NoBackup = i < 0; !h.NoBackup {
		h.Size = w.Care.Kit[i].Spec.Size
	}
	h.Cover, h.Ends, h.SavedEnds = o.covered(h)
	h.State = o.judge(p, h)
	h.Need, h.Relocate = o.need(p, h)
	h.NextCall = o.nextCall(h)
	if places := p.Refuges(w.Address.Point, o.At); h.Relocate && len(places) > 0 {
		h.Refuge = places[0]
	}
	return h
}

// covered returns the planning time of the gas in the home, when it ends, and
// when it ends at the flow the person turned down to.
func (o OutagePlan) covered(h OutageHome) (cover time.Duration, ends, saved time.Time) {
	if !h.Known || !(h.Flow > 0) {
		return 0, time.Time{}, time.Time{}
	}
	liquid, _, _ := h.Care.liquid()
	at := func(flow gas.Flow) time.Duration {
		return time.Duration(math.Floor(float64(h.Forecast.Litres/gas.Litres(flow))+1e-6)) * time.Minute
	}
	cover = at(h.Flow)
	begins := o.Begins()
	if h.Care.Breathes == FromCylinder {
		begins = o.At // the gas is in use already
	}
	from := later(begins, liquid) // a vessel needs no mains: the cylinders come after it
	if seen := h.Contact.Flow; h.Contact.Found == FoundSaving && seen != nil && *seen > 0 {
		saved = from.Add(at(*seen))
	}
	ends = from.Add(cover)
	return ends.Sub(begins), ends, saved
}

// judge says in one word how the home comes through.
func (o OutagePlan) judge(p Programme, h OutageHome) depletion.Verdict {
	through := o.Begins().Add(o.Hours)
	switch {
	case h.Contact.Found == FoundRunning:
		return depletion.Holds
	case !h.Known:
		return depletion.Unknown
	case o.Out() && h.Cover == 0:
		return depletion.Dry
	case !h.Ends.Before(o.Begins().Add(time.Duration(p.Margin * float64(o.Hours)))):
		return depletion.Holds
	case !h.Ends.Before(through), !h.Visit.IsZero() && h.Visit.After(o.At) && h.Visit.Before(h.Ends):
		return depletion.Tight
	}
	return depletion.Short
}

// need returns how many full cylinders carry the home through, and whether
// that is more than a home can take in.
func (o OutagePlan) need(p Programme, h OutageHome) (count int, relocate bool) {
	size, ok := p.Sizes.LookUp(h.Size)
	if !ok || !(h.Flow > 0) || h.Contact.Found == FoundRunning {
		return 0, false
	}
	full, err := gas.PlanMinutes(size, size.Service, p.Reserve, h.Flow, gas.Room)
	if err != nil {
		return 0, false
	}
	lacking := o.Hours
	if h.Known {
		lacking = o.Begins().Add(o.Hours).Sub(h.Ends)
	}
	if lacking <= 0 {
		return 0, false
	}
	if full.Minutes == 0 {
		return 0, true
	}
	count = int(math.Ceil(lacking.Minutes() / float64(full.Minutes)))
	return count, gas.Litres(count)*size.Contents+h.Forecast.Counted > roomLimit
}

// The pace of the calls: common practice, no source.
const (
	callAgain   = 10 * time.Minute // after no answer, and the least time between calls
	callAtLeast = 4 * time.Hour
	lookInAfter = 2 // calls without an answer
)

// nextCall returns when to call next: now who was not reached in this cut,
// then when half of the gas left is gone.
func (o OutagePlan) nextCall(h OutageHome) time.Time {
	c := h.Contact
	switch {
	case c.At.IsZero():
		return o.At
	case c.Tried > 0:
		return c.At.Add(callAgain)
	case c.Found == FoundRunning || !h.Known:
		return c.At.Add(callAtLeast)
	}
	return c.At.Add(min(callAtLeast, max(callAgain, h.Ends.Sub(c.At)/2)))
}

// Unreachable reports whether nobody answered so often that somebody must
// look in.
func (h OutageHome) Unreachable() bool { return h.Contact.Tried >= lookInAfter }

// share deals the ready cylinders out, first to whose gas ends first, and
// counts what is needed by size. Who must go where power is gets none.
func (o *OutagePlan) share(ready map[gas.SizeCode]int) {
	left := make(map[gas.SizeCode]int, len(ready))
	at := make(map[gas.SizeCode]int)
	for _, size := range slices.Sorted(maps.Keys(ready)) {
		at[size], left[size] = len(o.Sizes), ready[size]
		o.Sizes = append(o.Sizes, OutageSize{Size: size, Ready: ready[size]})
	}
	for i := range o.Homes {
		h := &o.Homes[i]
		if h.Need == 0 || h.Relocate {
			continue
		}
		if _, listed := at[h.Size]; !listed {
			at[h.Size] = len(o.Sizes)
			o.Sizes = append(o.Sizes, OutageSize{Size: h.Size})
		}
		o.Sizes[at[h.Size]].Need += h.Need
		sent := min(h.Need, left[h.Size])
		left[h.Size] -= sent
		h.Lack = h.Need - sent
	}
}

// ReadyGas counts the ready cylinders by size.
func ReadyGas(items []inventory.Item) map[gas.SizeCode]int {
	count := make(map[gas.SizeCode]int)
	for _, i := range items {
		if i.Spec.Kind == inventory.Cylinder && i.State == inventory.Ready && i.Recall == "" && !i.Spec.Foreign {
			count[i.Spec.Size]++
		}
	}
	return count
}
