package gas

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sound fails when an error says nothing or a question points outside its
// candidates.
func sound(t *testing.T, text string, err error) {
	t.Helper()
	var q *Question
	switch {
	case err.Error() == "":
		t.Fatalf("%q: the refusal is empty", text)
	case errors.As(err, &q) && (q.Careful >= len(q.Candidates) || q.Careful < noneCareful):
		t.Fatalf("%q: careful candidate %d of %d", text, q.Careful, len(q.Candidates))
	}
}

func FuzzParsePressure(f *testing.F) {
	for _, seed := range []string{"500psi", "500", "35 bar", "3.4 MPa", "1/4", "1,900 psi", "1.900 psi", "MT", "½", "25 %", "-1 bar", "1'900 psi", "0"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ParsePressure(text)
		if err != nil {
			sound(t, text, err)
		} else if !(p >= 0 && p <= highestFilling) {
			t.Fatalf("%q read as %v", text, p)
		}
		p, err = ParseGauge(text, PSI(2015))
		if err != nil {
			sound(t, text, err)
		} else if !(p >= 0 && p <= PSI(2015)*overfilled) {
			t.Fatalf("%q on a gauge of 2,015 psi read as %v", text, p)
		}
	})
}

func FuzzParseFlow(f *testing.F) {
	for _, seed := range []string{"4", "4 L/min", "1/8", "1 1/2", "0,5", "125 mL", "2-4", "O", "PRN", "setting 2", "1/8 litre per hour", "1-1-1-1", "½"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		flow, err := ParseFlow(text)
		if err != nil {
			sound(t, text, err)
		} else if !(flow >= 0 && flow <= highestFlow) {
			t.Fatalf("%q read as %v", text, flow)
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, seed := range []string{"21C", "70F", "-10 C", "294 K", "21", "−10 °C"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		celsius, err := ParseTemperature(text)
		if err != nil {
			sound(t, text, err)
		} else if !(celsius >= Coldest && celsius <= Warmest) {
			t.Fatalf("%q read as %v", text, celsius)
		}
	})
}

func FuzzParseHours(f *testing.F) {
	for _, seed := range []string{"1204.5", "1 204.5", "1,204", "1.204", "9.01E+09", "1.204,5 h"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		hours, err := ParseHours(text)
		if err != nil {
			sound(t, text, err)
		} else if hours < 0 || hours > inHours(longestMeter) {
			t.Fatalf("%q read as %v", text, hours)
		}
	})
}

func FuzzParseSize(f *testing.F) {
	for _, seed := range [][2]string{{"US-E", ""}, {"E", "US"}, {"E", ""}, {"10 L", "EU"}, {"size D", "UK"}, {"", ""}} {
		f.Add(seed[0], seed[1])
	}
	f.Fuzz(func(t *testing.T, text, region string) {
		s, err := ParseSize(text, region)
		if err != nil {
			sound(t, text, err)
		} else if found, ok := LookUp(s.Code); !ok || found.Code != s.Code {
			t.Fatalf("%q in %q read as %q, which is not in the table", text, region, s.Code)
		}
	})
}

func FuzzParseDuration(f *testing.F) {
	for _, seed := range []string{"30 min", "1 h 30 min", "1h30m", "14 days", "1.5h", "9999999999999999999 h", "min", "1:30", "90", "0"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseDuration(text)
		if err != nil {
			sound(t, text, err)
		} else if d < 0 || d > longestDuration {
			t.Fatalf("%q read as %v", text, d)
		}
	})
}

func FuzzParseLitres(f *testing.F) {
	for _, seed := range []string{"682 L", "0,55 m3", "244 ft3", "16.5 mL", "3,450 L", "682", "1'000 l"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLitres(text)
		if err != nil {
			sound(t, text, err)
		} else if !(l >= 0 && l <= mostLitres) {
			t.Fatalf("%q read as %v", text, l)
		}
		if bolus, mlErr := ParseMillilitres(text); (err == nil) != (mlErr == nil) || err == nil && bolus != Millilitres(l*1000) {
			t.Fatalf("%q read as %v L and %v mL", text, l, bolus)
		}
	})
}

func FuzzParseKilograms(f *testing.F) {
	for _, seed := range []string{"38 kg", "84 lb", "38,5 kg", "1,234 g", "8 oz", "12"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseKilograms(text)
		if err != nil {
			sound(t, text, err)
		} else if !(m >= 0 && m <= mostKilograms) {
			t.Fatalf("%q read as %v", text, m)
		}
	})
}

// Every parser of the package has a target here: a new one without fails.
func TestEveryParserIsFuzzed(t *testing.T) {
	source, err := filepath.Glob("*.go")
	require.NoError(t, err)
	var parsers, targets []string
	for _, name := range source {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`(?m)^func (Fuzz)?(Parse\w+)\(`).FindAllStringSubmatch(string(text), -1) {
			if m[1] == "" {
				parsers = append(parsers, m[2])
			} else {
				targets = append(targets, m[2])
			}
		}
	}
	// ParseGauge is driven by the target of ParsePressure, ParseMillilitres by
	// that of ParseLitres.
	assert.ElementsMatch(t, parsers, append(targets, "ParseGauge", "ParseMillilitres"))
}
