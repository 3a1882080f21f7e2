package discharge

import (
	"fmt"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// bolusExample is how the use of a pulse device is written: what one breath gets
// at this setting, and the breaths a minute.
const bolusExample = "16.5 mL, 20 a minute"

// readBolus reads the use of a pulse device. An empty text says nothing.
func readBolus(text string) (gas.Pulse, error) {
	if text = strings.TrimSpace(text); text == "" {
		return gas.Pulse{}, nil
	}
	at := strings.LastIndex(text, ",") // one before it may be a decimal comma
	if at < 0 {
		return gas.Pulse{}, fmt.Errorf("write the bolus and the breaths a minute, as %s", bolusExample)
	}
	breaths := strings.TrimSpace(text[at+1:])
	size, err := gas.ParseMillilitres(text[:at])
	if err != nil {
		return gas.Pulse{}, err
	}
	number, _, _ := strings.Cut(breaths, " ")
	rate, err := strconv.ParseFloat(strings.TrimSuffix(number, "/min"), 64)
	if err != nil {
		return gas.Pulse{}, fmt.Errorf("“%s” is no number of breaths: write it as %s", breaths, bolusExample)
	}
	pulse := gas.Pulse{Bolus: size, BreathsPerMinute: rate}
	_, err = pulse.Uses()
	return pulse, err
}

// spellBolus writes what an order says of a pulse device; empty: nothing.
func spellBolus(o delivery.Ordered) string {
	if o.Bolus == 0 {
		return ""
	}
	return fmt.Sprintf("%g mL, %g a minute", float64(o.Bolus), o.Breaths)
}
