package delivery_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
)

// sailings is the isles with a timetable: West and Mid hourly from half past
// seven, East and Mid three times a day, and Mid to Far at any hour. Each quay
// is a tenth of a degree, 22 min of driving, from the middle of its island.
func sailings() delivery.Programme {
	p := isles()
	departures := func(text string) []delivery.Departure {
		all, err := delivery.ReadDepartures(text)
		if err != nil {
			panic(err)
		}
		return all
	}
	hourly := "daily"
	for hour := 7; hour < 20; hour++ {
		hourly += fmt.Sprintf(" %02d:30", hour)
	}
	p.Ferries[0].Ports = [2]delivery.Point{point(36.6, "West"), point(36.7, "Mid")}
	p.Ferries[0].Departs = [2][]delivery.Departure{departures(hourly), departures(hourly)}
	p.Ferries[1].Ports = [2]delivery.Point{point(36.9, "East"), point(36.8, "Mid")}
	p.Ferries[1].Departs = [2][]delivery.Departure{departures("daily 09:00 14:00 18:00"), departures("daily 10:00 16:00 19:00")}
	return p
}

func clockAt(text string) time.Time {
	at, err := time.Parse("15:04", text)
	if err != nil {
		panic(err)
	}
	return time.Date(minute(0).Year(), minute(0).Month(), minute(0).Day(), at.Hour(), at.Minute(), 0, 0, minute(0).Location())
}

// Worked by hand: 22 min to the quay, the passage, 22 min on. East is reached by way
// of Mid, 22 min between its quays.
func TestRideAtKeepsTheTimetable(t *testing.T) {
	west, mid, east, far := point(36.5, "West"), point(36.8, "Mid"), point(37.0, "East"), point(36.9, "Far")
	slow := sailings()
	slow.Slow = []delivery.SlowHours{{From: "08:00", Until: "09:00", Percent: 200}}
	weekend := sailings()
	weekend.Ferries[0].Departs[0] = []delivery.Departure{{Day: (minute(0).Weekday() + 1) % 7, At: "09:00"}}
	for name, c := range map[string]struct {
		programme     delivery.Programme
		from, to      delivery.Point
		leaves, there string
		days          int
	}{
		"just in time":                   {sailings(), west, mid, "08:08", "09:22", 0},
		"a minute late waits an hour":    {sailings(), west, mid, "08:09", "10:22", 0},
		"and back":                       {sailings(), mid, west, "08:08", "09:22", 0},
		"after the last: next morning":   {sailings(), west, mid, "19:09", "08:22", 1},
		"two ferries":                    {sailings(), west, east, "08:08", "11:12", 0}, // 08:30 to 09:00, 09:22, 10:00 to 10:50, 22 on
		"two ferries, the second missed": {sailings(), west, east, "09:09", "17:12", 0}, // 10:30 to 11:00, 16:00
		"slow hours on the way":          {slow, west, mid, "08:08", "10:22", 0},        // 44 min to the quay
		"slow hours by road":             {slow, west, point(36.6, "West"), "08:50", "09:17", 0},
		"tomorrow only":                  {weekend, west, mid, "08:00", "09:52", 1},
	} {
		leg := c.programme.RideAt(c.from, c.to, clockAt(c.leaves))
		require.True(t, leg.Known, name)
		assert.Equal(t, clockAt(c.there).AddDate(0, 0, c.days), clockAt(c.leaves).Add(leg.Takes), name)
	}
	assert.True(t, sailings().RideAt(west, far, clockAt("08:00")).Known, "a timetable, then a ferry at any hour")
}

func TestFerriesThatCannotBe(t *testing.T) {
	for says, spoil := range map[string]func(p *delivery.Programme){
		"one side only":   func(p *delivery.Programme) { p.Ferries[0].Departs[1] = nil },
		"is not given":    func(p *delivery.Programme) { p.Ferries[0].Ports[1] = delivery.Point{} },
		`leaves at "25:"`: func(p *delivery.Programme) { p.Ferries[0].Departs[0][0].At = "25:" },
		"takes 0s":        func(p *delivery.Programme) { p.Ferries[0].Takes = 0 },
		"can't be": func(p *delivery.Programme) {
			p.Slow = []delivery.SlowHours{{From: "09:00", Until: "08:00", Percent: 120}}
		},
		"overlap": func(p *delivery.Programme) {
			p.Slow = []delivery.SlowHours{{From: "08:00", Until: "10:00", Percent: 120}, {From: "09:00", Until: "11:00", Percent: 120}}
		},
		"at 90 %": func(p *delivery.Programme) {
			p.Slow = []delivery.SlowHours{{From: "08:00", Until: "10:00", Percent: 90}}
		},
	} {
		p := sailings()
		require.NoError(t, p.Check())
		spoil(&p)
		assert.ErrorContains(t, p.Check(), says)
	}
}

// No planned arrival, and no return, is sooner than the timetable and the slow
// hours allow; nor is one on a board laid from the same plan.
func TestNoPlanIsQuickerThanTheTimetable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pl := day()
		depot := pl.Programme.Depots
		pl.Programme.Ferries = sailings().Ferries
		pl.Programme.Depots, pl.Now, pl.Day, pl.Steps = depot, clockAt("08:00"), clockAt("08:00"), 300
		pl.Programme.Vehicles[0].Until = "23:00"
		if rapid.Bool().Draw(t, "slow") {
			pl.Programme.Slow = []delivery.SlowHours{{From: "08:30", Until: "10:00", Percent: rapid.IntRange(100, 300).Draw(t, "percent")}}
		}
		places := make(map[inventory.AddressID]delivery.Point)
		var errands []delivery.Errand
		for i := range rapid.IntRange(1, 5).Draw(t, "homes") {
			area := rapid.SampledFrom([]string{"West", "Mid", "East", "Far"}).Draw(t, "area")
			e := errand(inventory.PersonID(fmt.Sprint(i)), point(rapid.Float64Range(36.5, 36.9).Draw(t, "lat"), area), 0, swap(inventory.Cylinder, "US-E", 1))
			places[e.Address.ID] = e.Address.Point
			errands = append(errands, e)
		}
		plan, err := pl.Plan(t.Context(), errands)
		require.NoError(t, err)
		var runs []delivery.Run
		for i, r := range plan.Runs {
			ridden(t, pl.Programme, places, r.Departs, r.Back, r.Stops)
			run := delivery.Run{ID: inventory.RunID(fmt.Sprint(i)), Vehicle: r.Vehicle, Day: r.Day, Departs: r.Departs, Back: r.Back}
			for _, s := range r.Stops {
				run.Stops = append(run.Stops, delivery.Stop{PlannedStop: s})
			}
			runs = append(runs, run)
		}
		for _, r := range boardOf(t, pl, runs, errands).Times() {
			var stops []delivery.PlannedStop
			for _, s := range r.Stops {
				stops = append(stops, s.PlannedStop)
			}
			if len(stops) > 0 {
				ridden(t, pl.Programme, places, r.Departs, r.Back, stops)
			}
		}
	})
}

// ridden drives a round anew from the first depot and back: nothing comes
// sooner than the rides allow.
func ridden(t assert.TestingT, p delivery.Programme, places map[inventory.AddressID]delivery.Point, departs, back time.Time, stops []delivery.PlannedStop) {
	at, now := p.Depots[0].Point, departs
	for _, s := range stops {
		there := now.Add(p.RideAt(at, places[s.Address], now).Takes)
		assert.False(t, s.Arrive.Before(there), "%s at %s, the ferry allows %s", s.Address, s.Arrive, there)
		at, now = places[s.Address], s.Leave
	}
	home := now.Add(p.RideAt(at, p.Depots[0].Point, now).Takes)
	assert.False(t, back.Before(home), "back at %s, the ferry allows %s", back, home)
}
