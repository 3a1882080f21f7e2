package gas

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// asks requires that err is a question with these candidates, in words, and
// returns the careful one.
func asks(t *testing.T, text string, err error, says ...string) Candidate {
	t.Helper()
	var q *Question
	require.ErrorAs(t, err, &q, "%q", text)
	assert.Equal(t, text, q.Text)
	var got []string
	for _, c := range q.Candidates {
		got = append(got, c.Says)
	}
	assert.Equal(t, says, got, "candidates of %q", text)
	if q.Careful < 0 {
		return Candidate{}
	}
	return q.Candidates[q.Careful]
}

func TestParsePressure(t *testing.T) {
	for text, want := range map[string]Pressure{
		"500psi": PSI(500), "500 PSI": PSI(500), "500 psig": PSI(500), " 500  psi ": PSI(500), "35 bar": Bar(35), "35bar": Bar(35),
		"13800 kPa": KPa(13800), "13.8 MPa": MPa(13.8), "3.4 MPa": MPa(3.4), "13,8 MPa": MPa(13.8), "1,900 psi": PSI(1900), "1 900 psi": PSI(1900),
		"1'900 psi": PSI(1900), "13,800 kPa": KPa(13800), "1900.5 psi": PSI(1900.5), "0": 0, "0 psi": 0, "140 kg/cm2": Pressure(140 * 98066.5), "1.013 bar": Bar(1.013), "0.125 bar": Bar(0.125),
	} {
		got, err := ParsePressure(text)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, float64(want), float64(got), 1e-3, "%q", text)
	}
	got, err := ParsePressure("35 bar")
	require.NoError(t, err)
	assert.Equal(t, "508 psi", got.String())
}

func TestBareGaugeNumberIsAskedAbout(t *testing.T) {
	for text, says := range map[string][]string{
		"500":   {"500 psi", "500 kPa (73 psi)"},
		"35":    {"35 psi", "35 bar (508 psi)"},
		"200":   {"200 psi", "200 bar (2,901 psi)", "200 kPa (29 psi)"},
		"13800": {"13800 kPa (2,002 psi)"},
		"13.8":  {"13.8 psi", "13.8 bar (200 psi)", "13.8 MPa (2,002 psi)"},
		"1,900": {"1900 psi", "1900 kPa (276 psi)"},
	} {
		_, err := ParsePressure(text)
		careful := asks(t, text, err, says...)
		var q *Question
		require.ErrorAs(t, err, &q)
		for _, c := range q.Candidates {
			assert.LessOrEqual(t, careful.Pressure, c.Pressure, "%q: the lowest is the careful one", text)
		}
	}
	_, err := ParsePressure("99999")
	asks(t, "99999", err)
}

func TestOpenSeparatorIsAskedAbout(t *testing.T) {
	_, err := ParsePressure("1.900 psi")
	assert.Equal(t, PSI(1.9), asks(t, "1.900 psi", err, "1.9 psi", "1900 psi").Pressure)
	_, err = ParsePressure("13,800 bar")
	asks(t, "13,800 bar", err, "13.8 bar")
	_, err = ParseHours("1.204")
	asks(t, "1.204", err, "1.2 h", "1204 h")
}

func TestConclusionsAreNotReadings(t *testing.T) {
	for _, text := range []string{"full", "Full", "MT", "empty", "?", "1/4", "½", "half", "25 %", "3/4 full"} {
		_, err := ParsePressure(text)
		asks(t, text, err)
	}
}

func TestParsePressureRefuses(t *testing.T) {
	for _, text := range []string{"", "psi", "-200 psi", "9000 psi", "500 furlongs", "12 34 psi", "1 9000 kPa", "1,90,0 psi", "5OO psi", "2000-1900 psi", "1e3 psi", "500 psia", "Inf psi", "NaN"} {
		_, err := ParsePressure(text)
		assert.Error(t, err, "%q", text)
	}
}

func TestParseGaugeKnowsTheFullPressure(t *testing.T) {
	full := PSI(2000)
	for text, want := range map[string]float64{"1/4": 500, "1/2": 1000, "¾": 1500, "half": 1000, "3/4 full": 1500, "25%": 500, "500 psi": 500} {
		got, err := ParseGauge(text, full)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, want, got.PSI(), 1e-6, "%q", text)
	}
	_, err := ParseGauge("full", full)
	assert.Zero(t, asks(t, "full", err, "2,000 psi"), "full is no careful assumption")
	_, err = ParseGauge("MT", full)
	assert.Equal(t, Pressure(0), asks(t, "MT", err, "0 psi").Pressure)
	_, err = ParseGauge("3000 psi", full)
	assert.ErrorContains(t, err, `"3000 psi" is more than this cylinder holds (full is 2,000 psi)`)
}

func TestParseFlow(t *testing.T) {
	for text, want := range map[string]Flow{
		"4": 4, "4 L/min": 4, "2 LPM": 2, "2lpm": 2, "2 l": 2, "2 litres per minute": 2, "0": 0, "1/8": 0.125, "1/8 L/min": 0.125, "⅛": 0.125, "1 1/2": 1.5, "1½ LPM": 1.5,
		"0,5": 0.5, "2,5": 2.5, ".5": 0.5, "0.25": 0.25, "125 mL": 0.125, "125 ml/min": 0.125, "1,250 mL": 1.25, "500 cc/min": 0.5,
	} {
		got, err := ParseFlow(text)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, float64(want), float64(got), 1e-12, "%q", text)
	}
}

func TestFlowRangeIsAskedAboutAndTheHigherIsCareful(t *testing.T) {
	for text, says := range map[string][]string{
		"2-4": {"2 L/min", "4 L/min"}, "4-2": {"4 L/min", "2 L/min"}, "2 – 4 LPM": {"2 L/min", "4 L/min"}, "2 to 4": {"2 L/min", "4 L/min"},
		"2 L/min - 4 L/min": {"2 L/min", "4 L/min"}, "1/8-1/4": {"0.125 L/min", "0.25 L/min"},
	} {
		_, err := ParseFlow(text)
		careful := asks(t, text, err, says...)
		assert.Equal(t, max(says[0], says[1]), careful.Says, "careful flow of %q", text)
	}
}

func TestFlowPerHourIsAskedAbout(t *testing.T) {
	text := "1/8 litre per hour" // an order for an infant, as written
	_, err := ParseFlow(text)
	assert.Equal(t, Flow(0.125), asks(t, text, err, "0.125 L/min", "0.002 L/min").Flow)
	_, err = ParseFlow("125 mL/hr")
	assert.Equal(t, Flow(0.125), asks(t, "125 mL/hr", err, "0.125 L/min", "0.002 L/min").Flow)
	_, err = ParseFlow("120 L per hour")
	asks(t, "120 L per hour", err)
}

func TestImplausibleFlowIsAskedAbout(t *testing.T) {
	_, err := ParseFlow("125")
	asks(t, "125", err, "0.125 L/min")
	for _, text := range []string{"90 L/min", "0.001", "1 ml"} {
		_, err := ParseFlow(text)
		asks(t, text, err)
	}
}

func TestParseFlowRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"O": "has the letter O in it", "turn the dial to O": "has the letter O in it", "1O": "has the letter O in it",
		"PRN": "says when, not how much", "2 PRN": "says when, not how much",
		"setting 2": "setting is not a flow", "pulse 3": "setting is not a flow", "2 (pulse)": "not a unit of flow",
		"-2": "below zero", "": "is not a flow", "two": "is not a flow", "2 furlongs": "not a unit of flow", "1/0": "not a unit of flow", "4/4": "not a unit of flow", "Oxygen 2 L/min": "is not a flow",
	} {
		_, err := ParseFlow(text)
		assert.ErrorContains(t, err, says, "%q", text)
		assert.ErrorContains(t, err, text)
	}
}

func TestParseTemperature(t *testing.T) {
	for text, want := range map[string]Celsius{"21C": 21, "21 °C": 21, "70F": Room, "70 °F": Room, "-10 C": -10, "−10 °C": -10, "294 K": 20.85, "14F": -10, "21,5 C": 21.5} {
		got, err := ParseTemperature(text)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, float64(want), float64(got), 1e-9, "%q", text)
	}
	_, err := ParseTemperature("21")
	assert.Equal(t, Celsius(21), asks(t, "21", err, "21 °C", "21 °F").Temperature, "the warmer is the careful one")
	_, err = ParseTemperature("70")
	asks(t, "70", err, "70 °F")
	_, err = ParseTemperature("2000")
	asks(t, "2000", err)
	for _, text := range []string{"", "warm", "500C", "-60 C", "21 X", "--5 C"} {
		_, err := ParseTemperature(text)
		assert.ErrorContains(t, err, text, "%q", text)
	}
}

func TestParseHours(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"1204.5": 1204*time.Hour + 30*time.Minute, "1 204.5": 1204*time.Hour + 30*time.Minute, "1,204.5 h": 1204*time.Hour + 30*time.Minute,
		"1.204,5": 1204*time.Hour + 30*time.Minute, "1204,5": 1204*time.Hour + 30*time.Minute, "1,204": 1204 * time.Hour, "18,099 hrs": 18099 * time.Hour,
		"0": 0, "3033": 3033 * time.Hour, "12.25": 12*time.Hour + 15*time.Minute, "1500.125": 1500*time.Hour + 7*time.Minute + 30*time.Second,
	} {
		got, err := ParseHours(text)
		require.NoError(t, err, "%q", text)
		assert.Equal(t, want, got, "%q", text)
	}
	for _, text := range []string{"", "-5", "9.01E+09", "999999999", "12 days", "n/a"} {
		_, err := ParseHours(text)
		assert.ErrorContains(t, err, text, "%q", text)
	}
}

func TestQuantitiesInWords(t *testing.T) {
	assert.Equal(t, "1,400 psi", PSI(1400).String())
	assert.Equal(t, "97 bar", PSI(1400).InBar())
	assert.Equal(t, "-5 psi", PSI(-5).String())
	assert.Equal(t, "0 psi", PSI(-0.2).String())
	assert.Equal(t, "4 L/min", Flow(4).String())
	assert.Equal(t, "0.125 L/min", Flow(0.125).String())
	assert.Equal(t, "682 L", Litres(682).String())
	assert.Equal(t, "10,700 L", Litres(10700).String())
	assert.Equal(t, "21.1 °C", Room.String())
}

func TestWrittenFlowReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Flow(rapid.IntRange(10, 60_000).Draw(t, "mL/min")) / 1000
		got, err := ParseFlow(want.String())
		require.NoError(t, err)
		require.InDelta(t, float64(want), float64(got), 1e-9)
	})
}

func TestWrittenPressureReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := PSI(float64(rapid.IntRange(0, 5000).Draw(t, "psi")))
		got, err := ParsePressure(want.String())
		require.NoError(t, err)
		require.InDelta(t, float64(want), float64(got), 1e-3)
	})
}

func TestParseDuration(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"30 min": 30 * time.Minute, "30min": 30 * time.Minute, "12 h": 12 * time.Hour, "1 h 30 min": 90 * time.Minute, "1h30m": 90 * time.Minute,
		"1.5 h": 90 * time.Minute, "1,5 hours": 90 * time.Minute, "14 days": 14 * 24 * time.Hour, "2 weeks": 14 * 24 * time.Hour, "90 s": 90 * time.Second,
		"0": 0, "0 min": 0, "1 day 6 hrs": 30 * time.Hour,
	} {
		got, err := ParseDuration(text)
		require.NoError(t, err, "%q", text)
		assert.Equal(t, want, got, "%q", text)
	}
	for _, text := range []string{"", "soon", "-5 min", "99999999 h", "5 min 1 h", "5 fortnights", "1:75", "1:5", "h"} {
		_, err := ParseDuration(text)
		assert.ErrorContains(t, err, "30 min, 12 h or 14 days", "%q", text)
	}
	_, err := ParseDuration("90")
	assert.Equal(t, 90*time.Minute, asks(t, "90", err, "90 min", "90 h").Hours, "the shorter is the careful one")
	_, err = ParseDuration("1:30")
	assert.Equal(t, 90*time.Second, asks(t, "1:30", err, "1 min 30 s", "1 h 30 min").Hours)
}

// 244 ft³ is the label of an H, 6,909 L; the foot and the pound are exact (NIST
// SP 811, appendix B).
func TestParseAmounts(t *testing.T) {
	for text, want := range map[string]Litres{
		"682 L": 682, "682l": 682, "0.55 m3": 550, "0,55 m³": 550, "244 ft3": 6909.31, "244 cu ft": 6909.31, "16.5 mL": 0.0165, "0": 0, "6 900 L": 6900, "3,450.5 L": 3450.5,
	} {
		got, err := ParseLitres(text)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, float64(want), float64(got), 0.01, "%q", text)
	}
	for text, want := range map[string]Kilograms{"38 kg": 38, "38,5 kg": 38.5, "73 lb": 33.112, "500 g": 0.5, "8 oz": 0.2268} {
		got, err := ParseKilograms(text)
		require.NoError(t, err, "%q", text)
		assert.InDelta(t, float64(want), float64(got), 0.001, "%q", text)
	}
	_, err := ParseLitres("3,450 L")
	assert.Equal(t, Litres(3.45), asks(t, "3,450 L", err, "3.45 L", "3450 L").Litres, "less gas is the careful side")
	_, err = ParseLitres("682")
	asks(t, "682", err)
	_, err = ParseKilograms("1,234 g")
	assert.Zero(t, asks(t, "1,234 g", err, "0.001 kg", "1.234 kg"))
	for _, text := range []string{"", "much", "-5 L", "9e9 L", "5 gallons", "900000 m3"} {
		_, err := ParseLitres(text)
		assert.ErrorContains(t, err, text, "%q", text)
		_, err = ParseKilograms(text)
		assert.Error(t, err, "%q", text)
	}
}
