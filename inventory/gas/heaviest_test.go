package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A size without a known mass counts as more than every cylinder of its volume
// that is known weighs, and never as less than its gas and its volume need.
func TestASizeIsNeverCountedTooLight(t *testing.T) {
	unknown := 0
	for _, s := range Table(nil).All() {
		known := s
		known.GrossMass = 0
		if s.GrossMass == 0 {
			unknown++
			assert.Greater(t, s.GrossAtMost(), float64(s.Contents)/1000, "%s", s.Code)
			continue
		}
		assert.Equal(t, s.GrossMass, s.GrossAtMost(), "%s", s.Code)
		assert.GreaterOrEqual(t, known.GrossAtMost(), s.GrossMass, "%s", s.Code)
	}
	assert.NotZero(t, unknown)
	j, _ := LookUp("UK-J")
	assert.InDelta(t, 90, j.GrossAtMost(), 2, "47.2 L of water in steel: 70 to 80 kg, from memory")
	d, _ := LookUp("AU-D")
	assert.InDelta(t, 10, d.Volume(), 0.1, "1,500 L at 150 bar")
}
