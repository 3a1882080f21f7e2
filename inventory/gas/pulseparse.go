package gas

import (
	"fmt"
	"strconv"
	"strings"
)

// PulseExample is how the use of a pulse device is written: what one breath gets
// at this setting, and the breaths a minute.
const PulseExample = "16.5 mL, 20 a minute"

// ParsePulse reads the use of a pulse device, written as PulseExample or as
// String writes it. An empty text says nothing.
func ParsePulse(text string) (Pulse, error) {
	if text = strings.TrimSpace(text); text == "" {
		return Pulse{}, nil
	}
	at := strings.LastIndex(text, ",") // one before it may be a decimal comma
	if at < 0 {
		return Pulse{}, fmt.Errorf("write the bolus and the breaths a minute, as %s", PulseExample)
	}
	breaths := strings.TrimSpace(text[at+1:])
	bolus, err := ParseMillilitres(text[:at])
	if err != nil {
		return Pulse{}, err
	}
	number, _, _ := strings.Cut(breaths, " ")
	rate, err := strconv.ParseFloat(strings.TrimSuffix(number, "/min"), 64)
	if err != nil {
		return Pulse{}, fmt.Errorf("“%s” is no number of breaths: write it as %s", breaths, PulseExample)
	}
	pulse := Pulse{Bolus: bolus, BreathsPerMinute: rate}
	_, err = pulse.Uses()
	return pulse, err
}

// String returns the use as ParsePulse reads it; empty when nothing is known.
func (p Pulse) String() string {
	if p.Bolus == 0 {
		return ""
	}
	return fmt.Sprintf("%g mL, %g a minute", float64(p.Bolus), p.BreathsPerMinute)
}

// A SettingError refuses a setting of a pulse device where a flow belongs.
type SettingError struct{ Text string }

// Error says what to give instead.
func (e *SettingError) Error() string {
	return fmt.Sprintf("%q is a setting of a pulse device, and a setting is not a flow. Enter the device's bolus in mL and the breaths a minute instead", e.Text)
}

// Setting returns what stands on the dial: "2" of "Setting 2".
func (e *SettingError) Setting() string {
	return Dial(e.Text)
}

// Dial returns a setting without the words around it, as two settings are
// compared: "2" of "pulse setting 2".
func Dial(text string) string {
	var dial []string
	for _, word := range strings.Fields(strings.ToLower(text)) {
		switch word = strings.Trim(word, ".,:"); word {
		case "", "setting", "pulse", "pulsed", "level", "bolus", "on", "at":
		default:
			dial = append(dial, word)
		}
	}
	return strings.Join(dial, " ")
}
