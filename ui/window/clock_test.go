package window

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// Once the programme says by which clock it lives, the window shows that clock,
// and what is typed is on it.
func TestTheWindowIsOnTheProgrammesClock(t *testing.T) {
	s := newStage(t)
	before := s.desk.Now()
	_, err := s.desk.Desk.Do(t.Context(), s.work.Hand(inventory.Keyed), delivery.SetClock{Zone: "Asia/Tokyo"})
	require.NoError(t, err)
	opened := len(s.stubs[work.Needs].opened)
	s.Refresh()

	now := s.work.Now()
	assert.True(t, now.Equal(before))
	assert.Equal(t, "Asia/Tokyo", now.Location().String())
	assert.Equal(t, now.Format("Mon 2 Jan 15:04"), s.clock.Text)
	assert.Len(t, s.stubs[work.Needs].opened, opened, "only screens that may be read anew at any moment are")
	_, offset := now.Zone()
	assert.Equal(t, 9*time.Hour, time.Duration(offset)*time.Second, "Tokyo is nine hours east all year (IANA time zone database)")
}
