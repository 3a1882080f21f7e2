package depletion

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/inventory/gas"
)

// Act-by on the cylinder: the earliest time at which the chance of being
// without oxygen reaches the limit, never later than the planning dry time.
func TestActByOnCylinder(t *testing.T) {
	h := onE(t)
	h.HighFlow = 3
	f := Predict(h, usual)
	assert.Equal(t, f.PlanningDry, f.ActBy, "planning at 3 L/min ends before the 1 %% end at 2 L/min")
	assert.Equal(t, CausePlanning, f.ActByCause)

	h = onE(t)
	for _, limit := range []float64{0.001, 0.01} {
		f = Predict(h, Limits{WithoutOxygen: limit, Temperature: gas.Room})
		assert.True(t, f.ActBy.Before(f.PlanningDry), "limit %g: act-by %v, planning %v without a reserve", limit, f.ActBy, f.PlanningDry)
		assert.Equal(t, CauseChance, f.ActByCause, "limit %g", limit)
		assert.InEpsilon(t, limit, f.WithoutBy(f.ActBy), 0.01, "limit %g", limit)
	}
}

// Concentrator running: act-by comes only from dated causes, and the dry
// times are null.
func TestActByOnConcentrator(t *testing.T) {
	none := Predict(withBackup(t), usual)
	assert.True(t, none.Known)
	assert.Zero(t, none.ActBy)
	assert.Zero(t, none.PlanningDry)
	assert.Zero(t, none.Low)
	assert.Zero(t, none.Mid)
	assert.Zero(t, none.High)
	assert.Positive(t, none.CoverLow)

	for _, c := range []struct {
		name           string
		outages, trips []Span
		backup         time.Time
		want           time.Time
		cause          string
	}{
		{name: "outage: start and low cover", outages: []Span{{in(5), in(20)}}, want: in(5).Add(none.CoverLow), cause: CauseOutage},
		{name: "power out since an hour after the reading", outages: []Span{{From: in(-1)}}, want: in(-1).Add(none.CoverLow), cause: CauseOutage},
		{name: "short outage"},
		{name: "trip: before the person leaves", trips: []Span{{in(3), in(13)}}, want: in(3), cause: CauseTrip},
		{name: "trip that may overrun: before the person leaves too", trips: []Span{{in(3), in(3).Add(none.CoverLow * 9 / 10)}}, want: in(3), cause: CauseTrip},
		{name: "short trip", trips: []Span{{in(3), in(4)}}},
		{name: "first of two outages", outages: []Span{{in(30), in(50)}, {in(5), in(20)}}, want: in(5).Add(none.CoverLow), cause: CauseOutage},
		{name: "gas of a short outage, and of its overrun, is gone for the next", outages: []Span{{in(2), in(3)}, {in(5), in(20)}},
			want: in(3.3).Add(none.CoverLow), cause: CauseOutage},
		{name: "outage that may overrun", outages: []Span{{in(5), in(5).Add(none.CoverLow * 9 / 10)}}, want: in(5).Add(none.CoverLow), cause: CauseOutage},
		{name: "backup task", backup: in(9), want: in(9), cause: CauseBackup},
		{name: "backup task before the outage", outages: []Span{{in(5), in(20)}}, backup: in(4), want: in(4), cause: CauseBackup},
		{name: "outage before the backup task", outages: []Span{{in(1), in(20)}}, backup: in(9), want: in(1).Add(none.CoverLow), cause: CauseOutage},
		{name: "outage that is over", outages: []Span{{in(-60), in(-40)}}},
	} {
		h := withBackup(t)
		h.Outages, h.Trips, h.BackupDue = c.outages, c.trips, c.backup
		f := Predict(h, usual)
		assert.Equal(t, c.want, f.ActBy, c.name)
		assert.Equal(t, c.cause, f.ActByCause, c.name)
		assert.Zero(t, f.Low, c.name)
	}
}

// Age the reading: gas now is gas at the reading less the use since.
func TestReadingsAreAged(t *testing.T) {
	h := onE(t)
	fresh := Predict(h, usual)
	h.Cylinders[0].ReadAt = in(-1)
	aged := Predict(h, usual)
	assert.Equal(t, fresh.PlanningDry.Add(-time.Hour), aged.PlanningDry)
	assert.Equal(t, fresh.Low.Add(-time.Hour), aged.Low)
	assert.InDelta(t, float64(fresh.Litres)-120, float64(aged.Litres), 1e-6, "an hour at 2 L/min")
	assert.Contains(t, aged.Assumptions(), "gauge read 1 h 00 min ago")

	h.HighFlow = 4
	assert.InDelta(t, float64(fresh.Litres)-240, float64(Predict(h, usual).Litres), 1e-6, "aged at the highest credible flow")

	out := withBackup(t)
	before := Predict(out, usual)
	out.Outages = []Span{{in(-3), in(-1)}}
	assert.Equal(t, before.CoverMid-2*time.Hour, Predict(out, usual).CoverMid, "two hours without power since the reading")
	out.Outages = []Span{{in(-30), in(-25)}}
	assert.Equal(t, before.CoverMid, Predict(out, usual).CoverMid, "an outage before the reading is in the reading")
}

// Planning minutes of the published worked examples, through the forecast:
// E at 1,200 psi and 4 L/min with a reserve of 200 psi lasts 70 min
// (respiratory-therapy calculator page); (1,500 − 200) × 0.28 ÷ 2 = 182 min.
func TestPlanningDryOfWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		psi     float64
		flow    gas.Flow
		minutes int
	}{{1200, 4, 70}, {1500, 2, 182}, {500, 4, 21}, {150, 2, 0}} {
		h := onE(t)
		h.Flow, h.Cylinders[0].Gauge = c.flow, gas.PSI(c.psi)
		assert.Equal(t, night.Add(time.Duration(c.minutes)*time.Minute), Predict(h, usual).PlanningDry, "%v", c)
	}
}

// While a concentrator runs the chance of being without oxygen holds dated
// causes and chance failures; the dated ones alone make the act-by.
func TestWithoutBy(t *testing.T) {
	quiet := Predict(withBackup(t), usual)
	assert.Zero(t, quiet.WithoutBy(night))
	day, week := quiet.WithoutBy(in(24)), quiet.WithoutBy(in(7*24))
	assert.Positive(t, day)
	assert.Greater(t, week, day)
	assert.Less(t, week, 7*failuresPerYear/365.25, "no more than the chance that anything fails")

	none := withBackup(t)
	none.Cylinders = nil
	f := Predict(none, usual)
	assert.InDelta(t, 7*failuresPerYear/365.25, f.WithoutBy(in(7*24)), 0.002, "without gas every failure harms")

	out := withBackup(t)
	out.Outages = []Span{{From: in(5)}}
	f = Predict(out, usual)
	assert.InDelta(t, comesAbout*lowEnd, f.WithoutBy(f.ActBy), 0.002)
	assert.InDelta(t, comesAbout*0.5, f.WithoutBy(in(5).Add(f.CoverMid)), 0.002)
	out.Outages[0].From = in(-1)
	f = Predict(out, usual)
	assert.InDelta(t, lowEnd, f.WithoutBy(f.ActBy), 0.002, "an outage that has begun is certain")

	assert.Equal(t, 1.0, Predict(Household{}, usual).WithoutBy(night), "nothing is promised where nothing is known")
}

// Earlier readings of the same person sharpen the forecast and move it.
func TestReadingsTeach(t *testing.T) {
	h := onE(t)
	before := Predict(h, usual)
	e := size(t, "US-E")
	h.Uses = []Use{{Size: e, Before: gas.PSI(1500), After: gas.PSI(2000), Took: time.Hour}}
	refilled := Predict(h, usual)
	assert.Equal(t, before.Low, refilled.Low, "a gauge that rose teaches nothing")
	assert.Contains(t, refilled.Assumptions(), "earlier readings left out, the gauge rose, hardly fell or cannot be right: 1")

	h.Uses[0].Before = gas.PSI(2000)
	assert.Equal(t, before.Low, Predict(h, usual).Low, "a gauge that stood still for an hour at 2 L/min teaches no thrift")

	h.Uses = []Use{{Size: e, Before: gas.PSI(2000), After: gas.PSI(1500), Took: 85 * time.Minute}} // about 2 L/min
	sharper := Predict(h, usual)
	assert.Contains(t, sharper.Assumptions(), "sharpened by earlier readings: 1")
	assert.Less(t, sharper.High.Sub(sharper.Low), before.High.Sub(before.Low))
	h.Uses[0].Took = 60 * time.Minute // about 2.8 L/min
	assert.True(t, Predict(h, usual).Mid.Before(sharper.Mid))
	h.HighFlow, h.Uses[0].After, h.Uses[0].Took = 4, gas.PSI(500), 126*time.Minute // about 4 L/min
	f := Predict(h, usual)
	assert.InDelta(t, before.CoverMid.Minutes()/2, f.CoverMid.Minutes(), 10, "the readings fit the highest flow")
}
