package depletion

import "time"

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
	if dry := whenUsed(f.called[atLongest], limit); !dry.IsZero() {
		f.datedDry, f.ActByCause = dry, CauseOutage
		for _, trip := range h.Trips {
			if trip.times(overruns[atLongest].times).holds(dry) && !trip.From.After(f.datedDry) {
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

// Rank is the place of the verdict in lists: dry, short, unknown, tight,
// holds. Any other word ranks as unknown.
func (v Verdict) Rank() int {
	switch v {
	case Dry:
		return 0
	case Short:
		return 1
	case Tight:
		return 3
	case Holds:
		return 4
	}
	return 2
}

// Judge returns the verdict for a household whose next help arrives at the
// time help; margin is the programme's factor on the way there, usually 1.5.
// Where the verdict rests on help, a time not known or before now is a fact
// missing or in conflict.
func Judge(h Household, f Forecast, help time.Time, margin float64) Verdict {
	switch {
	case !f.Known:
		return Unknown
	case f.running:
		return f.judgeRunning(h, help)
	case !f.PlanningDry.After(h.Now):
		return Dry
	case help.Before(h.Now):
		return Unknown
	case help.After(f.ActBy):
		return Short
	case h.Now.Add(time.Duration(margin * float64(help.Sub(h.Now)))).After(f.ActBy):
		return Tight
	}
	return Holds
}

// judgeRunning returns the verdict while a concentrator runs: never dry.
func (f Forecast) judgeRunning(h Household, help time.Time) Verdict {
	dated := !f.datedDry.IsZero()
	switch {
	case dated && help.Before(h.Now):
		return Unknown
	case dated && help.After(f.datedDry):
		return Short
	case !h.BackupDue.IsZero():
		return Tight
	}
	return Holds
}
