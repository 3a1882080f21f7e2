package gas

import (
	"errors"
	"fmt"
)

// Millilitres is a volume of gas in one breath.
type Millilitres float64

// Pulse is how a conserving device gives oxygen: a bolus with each breath.
// The number on its dial is a setting, not litres a minute: at setting 2, four
// devices gave from 3.2 to 33.2 mL (Palwai et al., AJRCCM 2010;181:1061).
type Pulse struct {
	Bolus            Millilitres // at the setting in use, from the device's own papers
	BreathsPerMinute float64
}

// Uses returns the oxygen the device takes from the cylinder in a minute.
// Without the bolus and the breath rate there is no telling.
func (p Pulse) Uses() (Flow, error) {
	switch {
	case !(p.Bolus > 0):
		return 0, errors.New("the device's bolus is not known, and a pulse setting is not a flow. Find the mL per breath for this setting in the device's papers")
	case !(p.BreathsPerMinute > 0):
		return 0, errors.New("the breaths a minute are not known, so a pulse device's use cannot be worked out. Count the breaths for a minute")
	case p.Bolus > 200 || p.BreathsPerMinute > 80:
		return 0, fmt.Errorf("%s mL at %s breaths a minute is beyond any pulse device. Check both numbers", trimmed(float64(p.Bolus), 1), trimmed(p.BreathsPerMinute, 1))
	}
	return Flow(float64(p.Bolus) / 1000 * p.BreathsPerMinute), nil
}

// Minutes returns how long l litres last, rounded down.
func (p Pulse) Minutes(l Litres) (int, error) {
	perMinute, err := p.Uses()
	if err != nil {
		return 0, err
	}
	return lasts(max(0, l), perMinute), nil
}
