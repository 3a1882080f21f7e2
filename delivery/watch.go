package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Watch is one row of the watch list: a person, the clock, the verdict and
// what to do next.
type Watch struct {
	Person   Person
	Address  Address
	Care     Care
	Flow     gas.Flow
	Home     depletion.Household
	Forecast depletion.Forecast
	Verdict  depletion.Verdict
	Visit    time.Time // planned; zero for none
	Help     time.Time // the visit, else the earliest somebody could be there
	Run      inventory.RunID
	Cuts     []PowerCut
	More     MoreGas // what has to be there by act-by

	Situation string // bridge, backup, outage, cylinder only
	Gas       string // what is there, with the age of the reading
	Heard     string // what the last call asks for; empty: nothing
	Next      string // the next action
	Urgent    bool   // the next action can't wait
}

// ActBy returns the act-by time of the row; zero for none.
func (w Watch) ActBy() time.Time { return w.Forecast.ActBy }

// Needs reports whether the row needs somebody: anything but a home that
// holds with nothing due.
func (w Watch) Needs() bool {
	return w.Verdict != depletion.Holds || len(w.Care.Tasks) > 0 || w.Care.Tried > 0 || w.Heard != ""
}

// WatchHome judges one home at now.
func WatchHome(p Programme, person Person, h Home, now time.Time) Watch {
	if !h.Care.Watched() {
		return unwatched(person, h, now)
	}
	household, forecast := h.Forecast(p, now)
	w := Watch{
		Person:   person,
		Address:  h.Address,
		Care:     h.Care,
		Home:     household,
		Forecast: forecast,
		Visit:    h.Visit,
		Cuts:     h.Cuts,
	}
	w.Flow, _ = h.Care.Flow()
	w.Help = h.Help(p, now)
	w.Verdict = depletion.Judge(household, forecast, w.Help, p.Margin)
	w.Situation = situation(h, now)
	if stay, away := h.Care.StayAt(now); away {
		w.Situation += ", away until " + Clock(stay.Until, now)
	} else if stay, coming := h.Care.NextStay(now); coming {
		w.Situation += fmt.Sprintf(", elsewhere from %s until %s", stay.From.Format("Mon 2 Jan"), stay.Until.Format("Mon 2 Jan"))
	}
	w.Gas = h.gasLine(now)
	w.Heard = h.Care.heard(now)
	if !w.ActBy().IsZero() {
		w.More = h.moreGas(p, now)
	}
	w.Next, w.Urgent = nextAction(p, w, now)
	return w
}

// unwatched is the row of somebody who has no oxygen of ours: there is no gas
// to forecast, only what is still to be done.
func unwatched(person Person, h Home, now time.Time) Watch {
	w := Watch{Person: person, Address: h.Address, Care: h.Care, Visit: h.Visit, Situation: string(h.Care.Phase)}
	w.Gas = h.gasLine(now)
	w.Next = h.Care.Idle()
	if task := earliest(h.Care.Tasks); task != nil && !h.Visit.IsZero() {
		w.Next = fmt.Sprintf("%s with the visit at %s", task.Tasked.Task, Clock(h.Visit, now))
	}
	return w
}

// Idle says what to do next for a person who breathes no oxygen of ours.
func (c Care) Idle() string {
	switch task := earliest(c.Tasks); {
	case c.Died != nil && task != nil:
		return "died: nobody is called before " + c.Died.NotBefore.Format("Mon 2 Jan")
	case c.Hold != nil && c.Phase == InHospital:
		return fmt.Sprintf("on ward %s: held until %s", c.Hold.Ward, c.Hold.Until.Format("Mon 2 Jan"))
	case task != nil:
		return fmt.Sprintf("plan a visit: %s (%s)", task.Tasked.Task, task.Why)
	case len(c.Kit) > 0:
		return "kit is still there: open a collection"
	case c.Phase == Over:
		return "nothing due"
	case c.Order == nil:
		return "order is missing"
	case c.Address == "":
		return "address is missing"
	}
	return "discharge"
}

// dark reports whether one of the power cuts is on.
func dark(cuts []PowerCut, now time.Time) bool {
	return slices.ContainsFunc(cuts, func(c PowerCut) bool {
		return !now.Before(c.From) && (c.Until.IsZero() || now.Before(c.Until))
	})
}

func situation(h Home, now time.Time) string {
	switch {
	case dark(h.Cuts, now):
		return "power out"
	case h.Care.Phase == OnBridge:
		return "bridge"
	case h.Care.Breathes == FromCylinder:
		if _, has := h.Care.Concentrator(); !has {
			return "cylinder only"
		}
		return "on cylinder"
	case h.Care.Breathes == FromConcentrator:
		return "backup"
	}
	return "no oxygen"
}

// ByUrgency orders rows as every list shows them: dry, short, unknown, tight,
// holds; then by act-by; homes with something to do before those without;
// then by cover, then by name.
func ByUrgency(rows []Watch) {
	slices.SortStableFunc(rows, func(a, b Watch) int {
		return cmp.Or(
			cmp.Compare(order(a.Care.Watched()), order(b.Care.Watched())),
			cmp.Compare(a.Verdict.Rank(), b.Verdict.Rank()),
			dueOrder(a.ActBy(), b.ActBy()),
			cmp.Compare(order(a.Needs()), order(b.Needs())),
			cmp.Compare(a.Forecast.CoverLow, b.Forecast.CoverLow),
			cmp.Compare(a.Person.Name(), b.Person.Name()),
			cmp.Compare(a.Person.ID, b.Person.ID),
		)
	})
}

func order(first bool) int {
	if first {
		return 0
	}
	return 1
}
