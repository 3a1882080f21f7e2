package depletion

import "lungwort/inventory/gas"

// priors is what is believed of any household before its own readings speak.
type priors struct {
	pace       float64      // use on the cylinder, as a share of the flow set
	spread     float64      // relative standard deviation of that share between people
	steady     float64      // shape of the use in an hour of use
	high       float64      // chance that the highest credible flow is the one in use
	observed   float64      // chance that an observed flow is the one in use
	overuse    float64      // chance that a person who may take pauses takes none
	leftOpen   float64      // chance that the valve of a backup was left open at the reading
	gaugeError gas.Pressure // standard error of a reading
	pairError  gas.Pressure // of the fall between two: misreadings, and the last one counts twice
	fillError  float64      // relative standard error of contents for a pressure
}

// learnt holds the priors the forecast uses. None has a published source: they
// are learnt from one half of the simulated homes in the tests, so that of
// those the 90 % interval covers nine in ten and the safe end is crossed by
// one in a hundred, and are proven on the other half. A programme's own
// readings should replace them.
var learnt = priors{
	pace:       0.97,
	spread:     0.12,
	steady:     55,
	high:       0.033,
	observed:   0.9,
	overuse:    0.35,
	leftOpen:   0.005,
	gaugeError: gas.PSI(45),
	pairError:  gas.PSI(130),
	fillError:  0.022,
}

// pauseTimes is how many times of day a pause may begin at, taken as equally
// likely.
const pauseTimes = 4

// A concentrator stops by chance when the power or the machine fails. Common
// practice, no source: one or two power cuts and about one machine fault a
// year, and half a day until power or a working machine is back. A programme
// that keeps its own record should trust that.
const (
	failuresPerYear = 2.5
	hoursDown       = 12.0
)
