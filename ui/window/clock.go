package window

import (
	"sync/atomic"
	"time"

	"lungwort/delivery"
)

// clock shows the present on the programme's clock on the wall; until the book
// was read, and where the programme names no zone, on this machine's.
type clock struct {
	machine func() time.Time
	zone    atomic.Pointer[string]
}

func (c *clock) now() time.Time {
	now := c.machine()
	if zone := c.zone.Load(); zone != nil {
		return delivery.Programme{TimeZone: *zone}.OnTheWall(now)
	}
	return now
}

// setClock puts the window on the clock of a zone, and reads anew what shows
// times.
func (f *Frame) setClock(zone string) {
	if was := f.wall.zone.Swap(&zone); was == nil && zone == "" || was != nil && *was == zone {
		return
	}
	f.Reread()
}
