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

func situation(h Home, now time.Time) string {
	out := slices.ContainsFunc(h.Cuts, func(c PowerCut) bool {
		return !now.Before(c.From) && (c.Until.IsZero() || now.Before(c.Until))
	})
	switch {
	case out:
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

// nextAction returns the one thing to do next for a row, and whether it can't
// wait.
func nextAction(p Programme, w Watch, now time.Time) (string, bool) {
	visit := Clock(w.Visit, now)
	switch w.Verdict {
	case depletion.Dry:
		return "emergency number " + p.Emergency + " first, then call the home", true
	case depletion.Short:
		if w.Visit.IsZero() {
			return "call now; send gas before " + Clock(w.ActBy(), now), true
		}
		return fmt.Sprintf("visit %s is after act-by %s: move it up, or add gas", visit, Clock(w.ActBy(), now)), true
	case depletion.Unknown:
		if !w.Visit.IsZero() && w.Visit.Before(now) {
			return "visit planned " + visit + " is not closed: ask the driver", true
		}
		return "call: ask for a gauge reading", true
	}
	if w.Heard != "" {
		return w.Heard, true
	}
	return routine(p, w, now), w.Verdict == depletion.Tight
}

// heardFor is how long what was heard on a call stays the next thing to do; a
// later call takes its place.
const heardFor = 24 * time.Hour

// heard says what the last call asks for, as long as nobody was told.
func (c Care) heard(now time.Time) string {
	call := c.LastCall
	if call == nil || now.Sub(call.At) > heardFor {
		return ""
	}
	at := Clock(call.At, now)
	untold := func(m Matter) bool { return call.At.After(c.Told[m]) }
	switch {
	case call.Band == Emergency && untold(InEmergency):
		return "emergency band " + at + ": is an ambulance with them? Tell the clinician"
	case call.Band == Borderline && untold(InBorderline):
		return "borderline band " + at + ": tell the clinician today"
	case call.Saving && untold(SavingGas):
		return "saving oxygen, told " + at + ": tell the clinician"
	}
	return ""
}

// routine returns the next action for a home that holds or is tight.
func routine(p Programme, w Watch, now time.Time) string {
	visit := Clock(w.Visit, now)
	task := earliest(w.Care.Tasks)
	switch {
	case len(w.Care.toCome(now)) > 0:
		return "stays elsewhere by now: ask whether " + serials(w.Care.toCome(now)) + " came along"
	case task != nil && !w.Visit.IsZero():
		return fmt.Sprintf("%s with the visit at %s", task.Tasked.Task, visit)
	case task != nil && !task.Due.IsZero():
		return fmt.Sprintf("plan a visit: %s by %s", task.Tasked.Task, Clock(task.Due, now))
	case task != nil:
		return fmt.Sprintf("plan a visit: %s (%s)", task.Tasked.Task, task.Why)
	case w.Care.offerAgain(now):
		return "offer the backup again: it was refused"
	case w.Care.Tried > 0:
		return "call again: no answer " + times(w.Care.Tried)
	case w.Care.LastCall == nil && w.Care.Discharge != nil:
		return "first call due " + Clock(w.Care.NextCall(p, 1).Due, now)
	case w.Care.Order != nil && !w.Care.Order.Review.IsZero():
		return "review with the clinician " + w.Care.Order.Review.Format("Mon 2 Jan")
	}
	return "nothing due"
}

// toCome returns what was to come along to the stay they are on, and nobody has
// said yet that it did.
func (c Care) toCome(now time.Time) []Holding {
	stay, away := c.StayAt(now)
	var list []Holding
	for _, id := range stay.Along {
		if h, has := c.Holding(id); has && away {
			list = append(list, h)
		}
	}
	return list
}

// offerAgain reports whether a backup that was refused is to be offered again.
func (c Care) offerAgain(now time.Time) bool {
	r, still := c.Refused(TheBackup, now)
	return r.What != "" && !still && inUse(c) < 0
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

func earliest(tasks []OpenTask) *OpenTask {
	if len(tasks) == 0 {
		return nil
	}
	first := slices.MinFunc(tasks, func(a, b OpenTask) int {
		return cmp.Or(dueOrder(a.Due, b.Due), a.Opened.Compare(b.Opened))
	})
	return &first
}

// dueOrder orders times with the zero time last.
func dueOrder(a, b time.Time) int {
	switch {
	case a.IsZero() && b.IsZero():
		return 0
	case a.IsZero():
		return 1
	case b.IsZero():
		return -1
	}
	return a.Compare(b)
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
