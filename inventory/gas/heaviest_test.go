package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A size without a known mass counts as more than every cylinder of its volume
// that is known weighs, and never as less than its gas and its volume need.
func TestASizeIsNeverCountedTooLight(t *testing.T) {
	for _, s := range Table(nil).All() {
		assert.Equal(t, s.GrossMass, s.GrossAtMost(), "%s", s.Code)
		unknown := s
		unknown.GrossMass = 0
		assert.GreaterOrEqual(t, unknown.GrossAtMost(), 0.999*s.GrossMass, "%s", s.Code)
		assert.Greater(t, s.WaterVolume, 0.0, "%s", s.Code)
	}
	j, _ := LookUp("UK-J")
	assert.InDelta(t, 90, j.GrossAtMost(), 2, "47.2 L of water in steel: 70 to 80 kg, from memory")
	d, _ := LookUp("AU-D")
	assert.InDelta(t, 10, d.Volume(), 0.1, "1,500 L at 150 bar")
}
