package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/depletion"
)

// Answer says how a home stands, in the form of every urgent answer: does the
// gas outlast help, how long it lasts, who does what, and what it rests on.
func (w Watch) Answer(p Programme, now time.Time) Answer {
	a := Answer{
		Verdict: w.Verdict,
		Title:   w.title(now),
		Help:    w.helpLine(now),
		Do:      []string{w.Next},
		Assumed: append(append([]string{}, w.Forecast.Assumptions()...), NoFlowAdvice),
		Facts:   w.factLines(now),
	}
	if w.Verdict == depletion.Dry || w.Verdict == depletion.Short {
		a.Do = append(p.emergencyFirst(), w.Next)
	}
	low, mid, high := w.lasts(now)
	if w.Forecast.Known {
		a.Low, a.Mid, a.High = Spell(low), Spell(mid), Spell(high)
	}
	return a
}

// lasts returns how long the gas lasts: until it ends on the cylinder, if the
// concentrator stopped now otherwise.
func (w Watch) lasts(now time.Time) (low, mid, high time.Duration) {
	f := w.Forecast
	if w.Home.Source != depletion.OnCylinder {
		return f.CoverLow, f.CoverMid, f.CoverHigh
	}
	until := func(t time.Time) time.Duration { return max(0, t.Sub(now)) }
	return until(f.Low), until(f.Mid), until(f.High)
}

// title says the verdict in full.
func (w Watch) title(now time.Time) string {
	low, _, _ := w.lasts(now)
	switch {
	case w.Verdict == depletion.Unknown && !w.Forecast.Known:
		return "unknown: " + w.Forecast.Status
	case w.Verdict == depletion.Unknown:
		return "unknown: ask when help comes"
	case w.Verdict == depletion.Dry:
		return "dry: the planning value ended " + Clock(w.Forecast.PlanningDry, now)
	case w.Home.Source == depletion.OnCylinder:
		return fmt.Sprintf("%s: gas until %s at the least, help %s", w.Verdict, Clock(w.Forecast.Low, now), Clock(w.Help, now))
	}
	return fmt.Sprintf("%s: %s of gas if the concentrator stopped now", w.Verdict, Spell(low))
}

func (w Watch) helpLine(now time.Time) string {
	wait := Spell(w.Help.Sub(now))
	if !w.Visit.IsZero() {
		if w.Visit.Before(now) {
			return fmt.Sprintf("visit was planned %s and is not closed", Clock(w.Visit, now))
		}
		return fmt.Sprintf("%s, visit planned %s", wait, Clock(w.Visit, now))
	}
	return wait + ", if somebody left now: no visit is planned"
}

func (w Watch) factLines(now time.Time) []string {
	facts := []string{"in the home: " + w.Gas}
	if o := w.Care.Order; o != nil {
		facts = append(facts, fmt.Sprintf("ordered %s since %s", o.InWords(), Clock(w.Care.OrderedAt, now)))
	}
	if seen, at := w.Care.Observed(); seen > 0 {
		facts = append(facts, fmt.Sprintf("%s in use, told %s", seen, Clock(at, now)))
	}
	if w.Care.Breathes != FromNothing && !w.Care.Switched.IsZero() {
		facts = append(facts, fmt.Sprintf("on the %s since %s", w.Care.Breathes, Clock(w.Care.Switched, now)))
	}
	return facts
}
