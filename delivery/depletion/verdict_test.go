package depletion

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/inventory/gas"
)

func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

func in(h float64) time.Time { return night.Add(hours(h)) }

// onE breathes 2 L/min from one E at 1,500 psi, read now.
func onE(t testing.TB) Household {
	return Household{Now: night, Source: OnCylinder, Flow: 2, ValveOpen: true,
		Cylinders: []Cylinder{cylinder(t, "US-E", 1500, 0)}}
}

// withBackup has a concentrator running and one E at 2,000 psi behind it.
func withBackup(t testing.TB) Household {
	return Household{Now: night, Source: OnConcentrator, Flow: 2,
		Cylinders: []Cylinder{cylinder(t, "US-E", 2000, hours(20))}}
}

// On the cylinder: dry when the planning dry time is past; short when help is
// after act-by; tight when now + margin × wait is after act-by; else holds.
func TestVerdictOnCylinder(t *testing.T) {
	h := onE(t)
	f := Predict(h, usual)
	left := f.ActBy.Sub(night)
	for _, c := range []struct {
		name   string
		help   time.Time
		margin float64
		want   Verdict
	}{
		{"help now", night, 1.5, Holds},
		{"margin kept to the second", night.Add(left * 2 / 3), 1.5, Holds},
		{"margin just not kept", night.Add(left*2/3 + time.Second), 1.5, Tight},
		{"help at act-by", f.ActBy, 1.5, Tight},
		{"help at act-by, no margin asked", f.ActBy, 1, Holds},
		{"help after act-by", f.ActBy.Add(time.Second), 1.5, Short},
		{"no help known", time.Time{}, 1.5, Unknown},
		{"help was due before now", night.Add(-time.Minute), 1.5, Unknown},
	} {
		assert.Equal(t, c.want, Judge(h, f, c.help, c.margin), c.name)
	}

	h.Now = f.PlanningDry
	assert.Equal(t, Dry, Judge(h, Predict(h, usual), h.Now, 1.5), "planning dry time reached, help at the door")
	h.Now = f.PlanningDry.Add(-time.Minute)
	assert.Equal(t, Short, Judge(h, Predict(h, usual), h.Now.Add(time.Hour), 1.5), "a minute before it, help in an hour")
}

// Concentrator running: short when a dated cause before help exceeds the
// cover; tight while a backup task is open; else holds; never dry.
func TestVerdictOnConcentrator(t *testing.T) {
	cover := Predict(withBackup(t), usual).CoverLow.Hours()
	for _, c := range []struct {
		name           string
		outages, trips []Span
		backup         time.Time
		help           float64
		want           Verdict
	}{
		{name: "nothing dated", help: 48, want: Holds},
		{name: "outage outlasts the cover before help", outages: []Span{{in(5), in(20)}}, help: 24, want: Short},
		{name: "help comes before the cover has ended", outages: []Span{{in(5), in(20)}}, help: 5 + cover - 0.1, want: Holds},
		{name: "help comes after it", outages: []Span{{in(5), in(20)}}, help: 5 + cover + 0.1, want: Short},
		{name: "outage without end", outages: []Span{{From: in(5)}}, help: 24, want: Short},
		{name: "outage shorter than the cover even if it overruns", outages: []Span{{in(5), in(6)}}, help: 24, want: Holds},
		{name: "outage after help", outages: []Span{{in(30), in(60)}}, help: 24, want: Holds},
		{name: "trip outlasts the cover", trips: []Span{{in(3), in(13)}}, help: 8, want: Short},
		{name: "gas comes before the trip begins", trips: []Span{{in(3), in(13)}}, help: 2, want: Holds},
		{name: "outage and trip together outlast it", outages: []Span{{in(1), in(3)}}, trips: []Span{{in(8), in(11)}}, help: 20, want: Short},
		{name: "outage during a trip is counted once", outages: []Span{{in(1), in(2.2)}}, trips: []Span{{in(1.6), in(2.4)}}, help: 20, want: Holds},
		{name: "backup task open", backup: in(50), help: 48, want: Tight},
		{name: "backup task overdue", backup: in(-5), help: 48, want: Tight},
		{name: "short goes before tight", outages: []Span{{in(5), in(20)}}, backup: in(50), help: 24, want: Short},
	} {
		h := withBackup(t)
		h.Outages, h.Trips, h.BackupDue = c.outages, c.trips, c.backup
		f := Predict(h, usual)
		assert.Equal(t, c.want, Judge(h, f, in(c.help), 1.5), "%s (cover %.2f h)", c.name, cover)
	}

	quiet := withBackup(t)
	assert.Equal(t, Holds, Judge(quiet, Predict(quiet, usual), time.Time{}, 1.5), "nothing dated rests on no help")
	quiet.Outages = []Span{{in(5), in(20)}}
	assert.Equal(t, Unknown, Judge(quiet, Predict(quiet, usual), time.Time{}, 1.5), "an outage does")

	empty := withBackup(t)
	empty.Cylinders[0].Gauge = 0
	assert.Equal(t, Holds, Judge(empty, Predict(empty, usual), in(5), 1.5), "never dry, even with an empty backup")
}

// A cylinder that stands closed beside the one breathed from may have been read
// longer ago: nothing was used from it.
func TestAClosedCylinderIsCountedLonger(t *testing.T) {
	h := onE(t)
	alone := Predict(h, usual)
	h.OpenLimit, h.ShutLimit = hours(12), hours(14*24)
	spare := h.Cylinders[0]
	spare.InUse, spare.ReadAt = false, in(-5*24)
	h.Cylinders = append(h.Cylinders, spare)
	both := Predict(h, usual)
	assert.True(t, both.Known)
	assert.Equal(t, alone.PlanningDry.Sub(night)*2, both.PlanningDry.Sub(night))

	h.Cylinders[1].ReadAt = in(-15 * 24)
	late := Predict(h, usual)
	assert.Equal(t, alone.PlanningDry, late.PlanningDry)
	assert.Contains(t, late.Assumptions()[0], "not counted: the reading of the US-E is 15 d 0 h old")
}

// Unknown when a fact the verdict rests on is too old, missing or in conflict.
func TestVerdictUnknown(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Household)
		says   string
	}{
		{"reading too old", func(h *Household) { h.Cylinders[0].ReadAt, h.OpenLimit = in(-25), hours(24) },
			"The reading of the US-E is 25 h 00 min old, older than the limit of 24 h 00 min. Ask for a new one"},
		{"no reading", func(h *Household) { h.Cylinders[0].Known = false }, "The US-E has no gauge reading. Ask for one"},
		{"reading ahead of now", func(h *Household) { h.Cylinders[0].ReadAt = in(0.5) },
			"The reading of the US-E lies 30 min ahead. Ask when it was taken"},
		{"source unclear", func(h *Household) { h.Source = Unclear },
			"It is not known whether the person breathes from a cylinder or the concentrator. Ask"},
		{"no source", func(h *Household) { h.Source = "" },
			"It is not known whether the person breathes from a cylinder or the concentrator. Ask"},
		{"pulse device", func(h *Household) { h.Pulse = true },
			"The device gives pulses, and a pulse setting is not a flow in L/min. Without the device's bolus and a breath rate there is no prediction"},
		{"valve open while the concentrator runs", func(h *Household) { h.Source = OnConcentrator },
			"The concentrator runs, yet the valve of a cylinder is recorded as open. Ask"},
		{"no order", func(h *Household) { h.Flow = 0 }, "No flow is ordered and none was observed. Ask for the order"},
		{"flow below zero", func(h *Household) { h.ObservedFlow = -1 }, "A flow is not between 0.001 L/min and 60 L/min. Check the order"},
		{"hours beyond a day", func(h *Household) { h.HoursPerDay = 25 }, "25 hours a day do not fit in a day. Check the order"},
		{"on a cylinder that is not there", func(h *Household) { h.Cylinders = nil },
			"The person breathes from a cylinder, but none is recorded in the home. Ask"},
	} {
		h := onE(t)
		c.change(&h)
		f := Predict(h, usual)
		assert.False(t, f.Known, c.name)
		assert.Equal(t, c.says, f.Status, c.name)
		assert.Equal(t, Unknown, Judge(h, f, in(1), 1.5), c.name)
	}

	h := onE(t)
	h.Cylinders[0].Gauge = h.Cylinders[0].Size.Service * 2
	assert.Contains(t, Predict(h, usual).Status, "more than US-E holds", "a gauge twice full is in conflict with the size")
	f := Predict(onE(t), Limits{Reserve: usual.Reserve, Temperature: usual.Temperature})
	assert.Equal(t, "The programme's limit for being without oxygen must lie between 0 and 100 %. Set it again", f.Status)
}

func TestAnUnclearSourceIsCountedAsTheCylinder(t *testing.T) {
	h := onE(t)
	careful := Predict(h, usual)
	h.Source = Unclear
	f := Predict(h, usual)
	assert.Equal(t, careful.ActBy, f.ActBy)
	assert.Equal(t, careful.Low, f.Low)
}

func TestAValveOpenBesideAConcentratorIsCountedAsRunningOut(t *testing.T) {
	h := withBackup(t)
	h.Cylinders = append(h.Cylinders, cylinder(t, "US-D", 2000, hours(20)))
	h.ValveOpen = true
	f := Predict(h, usual)
	h.Cylinders, h.ValveOpen = h.Cylinders[1:], false
	assert.InDelta(t, Predict(h, usual).CoverMid.Minutes(), f.CoverMid.Minutes(), 1, "only the second cylinder is left after 20 h")
}

// What is not known is not counted: a spare without a reading adds nothing
// and is named.
func TestSpareWithoutReading(t *testing.T) {
	h := onE(t)
	alone := Predict(h, usual)
	h.Cylinders = append(h.Cylinders, Cylinder{Size: size(t, "US-D")})
	f := Predict(h, usual)
	assert.True(t, f.Known)
	assert.Equal(t, alone.Low, f.Low)
	assert.Contains(t, f.Assumptions(), "not counted: the US-D has no gauge reading. Ask for one")
}

// Lists run dry, short, unknown, tight, holds.
func TestVerdictOrder(t *testing.T) {
	got := []Verdict{Holds, Unknown, Short, Tight, Dry}
	slices.SortFunc(got, func(a, b Verdict) int { return a.Rank() - b.Rank() })
	assert.Equal(t, []Verdict{Dry, Short, Unknown, Tight, Holds}, got)
	assert.Equal(t, Unknown.Rank(), Verdict("").Rank())
}

// A backup read on Monday and opened now has lost nothing in between.
func TestAgeingStartsWhenTheValveWasOpened(t *testing.T) {
	size, _ := gas.LookUp("US-E")
	now := time.Date(2030, time.March, 4, 14, 0, 0, 0, time.UTC)
	home := Household{
		Now: now, Source: OnCylinder, ValveOpen: true, Flow: 2, HighFlow: 2, HoursPerDay: 24,
		Cylinders: []Cylinder{{Size: size, Gauge: gas.PSI(1800), ReadAt: now.Add(-48 * time.Hour), Known: true, InUse: true}},
	}
	limits := Limits{WithoutOxygen: 0.01, Reserve: gas.UsualReserve, Temperature: gas.Room}
	assert.False(t, Predict(home, limits).PlanningDry.After(now), "open since the reading: long dry")
	home.Cylinders[0].OpenedAt = now.Add(-time.Hour)
	// (1800 - 200) psi x 0.28 / 2 L/min = 224 min, of which 60 have passed.
	assert.Equal(t, 164*time.Minute, Predict(home, limits).PlanningDry.Sub(now))
}
