package gas

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// A home flow meter shows nothing beyond these two; a number outside them is
// in another unit or a slip of the pen. Infants' meters start at hundredths.
const (
	lowestFlow  Flow = 0.01
	highestFlow Flow = 60
)

const flowNextStep = "Write the number on the flow meter, as 2 L/min"

var (
	perMinute = []string{"", "l/min", "lpm", "l/m", "l", "lit/min", "litre/min", "liter/min", "litres/min", "liters/min", "litre", "liter", "litres", "liters", "l per min", "l per minute",
		"litre per minute", "liter per minute", "litres per minute", "liters per minute", "l/minute", "l.p.m.", "slpm"}
	perMinuteThousandth = []string{"ml", "ml/min", "cc", "cc/min", "ml/m", "ml per min", "ml per minute", "cc per minute", "millilitres", "milliliters", "mlpm"}
	flowRange           = regexp.MustCompile(`^([0-9.,/ ]+?)[a-z/ ]*(?:-| to )\s*([0-9.,/ ]+)(.*)$`)
)

// ParseFlow reads a flow: "4" and "4 L/min", "2 LPM", "1/8", "0,5", "125 mL".
// A bare number is in litres a minute. A range, an amount per hour and more
// than 60 L/min come back as a *Question. The setting of a pulse device, the
// letter O and "PRN" are refused: none of them is a flow.
func ParseFlow(text string) (Flow, error) {
	plain := tidy(text)
	if err := notAFlow(text, plain); err != nil {
		return 0, err
	}
	if ends := flowRange.FindStringSubmatch(plain); ends != nil {
		return 0, flowBetween(text, ends[1]+ends[3], ends[2]+ends[3])
	}
	return oneFlow(text, plain)
}

// oneFlow reads a tidy text that is not a range.
func oneFlow(text, plain string) (Flow, error) {
	n, unit, err := amount(plain)
	if err != nil {
		return 0, fmt.Errorf("%q is not a flow. %s", text, flowNextStep)
	}
	value := n.decimal // no flow meter is read to thousands of litres
	if inMillilitres(unit) {
		value = n.english() / 1000
	}
	switch {
	case value < 0:
		return 0, fmt.Errorf("%q is below zero, and a flow is not. %s", text, flowNextStep)
	case isHourly(unit):
		return 0, hourly(text, value)
	case slices.Contains(perMinute, unit) || slices.Contains(perMinuteThousandth, unit):
		return plausibleFlow(text, Flow(value), unit)
	}
	return 0, fmt.Errorf("%q: %q is not a unit of flow. %s", text, unit, flowNextStep)
}

// notAFlow refuses what is often written where a flow belongs.
func notAFlow(text, plain string) error {
	for _, word := range strings.FieldsFunc(plain, func(r rune) bool { return r == ' ' || r == '.' || r == ',' }) {
		switch word {
		case "setting", "pulse", "pulsed", "level", "bolus":
			return &SettingError{Text: text}
		case "prn":
			return fmt.Errorf("%q says when, not how much. Ask the prescriber for the flow and the hours, and write the flow, as 2 L/min", text)
		}
		if strings.Trim(word, "0123456789") == "o" {
			return fmt.Errorf("%q has the letter O in it. Write 0 for off, or the number on the flow meter, as 2 L/min", text)
		}
	}
	return nil
}

// amount reads a number or a fraction, and the unit after it.
func amount(plain string) (n numeral, unit string, err error) {
	if v, u, ok := splitFraction(plain); ok {
		return numeral{decimal: v, grouped: v}, u, nil
	}
	number, unit := splitNumeral(plain)
	n, err = readNumeral(number)
	return n, unit, err
}

func plausibleFlow(text string, f Flow, unit string) (Flow, error) {
	if f == 0 || f >= lowestFlow && f <= highestFlow {
		return f, nil
	}
	asks := fmt.Sprintf("a home flow meter shows from %s to %s; what does it show?", lowestFlow, highestFlow)
	if asMillilitres := f / 1000; unit == "" && f > highestFlow && asMillilitres <= highestFlow {
		c := Candidate{Says: asMillilitres.String(), Flow: asMillilitres}
		return 0, &Question{Text: text, Asks: asks, Candidates: []Candidate{c}, Careful: noneCareful}
	}
	return 0, ask(text, asks+" "+flowNextStep)
}

// flowBetween asks which end of a range is in use. For cover the higher flow
// is the careful one: the gas ends sooner.
func flowBetween(text, from, to string) error {
	low, lowErr := oneFlow(text, from)
	high, highErr := oneFlow(text, to)
	if lowErr != nil || highErr != nil {
		return ask(text, "which flow is in use? "+flowNextStep)
	}
	q := &Question{Text: text, Asks: "which flow is in use?", Careful: 1,
		Candidates: []Candidate{{Says: low.String(), Flow: low}, {Says: high.String(), Flow: high}}}
	if low > high {
		q.Careful = 0
	}
	return q
}

func inMillilitres(unit string) bool {
	return strings.HasPrefix(unit, "m") || strings.HasPrefix(unit, "cc")
}

func isHourly(unit string) bool {
	for _, ending := range []string{"/h", "/hr", "/hour", "per hour", "per hr", "an hour", "lph"} {
		if strings.HasSuffix(unit, ending) {
			return true
		}
	}
	return false
}

// hourly asks about an amount per hour: flow meters show litres a minute, so
// the hour is most often a slip, and a sixtieth of the flow a dangerous one.
func hourly(text string, value float64) error {
	asMinute, asWritten := Flow(value), Flow(value/60)
	if asMinute > highestFlow {
		return ask(text, "per hour? "+flowNextStep)
	}
	return &Question{Text: text, Asks: "per hour? Flow meters show litres a minute.",
		Candidates: []Candidate{{Says: asMinute.String(), Flow: asMinute}, {Says: asWritten.String(), Flow: asWritten}}}
}
