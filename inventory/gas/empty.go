package gas

import "fmt"

// emptied is the pressure, absolute, from which a cylinder of gas counts as
// regulated in transport: 40.6 psi in an interpretation of the U.S. transport
// rules (PHMSA 03-0033, 2003).
const emptied = 40.6 * pascalsPerPSI

// TransportNote says what a low gauge means in transport: the rule counts
// absolute pressure, a gauge does not. It is empty for a cylinder that is
// plainly not empty.
func TransportNote(gauge Pressure) string {
	const plainly = 100 // psi on the gauge
	if gauge < 0 || gauge.PSI() > plainly {
		return ""
	}
	words := "under 40.6 psi absolute"
	if gauge.Absolute() >= emptied {
		words = "still regulated in transport from 40.6 psi absolute on"
	}
	return fmt.Sprintf("%s is %.1f psi absolute: %s; check the current rule.", gauge, gauge.Absolute()/pascalsPerPSI, words)
}
