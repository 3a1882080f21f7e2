package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory/gas"
)

// CallRules say when people are called and what is made of what they tell.
type CallRules struct {
	Latest time.Duration `json:"latest"` // of the first call, after the discharge
	Daily  int           `json:"daily"`  // calls, one a day, after the first
	Every  int           `json:"every"`  // days between the calls after those
	From   string        `json:"from"`   // no planned call before, 15:04
	Until  string        `json:"until"`  // nor after

	Retry        time.Duration `json:"retry"`         // after no answer
	WelfareTries int           `json:"welfare_tries"` // calls without an answer until the welfare step
	Welfare      string        `json:"welfare"`       // the step, as the programme has agreed it

	UseDays    float64  `json:"use_days"`  // the least days a meter is judged over
	UseShare   float64  `json:"use_share"` // of the ordered hours: less is told
	ReviewDays int      `json:"review_days"`
	ReviewSpO2 float64  `json:"review_spo2"` // percent: high on little oxygen, day after day
	ReviewFlow gas.Flow `json:"review_flow"`
}

// newCallRules returns the defaults.
func newCallRules() CallRules {
	return CallRules{
		Latest: 18 * time.Hour, Daily: 3, Every: 3, From: "08:00", Until: "20:00",
		Retry: time.Hour, WelfareTries: 4,
		Welfare: "ask for a welfare check by the local rule, and tell the clinician",
		UseDays: 3, UseShare: 0.5, ReviewDays: 3, ReviewSpO2: 96, ReviewFlow: 1,
	}
}

// CallDue is the next call of a person.
type CallDue struct {
	Due     time.Time `json:"due"` // zero: none is
	By      time.Time `json:"by"`  // after this it is overdue
	Why     string    `json:"why"`
	Contact int       `json:"contact"` // which number: 0 is the first, more are those of others
	Welfare bool      `json:"welfare"` // calling has ended; the welfare step is next
}

// Now reports whether the call is due.
func (d CallDue) Now(now time.Time) bool { return !d.Due.IsZero() && !now.Before(d.Due) }

// Late reports whether the call is overdue.
func (d CallDue) Late(now time.Time) bool { return d.Now(now) && now.After(d.By) }

// NextCall returns the next call of a person with so many phone numbers: after
// no answer the next try, else the call that was agreed, else the schedule.
func (c Care) NextCall(p Programme, phones int) CallDue {
	r := p.Calls
	switch last := c.LastCall; {
	case !c.Watched():
		return CallDue{}
	case c.Tried > 0:
		return c.nextTry(r, phones)
	case last == nil || last.At.Before(c.homeSince()):
		return c.firstCall(p)
	case last.Called.Next.After(last.At):
		next := last.Called.Next
		return CallDue{Due: next, By: next.Add(r.Retry), Why: "call agreed"}
	case c.Heard <= r.Daily:
		return r.onDay(last.At, 1, fmt.Sprintf("daily call %d of %d", c.Heard, r.Daily))
	default:
		return r.onDay(last.At, r.Every, fmt.Sprintf("call every %d days", r.Every))
	}
}

// homeSince returns when the present care began.
func (c Care) homeSince() time.Time {
	if c.Discharge != nil {
		return c.Discharge.Leaves
	}
	return time.Time{}
}

// firstCall is due within the hours after the discharge that the programme
// sets. At night it waits for the morning.
func (c Care) firstCall(p Programme) CallDue {
	left := c.homeSince()
	if left.IsZero() { // at home before the book knew of them
		return CallDue{Due: c.Since, By: c.Since.Add(p.Calls.Latest), Why: "first call"}
	}
	due := CallDue{Due: p.Calls.byDay(left.Add(p.FirstCall)), By: left.Add(p.Calls.Latest), Why: "first call after discharge"}
	if least := due.Due.Add(p.Calls.Retry); due.By.Before(least) {
		due.By = least
	}
	return due
}

// nextTry goes through the numbers: the person's own twice, then the others',
// and then the programme's welfare step. Who breathes from a cylinder is tried
// again at once, at any hour.
func (c Care) nextTry(r CallRules, phones int) CallDue {
	const own = 2
	due := CallDue{Due: c.LastTry, By: c.LastTry, Why: "no answer " + times(c.Tried)}
	if c.Breathes != FromCylinder {
		due.Due = r.byDay(c.LastTry.Add(r.Retry))
		due.By = due.Due.Add(r.Retry)
	}
	if c.Tried >= own && phones > 1 {
		due.Contact = 1 + (c.Tried-own)%(phones-1)
	}
	if c.Tried < r.WelfareTries {
		return due
	}
	due.Welfare, due.Due, due.By = true, c.LastTry, c.LastTry
	due.Why += ": " + r.Welfare
	if day := int(c.LastTry.Sub(c.FirstTry) / (24 * time.Hour)); day > 0 {
		due.Why += fmt.Sprintf("; the loss clock runs, day %d since %s", day+1, c.FirstTry.Format("Mon 2 Jan"))
	}
	if told := c.Told[NotReached]; told.After(c.FirstTry) { // asked for: keep trying meanwhile
		due.Welfare = false
		due.Due = r.byDay(later(told, c.LastTry).Add(r.Retry))
		due.By = due.Due.Add(r.Retry)
		due.Why = fmt.Sprintf("no answer %s; welfare check asked for %s", times(c.Tried), told.Format("Mon 15:04"))
	}
	return due
}

// onDay is a call at any time of the day so many days after another.
func (r CallRules) onDay(last time.Time, days int, why string) CallDue {
	day := last.AddDate(0, 0, days)
	from, ok1 := clockOn(day, r.From)
	until, ok2 := clockOn(day, r.Until)
	if !ok1 || !ok2 {
		return CallDue{Due: day, By: day, Why: why}
	}
	return CallDue{Due: from, By: until, Why: why}
}

// byDay moves a time at night to the next morning.
func (r CallRules) byDay(t time.Time) time.Time {
	from, ok1 := clockOn(t, r.From)
	until, ok2 := clockOn(t, r.Until)
	switch {
	case !ok1 || !ok2:
		return t
	case t.Before(from):
		return from
	case !t.Before(until):
		return from.AddDate(0, 0, 1)
	}
	return t
}

// CheckIn is a call that is due, with what it has to ask beside the usual and
// what the clinician still has to hear.
type CheckIn struct {
	Watch
	Call     CallDue
	Asks     []string
	Concerns []Concern
}

// DueCalls returns the calls due now, in the order in which to make them:
// where gas ends before help, then what the clinician must hear now, then who
// can't be reached, then by when they were due.
func DueCalls(p Programme, rows []Watch, now time.Time) []CheckIn {
	var due []CheckIn
	for _, w := range rows {
		c := NewCheckIn(p, w, now)
		if c.Call.Now(now) {
			due = append(due, c)
		}
	}
	slices.SortStableFunc(due, func(a, b CheckIn) int {
		return cmp.Or(
			cmp.Compare(a.level(), b.level()),
			dueOrder(a.Call.By, b.Call.By),
			cmp.Compare(a.Verdict.Rank(), b.Verdict.Rank()),
			cmp.Compare(a.Person.Name(), b.Person.Name()),
			cmp.Compare(a.Person.ID, b.Person.ID),
		)
	})
	return due
}

// ToTell returns the persons of whom the clinician has not heard something
// yet, the most pressing first.
func ToTell(p Programme, rows []Watch, now time.Time) []CheckIn {
	var tell []CheckIn
	for _, w := range rows {
		if c := NewCheckIn(p, w, now); len(c.Concerns) > 0 {
			tell = append(tell, c)
		}
	}
	rank := func(c CheckIn) int { return slices.Index(Matters(), c.Concerns[0].Matter) }
	slices.SortStableFunc(tell, func(a, b CheckIn) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), a.Concerns[0].Since.Compare(b.Concerns[0].Since))
	})
	return tell
}

// NewCheckIn returns the next call of a home. What the book has to ask makes
// it due now, unless somebody asked a moment ago.
func NewCheckIn(p Programme, w Watch, now time.Time) CheckIn {
	c := CheckIn{Watch: w, Concerns: w.Care.Concerns(p, now), Asks: w.asks(p, now)}
	c.Call = w.Care.NextCall(p, len(w.Person.Phones))
	asked := w.Care.LastTry
	if last := w.Care.LastCall; last != nil {
		asked = later(asked, last.At)
	}
	urgent := w.Verdict == depletion.Dry || w.Verdict == depletion.Short
	if (urgent || len(c.Asks) > 0) && !c.Call.Now(now) && w.Care.Watched() && now.Sub(asked) >= p.Calls.Retry {
		c.Call.Due, c.Call.By, c.Call.Why = now, now, "ask again"
		if len(c.Asks) > 0 {
			c.Call.Why = c.Asks[0]
		}
		if urgent {
			c.Call.Why = string(w.Verdict) + ": " + w.Next
		}
	}
	return c
}

// asks returns what the book does not know and the home can tell.
func (w Watch) asks(p Programme, now time.Time) []string {
	var asks []string
	if w.Verdict == depletion.Unknown {
		asks = append(asks, "the gauge: "+cmp.Or(w.Forecast.Status, "too old to tell"))
	}
	if last := w.Care.LastCall; last != nil && last.incomplete() {
		asks = append(asks, "the flow of the reading of "+Clock(last.At, now))
	}
	if h, has := w.Care.Concentrator(); has {
		if used, days, known := h.Use(); known && used == 0 && days >= p.Calls.UseDays {
			asks = append(asks, fmt.Sprintf("the machine: its meter has not moved in %.0f days. Is it plugged in? Are they on cylinders?", days))
		}
	}
	return asks
}

// level puts the calls into classes.
func (c CheckIn) level() int {
	switch {
	case c.Verdict == depletion.Dry || c.Verdict == depletion.Short:
		return 0
	case slices.ContainsFunc(c.Concerns, func(x Concern) bool { return x.Now }):
		return 1
	case c.Call.Welfare || c.Care.Tried > 0 && c.Care.Breathes == FromCylinder:
		return 2
	}
	return 3
}
