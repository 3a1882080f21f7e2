package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// nextAction returns the one thing to do next for a row, and whether it can't
// wait.
func nextAction(p Programme, w Watch, now time.Time) (string, bool) {
	visit := Clock(w.Visit, now)
	switch w.Verdict {
	case depletion.Dry:
		return "emergency number " + p.Emergency + " first, then call the home", true
	case depletion.Short:
		if agreed := w.Care.agreed(now); w.Visit.IsZero() && !agreed.IsZero() {
			return fmt.Sprintf("the visit agreed for %s is after act-by %s: send %s before then", Clock(agreed, now), Clock(w.ActBy(), now), w.More.InWords()), true
		}
		if w.Visit.IsZero() && w.Forecast.ActByCause == depletion.CauseTrip {
			return "the gas may not last the trip at " + Clock(w.ActBy(), now) + ": bring " + w.More.InWords() + " before, or have it put off", true
		}
		if w.Visit.IsZero() {
			return "call now; send " + w.More.InWords() + " before " + Clock(w.ActBy(), now), true
		}
		return fmt.Sprintf("visit %s is after act-by %s: move it up, or add %s", visit, Clock(w.ActBy(), now), w.More.InWords()), true
	case depletion.Unknown:
		if !w.Visit.IsZero() && w.Visit.Before(now) {
			return "visit planned " + visit + " is not closed: ask the driver", true
		}
		return "call: ask for a gauge reading", true
	}
	if w.Heard != "" {
		return w.Heard, true
	}
	if w.machineIdle(now) {
		return "on the cylinder, and the machine is there: ask why (alarm questions)", true
	}
	return routine(p, w, now), w.Verdict == depletion.Tight
}

// machineIdle reports whether somebody breathes from the cylinder at home beside
// a machine for which nobody knows a reason to stand still: no power cut, no
// trip, and no other machine on its way.
func (w Watch) machineIdle(now time.Time) bool {
	_, has := w.Care.Concentrator()
	out := slices.ContainsFunc(w.Care.Trips, func(t Trip) bool { return !now.Before(t.From) && now.Before(t.Until) })
	comes := slices.ContainsFunc(w.Care.Tasks, func(t OpenTask) bool {
		return t.brings(inventory.Concentrator) || t.Tasked.Task == Swap && len(t.Bring) == 0
	})
	return w.Care.Breathes == FromCylinder && w.Care.Phase != OnBridge && has && !dark(w.Cuts, now) && !out && !comes
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
