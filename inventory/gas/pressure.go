package gas

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// highestFilling is above any oxygen cylinder in the table, 300 bar filled
// and warmed to 55 °C.
var highestFilling = Bar(345)

// pressureUnit is a unit on a gauge, with the range in which a bare number on
// an oxygen gauge could be in that unit.
type pressureUnit struct {
	name      string
	spellings []string
	pascals   float64
	low, high float64
}

var pressureUnits = []pressureUnit{
	{"psi", []string{"psi", "psig", "p.s.i.", "lb", "lbs", "#"}, pascalsPerPSI, 10, 5000},
	{"bar", []string{"bar", "bars", "barg"}, pascalsPerBar, 1, 345},
	{"kPa", []string{"kpa"}, 1e3, 100, 34500},
	{"MPa", []string{"mpa"}, 1e6, 0.5, 34.5},
	// NIST SP 811, table B.8; never guessed for a bare number.
	{"kg/cm²", []string{"kg/cm2", "kg/cm²", "kgf/cm2", "kgf/cm²"}, 98066.5, math.Inf(1), 0},
}

const gaugeNextStep = "Read the gauge and write the number with its unit, as 500psi"

// notReadings are words found in gauge columns that are conclusions, not
// readings.
var notReadings = []string{"full", "empty", "mt", "?", "??", "ok", "low", "f", "e"}

// ParsePressure reads a gauge reading: "500psi", "35 bar", "13800 kPa",
// "13.8 MPa", "1,900 psi". A number without a unit, a fraction of the dial and
// words such as "full" come back as a *Question; only zero needs no unit.
func ParsePressure(text string) (Pressure, error) {
	plain := tidy(text)
	if slices.Contains(notReadings, plain) {
		return 0, ask(text, "what does the gauge show? "+gaugeNextStep)
	}
	if _, ok := dialPart(plain); ok {
		return 0, ask(text, "of what full pressure? Until that is known count it as less than this part. "+gaugeNextStep)
	}
	number, unit := splitNumeral(plain)
	n, err := readNumeral(number)
	if err != nil {
		return 0, fmt.Errorf("%q is not a gauge reading. %s", text, gaugeNextStep)
	}
	if n.decimal < 0 {
		return 0, fmt.Errorf("%q is below zero, and a gauge at rest shows zero. %s", text, gaugeNextStep)
	}
	if unit == "" {
		return bareReading(text, n)
	}
	for _, u := range pressureUnits {
		if slices.Contains(u.spellings, unit) {
			return u.reading(text, n)
		}
	}
	return 0, fmt.Errorf("%q: %q is not a unit on a gauge. Write psi, bar, kPa or MPa, as 500psi", text, unit)
}

// reading settles a number whose unit is known.
func (u pressureUnit) reading(text string, n numeral) (Pressure, error) {
	values := []float64{n.decimal, n.grouped}
	switch {
	case !n.open():
		values = values[:1]
	case n.mark == ',' && (u.name == "psi" || u.name == "kPa"):
		values = values[1:] // no gauge shows thousandths of a psi
	}
	q := &Question{Text: text, Asks: "is the mark between thousands or before decimals?"}
	for _, v := range values {
		if p := Pressure(v * u.pascals); p <= highestFilling {
			q.Candidates = append(q.Candidates, Candidate{Says: trimmed(v, 3) + " " + u.name, Pressure: p})
		}
	}
	if len(q.Candidates) == 0 {
		return 0, fmt.Errorf("%q is above the filling of any oxygen cylinder (%s). Check the number and its unit", text, highestFilling)
	}
	if usual := Pressure(n.english() * u.pascals); len(q.Candidates) == 1 && q.Candidates[0].Pressure == usual {
		return usual, nil
	}
	q.Careful = lowest(q.Candidates)
	return 0, q
}

// bareReading asks for the unit of a number that has none.
func bareReading(text string, n numeral) (Pressure, error) {
	if n.decimal == 0 {
		return 0, nil
	}
	q := &Question{Text: text, Asks: "in which unit?"}
	for _, u := range pressureUnits {
		v := n.english()
		if v < u.low || v > u.high {
			continue
		}
		p, says := Pressure(v*u.pascals), trimmed(v, 3)+" "+u.name
		if u.name != "psi" {
			says += " (" + p.String() + ")"
		}
		q.Candidates = append(q.Candidates, Candidate{Says: says, Pressure: p})
	}
	if len(q.Candidates) == 0 {
		return 0, ask(text, "in which unit? No unit makes it the pressure of an oxygen cylinder. "+gaugeNextStep)
	}
	q.Careful = lowest(q.Candidates)
	return 0, q
}

func lowest(candidates []Candidate) int {
	least := 0
	for i, c := range candidates {
		if c.Pressure < candidates[least].Pressure {
			least = i
		}
	}
	return least
}

// ParseGauge reads a gauge reading like ParsePressure, on a cylinder whose
// full pressure is known: it also takes a part of the dial, "1/4" or "25 %",
// offers full pressure or zero when asked about "full" and "empty", and
// refuses more than the cylinder can hold.
func ParseGauge(text string, full Pressure) (Pressure, error) {
	plain := tidy(text)
	if part, ok := dialPart(plain); ok {
		return Pressure(part) * full, nil
	}
	switch plain {
	case "full", "f":
		return 0, &Question{Text: text, Asks: "what does the gauge show?", Candidates: []Candidate{{Says: full.String(), Pressure: full}}, Careful: noneCareful}
	case "empty", "mt", "e":
		return 0, &Question{Text: text, Asks: "what does the gauge show?", Candidates: []Candidate{{Says: "0 psi"}}}
	}
	p, err := ParsePressure(text)
	if err == nil && p > full*overfilled {
		return 0, fmt.Errorf("%q is more than this cylinder holds (full is %s). Check the number, its unit and the cylinder's size", text, full)
	}
	return p, err
}

// dialPart reads a part of the dial: "1/4", "half", "3/4 full", "25 %".
func dialPart(plain string) (float64, bool) {
	plain = strings.TrimSuffix(plain, " full")
	if plain == "half" {
		return 0.5, true
	}
	if part, unit, ok := splitFraction(plain); ok && unit == "" && part < 1 {
		return part, true
	}
	if number, isPercent := strings.CutSuffix(plain, "%"); isPercent {
		n, err := readNumeral(strings.TrimSpace(number))
		return n.decimal / 100, err == nil && n.decimal >= 0 && n.decimal <= 100
	}
	return 0, false
}
