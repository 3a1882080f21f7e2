package gas

import (
	"fmt"
	"strings"
)

// Coldest and Warmest bound the temperatures a cylinder is read at: beyond
// them a thermometer or a unit is wrong.
const (
	Coldest Celsius = -40
	Warmest Celsius = 60
)

const temperatureNextStep = "Write the number with its unit, as 21C or 70F"

// ParseTemperature reads a temperature: "21C", "70 °F", "-10 C", "294 K". A
// number without a unit comes back as a *Question. At a given gauge reading
// the warmer cylinder holds less, so the warmer candidate is the careful one.
func ParseTemperature(text string) (Celsius, error) {
	number, unit := splitNumeral(tidy(text))
	n, err := readNumeral(number)
	if err != nil {
		return 0, fmt.Errorf("%q is not a temperature. %s", text, temperatureNextStep)
	}
	v := n.decimal // no thermometer is read to thousands
	switch strings.TrimSpace(strings.TrimPrefix(unit, "°")) {
	case "c", "celsius", "degc", "deg c":
		return plausibleTemperature(text, Celsius(v))
	case "f", "fahrenheit", "degf", "deg f":
		return plausibleTemperature(text, Fahrenheit(v))
	case "k", "kelvin":
		return plausibleTemperature(text, Celsius(v-273.15))
	case "":
		return 0, bareTemperature(text, v)
	}
	return 0, fmt.Errorf("%q: %q is not a unit of temperature. %s", text, unit, temperatureNextStep)
}

func bareTemperature(text string, v float64) error {
	q := &Question{Text: text, Asks: "in which unit?"}
	for _, c := range []Candidate{
		{Says: trimmed(v, 1) + " °C", Temperature: Celsius(v)},
		{Says: trimmed(v, 1) + " °F", Temperature: Fahrenheit(v)},
	} {
		if c.Temperature >= Coldest && c.Temperature <= Warmest {
			q.Candidates = append(q.Candidates, c)
		}
	}
	if len(q.Candidates) == 0 {
		return ask(text, "in which unit? "+temperatureNextStep)
	}
	return q // above -40 the same number is warmer in °C, the first candidate
}

func plausibleTemperature(text string, t Celsius) (Celsius, error) {
	if t < Coldest || t > Warmest {
		return 0, fmt.Errorf("%q is outside %s to %s, where cylinders are read. Check the number and its unit", text, Coldest, Warmest)
	}
	return t, nil
}
