package gas

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTransportNote: 30 psi on the gauge is 44.7 psi absolute, 20 is 34.7; the
// threshold is 40.6 psi absolute (PHMSA interpretation 03-0033, 2003).
func TestTransportNote(t *testing.T) {
	assert.Equal(t, "30 psi is 44.7 psi absolute: still regulated in transport from 40.6 psi absolute on; check the current rule.", TransportNote(PSI(30)))
	assert.Equal(t, "20 psi is 34.7 psi absolute: under 40.6 psi absolute; check the current rule.", TransportNote(PSI(20)))
	assert.Empty(t, TransportNote(PSI(300)))
	assert.Empty(t, TransportNote(-1))
}
