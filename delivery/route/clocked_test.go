package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery/route"
)

// A slow hour at twice the time: worked by hand.
func TestSlowHours(t *testing.T) {
	h := route.NewHours([]route.SlowHours{{From: 1000, Until: 2000, Percent: 200}})
	for _, c := range []struct{ now, drive, ends int64 }{
		{0, 1000, 1000},     // over before
		{900, 300, 1400},    // 100 before, 200 at half speed
		{1000, 600, 2100},   // 500 at half speed, 100 after
		{1999, 100, 2100},   // the second half a second at half speed, rounded up
		{3000, 100, 3100},   // after
		{-5000, 100, -4900}, // the day before
	} {
		assert.Equal(t, c.ends, h.Reach(c.now, c.drive), "%+v", c)
	}
	var even *route.Hours
	assert.Equal(t, int64(70), even.Reach(30, 40))
	assert.Equal(t, int64(30), even.Depart(70, 40))
}

// The latest time to set out still ends in time, and a second later no more; who leaves later never arrives sooner.
func TestHoursAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var slow []route.SlowHours
		at := int64(0)
		for range rapid.IntRange(0, 4).Draw(t, "bands") {
			from := at + rapid.Int64Range(0, 3000).Draw(t, "gap")
			at = from + rapid.Int64Range(1, 3000).Draw(t, "length")
			slow = append(slow, route.SlowHours{From: from, Until: at, Percent: rapid.Int64Range(100, 1000).Draw(t, "percent")})
		}
		h := route.NewHours(slow)
		by, drive := rapid.Int64Range(-5000, 20_000).Draw(t, "by"), rapid.Int64Range(0, 9000).Draw(t, "drive")
		leave := h.Depart(by, drive)
		assert.LessOrEqual(t, h.Reach(leave, drive), by)
		assert.Greater(t, h.Reach(leave+1, drive), by)
		assert.LessOrEqual(t, h.Reach(leave, drive), h.Reach(leave+1, drive))
	})
}

// strait is a depot and a home across the water: 600 s to the quay, a departure each hour that takes 1200 s, 300 s on.
func strait() route.Problem {
	p := route.Problem{
		Travel: [][]int64{{0, 3900}, {3900, 0}}, Distance: [][]int64{{0, 20_000}, {20_000, 0}},
		Stops:     []route.Stop{{Place: 1, Window: [2]int64{0, 40_000}, Service: 600}},
		Vehicles:  []route.Vehicle{{Name: "van", From: 1000, Until: 40_000}},
		Lines:     make([][]route.Sailing, 1),
		Crossings: []route.Crossing{{From: 0, To: 1, Before: 600, After: 300}, {From: 1, To: 0, Before: 300, After: 600}},
	}
	for at := int64(3600); at < 30_000; at += 3600 {
		p.Lines[0] = append(p.Lines[0], route.Sailing{Leaves: at, Arrives: at + 1200})
	}
	return p
}

func TestDriveWaitsForTheNextDeparture(t *testing.T) {
	p := strait()
	table, err := route.NewTimetable(p)
	require.NoError(t, err)
	for _, c := range []struct{ from, departs, starts, back int64 }{
		{1000, 3000, 5100, 9000},   // there 3600 to 4800, door 5100 to 5700, back 7200 to 8400
		{3000, 3000, 5100, 9000},   // just in time
		{3001, 6600, 8700, 12_600}, // a second late: an hour
	} {
		trip := table.Drive(0, c.from, []int{0})
		assert.Equal(t, c.departs, trip.Departure, "from %d", c.from)
		assert.Equal(t, c.starts, trip.Visits[0].Start, "from %d", c.from)
		assert.Equal(t, c.back, trip.Return, "from %d", c.from)
	}
	late := table.Drive(0, 29_000, []int{0}).Visits[0].Start
	assert.Equal(t, int64(29_000+7*24*3600), late, "after the last departure nobody comes that day")
}

func TestTimetablesThatCannotBe(t *testing.T) {
	for name, spoil := range map[string]func(p *route.Problem){
		"overtaken":     func(p *route.Problem) { p.Lines[0][0].Arrives = 20_000 },
		"leaves at":     func(p *route.Problem) { p.Lines[0][0].Arrives = 0 },
		"joins places":  func(p *route.Problem) { p.Crossings[0].To = 2 },
		"goes by line":  func(p *route.Problem) { p.Crossings[0].Line = 1 },
		"drives -1":     func(p *route.Problem) { p.Crossings[0].Before = -1 },
		"slow hours 0":  func(p *route.Problem) { p.Slow = []route.SlowHours{{From: 5, Until: 5, Percent: 120}} },
		"at 90 percent": func(p *route.Problem) { p.Slow = []route.SlowHours{{From: 5, Until: 9, Percent: 90}} },
	} {
		p := strait()
		spoil(&p)
		assert.ErrorContains(t, p.Validate(), name)
	}
}
