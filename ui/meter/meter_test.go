package meter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/meter"
)

var (
	cylinder = inventory.Item{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}
	machine  = inventory.Item{Spec: inventory.Spec{Kind: inventory.Concentrator}}
)

func TestOf(t *testing.T) {
	for text, psi := range map[string]float64{"1950": 1950, "1,950": 1950, "0": 0, "500psi": 500, "100 bar": 1450.377} {
		r, err := meter.Of(cylinder, text)
		require.NoError(t, err, text)
		assert.InDelta(t, psi, r.Gauge.PSI(), 0.01, text)
	}
	r, err := meter.Of(machine, "1204.5 h")
	require.NoError(t, err)
	assert.InDelta(t, 1204.5, *r.Hours, 1e-9)
	for _, nothing := range []string{"", "  "} {
		r, err = meter.Of(cylinder, nothing)
		require.NoError(t, err)
		assert.Equal(t, meter.Reading{}, r)
	}
}

func TestOfRefusesAndAsks(t *testing.T) {
	for _, c := range []struct {
		item       inventory.Item
		text, says string
	}{
		{cylinder, "full", "what does the gauge show"},
		{cylinder, "4000", "more than this cylinder holds"},
		{cylinder, "high", "not a gauge reading"},
		{inventory.Item{Spec: inventory.Spec{Kind: inventory.Cylinder}}, "900", "size of the cylinder is not known"},
		{machine, "long", "not an hours meter reading"},
	} {
		_, err := meter.Of(c.item, c.text)
		assert.ErrorContains(t, err, c.says, c.text)
	}
}

func TestScanned(t *testing.T) {
	for text, want := range map[string]bool{"LW-00014-X": true, "E-20114": true, "1950": false, "100 bar": false, "full": false, "empty": false, "": false} {
		assert.Equal(t, want, meter.Scanned(text), text)
	}
}

// FuzzOf: whatever is typed, a reading is possible or refused, never a panic.
func FuzzOf(f *testing.F) {
	for _, s := range []string{"1950", "1/2", "100 bar", "ü", "1e309", ",", "-5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := meter.Of(cylinder, text)
		if err == nil && r.Gauge != nil && (*r.Gauge < 0 || *r.Gauge > gas.PSI(4000)) {
			t.Fatalf("%q gives %s", text, *r.Gauge)
		}
	})
}
