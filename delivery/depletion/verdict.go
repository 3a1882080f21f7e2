package depletion

import (
	"cmp"
	"time"
)

// What makes the act-by time of a forecast.
const (
	CauseChance   = "chance of being without oxygen"
	CausePlanning = "planning minutes end"
	CauseOutage   = "power out longer than the gas lasts"
	CauseTrip     = "trip longer than the gas lasts"
	CauseBackup   = "backup task due"
)

// actByDates sets the act-by time of a home whose concentrator runs: when
// outages and trips have used limit minutes of gas, or an open backup task is
// due. Gas that would end on a trip must be there before the person leaves.
func (f *Forecast) actByDates(h Household, limit float64) {
	if dry := whenUsed(f.called, limit); !dry.IsZero() {
		f.datedDry, f.ActByCause = dry, CauseOutage
		for _, trip := range h.Trips {
			if trip.holds(dry) && !trip.From.After(f.datedDry) {
				f.datedDry, f.ActByCause = trip.From, CauseTrip
			}
		}
	}
	f.ActBy = f.datedDry
	if !h.BackupDue.IsZero() && (f.ActBy.IsZero() || h.BackupDue.Before(f.ActBy)) {
		f.ActBy, f.ActByCause = h.BackupDue, CauseBackup
	}
}

// Verdict is the answer in one word.
type Verdict string

// The verdicts.
const (
	Dry     Verdict = "dry"     // the planning value has ended
	Short   Verdict = "short"   // the gas ends before help
	Unknown Verdict = "unknown" // facts too old, missing or in conflict: ask
	Tight   Verdict = "tight"   // outlasts help, margin not kept
	Holds   Verdict = "holds"   // outlasts help, margin kept
)

// rank is the order in which lists run.
var rank = map[Verdict]int{Dry: 0, Short: 1, Unknown: 2, Tight: 3, Holds: 4}

// Compare orders verdicts as lists run: dry, short, unknown, tight, holds.
func Compare(a, b Verdict) int { return cmp.Compare(rank[a], rank[b]) }

// Judge returns the verdict for a household whose next help arrives at the
// time help; margin is the programme's factor on the way there, usually 1.5.
// Help that is not known, or was due before now, is a fact missing or in
// conflict.
func Judge(h Household, f Forecast, help time.Time, margin float64) Verdict {
	switch {
	case !f.Known:
		return Unknown
	case h.Source == OnCylinder && !f.PlanningDry.After(h.Now):
		return Dry
	case help.IsZero() || help.Before(h.Now):
		return Unknown
	case h.Source == OnCylinder:
		return judgeOnCylinder(f, h.Now, help, margin)
	case !f.datedDry.IsZero() && help.After(f.datedDry):
		return Short
	case !h.BackupDue.IsZero():
		return Tight
	}
	return Holds
}

func judgeOnCylinder(f Forecast, now, help time.Time, margin float64) Verdict {
	wait := help.Sub(now)
	switch {
	case help.After(f.ActBy):
		return Short
	case now.Add(time.Duration(margin * float64(wait))).After(f.ActBy):
		return Tight
	}
	return Holds
}
