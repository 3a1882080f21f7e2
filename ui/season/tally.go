package season

import (
	"time"

	"lungwort/inventory"
	"lungwort/ui/season/truth"
)

// tally is what is counted while a season goes on.
type tally struct {
	Discharges, HeldForKit, HeldForVan, HeldForGas int
	Calls, Rang, Trips, Failed, Refused, Lost      int
	Emergencies, Moved, Persons                    int
	IdleDays                                       float64
	Driven                                         time.Duration
	Metres                                         int64
	Margins                                        []float64 // minutes of gas left when the machine ran
}

// drove counts a trip of a vehicle that is back.
func (t *tally) drove(r *round, back time.Time) {
	t.Driven += back.Sub(r.left)
	t.Metres += r.metres
}

// moved counts a cylinder carried into or out of a home.
func (t *tally) moved(i *truth.Item) {
	if i.Kind == inventory.Cylinder {
		t.Moved++
	}
}
