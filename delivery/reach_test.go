package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
)

// TestSoonest walks a vehicle's way by hand: 10 min to load, then the ride of
// great circle × detour at the programme's speed.
func TestSoonest(t *testing.T) {
	zone := time.FixedZone("", -3*3600)
	at := func(clock string) time.Time {
		c, _ := time.Parse("15:04", clock)
		return time.Date(2030, 3, 5, c.Hour(), c.Minute(), 0, 0, zone)
	}
	p := delivery.NewProgramme()
	depot := delivery.Point{Lat: 36.5, Lon: -40.5, Area: "Great Quillet"}
	p.Depots = []delivery.Site{{Name: "harbour", Point: depot}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "harbour", From: "08:00", Until: "20:00"}}
	// 0.1 degree of latitude is 11.12 km; × 1.3 at 40 km/h is 21.7 min.
	home := delivery.Point{Lat: 36.6, Lon: -40.5, Area: "Great Quillet"}

	for name, c := range map[string]struct {
		now   string
		back  map[string]time.Time
		to    delivery.Point
		want  string
		known bool
	}{
		"leaves after loading":         {"16:20", nil, home, "16:52", true},
		"waits for its shift":          {"07:00", nil, home, "08:22", true},
		"is out on a run":              {"16:20", map[string]time.Time{"van 1": at("18:00")}, home, "18:32", true},
		"the way is not known":         {"16:20", nil, delivery.Point{}, "18:30", false},
		"too late for a ride in shift": {"19:45", nil, home, "", false},
	} {
		got := p.Soonest(at(c.now), c.back, c.to)
		if c.want == "" {
			assert.Zero(t, got, name)
			continue
		}
		assert.Equal(t, delivery.Reach{At: at(c.want), Vehicle: "van 1", Known: c.known}, got, name)
	}
}
