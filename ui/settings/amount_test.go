package settings

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/gas"
)

// What is written on the screen is read back as it was.
func TestSpellIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := time.Duration(rapid.IntRange(0, 60*24*60).Draw(t, "minutes")) * time.Minute
		got, err := gas.ParseDuration(spell(want))
		if err != nil || got != want {
			t.Fatalf("%v is written %q and read as %v, %v", want, spell(want), got, err)
		}
	})
}

func TestAmount(t *testing.T) {
	// 1 mile is 1.609344 km, 1 foot 0.3048 m, exactly (NIST SP 811, appendix B.6).
	road := []unit{{"km/h", 1}, {"mph", 1.609344}}
	for _, tc := range []struct {
		text  string
		units []unit
		want  float64
		bad   bool
	}{
		{"40 km/h", road, 40, false},
		{"25 mph", road, 40.2336, false},
		{"40", road, 0, true},
		{"1.5", []unit{{"", 1}}, 1.5, false},
		{"92 %", []unit{{"%", 1}}, 92, false},
		{"92", []unit{{"%", 1}}, 92, false},
		{"1,5", []unit{{"", 1}}, 0, true},
		{"many", road, 0, true},
		{"", road, 0, true},
	} {
		got, err := amount(tc.text, tc.units...)
		require.Equal(t, tc.bad, err != nil, "%q: %v", tc.text, err)
		assert.InDelta(t, tc.want, got, 1e-9, "%q", tc.text)
	}
}

func TestPoint(t *testing.T) {
	for text, bad := range map[string]bool{
		"36.512, -40.521": false, "": false, "36.512": true, "north, west": true, "91, 0": true, "0, -181": true,
	} {
		p, err := point(text)
		assert.Equal(t, bad, err != nil, "%q: %v", text, err)
		if !bad {
			assert.Equal(t, text, where(p), "%q is written as it was read", text)
		}
	}
}
