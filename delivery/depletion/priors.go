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
	misread    float64      // chance that the gauge was read too high by misreadBy
	misreadBy  gas.Pressure // two marks of a gauge marked every 250 psi
	gaugeError gas.Pressure // standard error of any other reading
	fillError  float64      // relative standard error of contents for a pressure
}

// learnt holds the priors the forecast uses. None has a published source:
// they are what the training half of the simulated households in the tests
// teaches, rounded. A programme's own readings should replace them.
var learnt = priors{
	pace:       0.99,
	spread:     0.10,
	steady:     60,
	high:       0.08,
	observed:   0.6,
	overuse:    0.2,
	leftOpen:   0.004,
	misread:    0.006,
	misreadBy:  gas.PSI(500),
	gaugeError: gas.PSI(40),
	fillError:  0.03,
}

// A concentrator stops by chance when the power or the machine fails. Common
// practice, no source: one or two power cuts and about one machine fault a
// year, and half a day until power or a working machine is back. A programme
// that keeps its own record should trust that.
const (
	failuresPerYear = 2.5
	hoursDown       = 12.0
)
