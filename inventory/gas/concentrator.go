package gas

import (
	"fmt"
	"time"
)

// Watts is an electric power.
type Watts float64

// KilowattHours is an amount of electric energy.
type KilowattHours float64

// The draw of a concentrator for each litre a minute it is rated for. The
// ceiling is the requirement in WHO and UNICEF's 2019 specification, under
// 70 W; the floor is from memory of machines rated 5 and 10 L/min.
const (
	leastWattsPerLitre Watts = 55
	mostWattsPerLitre  Watts = 70
)

// Concentrator is a machine that makes oxygen from air, with the highest flow
// it is built for.
type Concentrator struct {
	Rated Flow
}

// Supplies refuses a flow the machine is not built for: beyond its rating the
// oxygen gets thinner.
func (c Concentrator) Supplies(flow Flow) error {
	switch {
	case !(c.Rated > 0):
		return fmt.Errorf("the concentrator's rating is not known. Read the highest flow from its plate")
	case flow > c.Rated:
		return fmt.Errorf("%s is above the concentrator's rating of %s. A machine of higher rating is needed; ask the clinician before changing anything", flow, c.Rated)
	}
	return nil
}

// Draw returns the range of power the machine takes from the mains.
func (c Concentrator) Draw() (least, most Watts) {
	return Watts(c.Rated) * leastWattsPerLitre, Watts(c.Rated) * mostWattsPerLitre
}

// Energy returns the range of electricity it uses when running for d.
func (c Concentrator) Energy(d time.Duration) (least, most KilowattHours) {
	low, high := c.Draw()
	hours := d.Hours() / 1000
	return KilowattHours(float64(low) * hours), KilowattHours(float64(high) * hours)
}
