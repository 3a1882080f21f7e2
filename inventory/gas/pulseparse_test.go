package gas_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/gas"
)

func TestParsePulse(t *testing.T) {
	for text, want := range map[string]gas.Pulse{
		"":                     {},
		"16.5 mL, 20 a minute": {Bolus: 16.5, BreathsPerMinute: 20},
		" 16,5 mL,20 ":         {Bolus: 16.5, BreathsPerMinute: 20},
		"16.5mL, 18/min":       {Bolus: 16.5, BreathsPerMinute: 18},
	} {
		pulse, err := gas.ParsePulse(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, pulse, text)
		assert.Equal(t, want, mustRead(t, pulse.String()))
	}
	for text, why := range map[string]string{
		"16.5 mL": "write the bolus and the breaths a minute", "16.5 mL, often": "no number of breaths", "setting 2, 20": "", "16.5 mL, 0": "", "16.5 mL, NaN": "",
	} {
		_, err := gas.ParsePulse(text)
		assert.ErrorContains(t, err, why, text)
	}
}

func mustRead(t *testing.T, text string) gas.Pulse {
	pulse, err := gas.ParsePulse(text)
	require.NoError(t, err)
	return pulse
}

func TestADialIsReadFromASetting(t *testing.T) {
	for text, want := range map[string]string{"setting 2": "2", "Pulse setting 3.5": "3.5", "on setting: 2": "2", "pulse": "", "2": "2"} {
		assert.Equal(t, want, gas.Dial(text), text)
	}
	_, err := gas.ParseFlow("Setting 2")
	var setting *gas.SettingError
	require.ErrorAs(t, err, &setting)
	assert.Equal(t, "2", setting.Setting())
}

func FuzzParsePulse(f *testing.F) {
	for _, text := range []string{"", "16.5 mL, 20 a minute", "16,5 mL, 20/min", ",", "NaN mL, Inf", "setting 2, 20"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		pulse, err := gas.ParsePulse(text)
		if err != nil || pulse == (gas.Pulse{}) {
			return
		}
		_, err = pulse.Uses()
		assert.NoError(t, err, text)
	})
}
