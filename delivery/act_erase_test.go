package delivery

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// A supplier of Medicare keeps the papers of a service for seven years from its
// date (42 CFR 424.516(f)); a distributor of medical gas keeps records for three
// years after the batch went out (21 CFR 213.180(c)), which is within it.
func TestRecordsAreKeptFromTheLastService(t *testing.T) {
	stopped := time.Date(2026, time.March, 10, 9, 0, 0, 0, time.UTC)
	p := NewProgramme()
	assert.Equal(t, "10 Mar 2033", p.keptUntil(Care{Phase: Over, Since: stopped}).Format("2 Jan 2006"))
	assert.True(t, p.keptUntil(Care{Phase: Known, Since: stopped}).IsZero(), "nothing was ever lent")
	p.KeepYears = 3
	assert.Equal(t, 2029, p.keptUntil(Care{Phase: Over, Since: stopped}).Year())
	p.KeepYears = 0
	assert.False(t, stopped.Before(p.keptUntil(Care{Phase: Over, Since: stopped})), "no period")
}
