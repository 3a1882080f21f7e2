package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

func matters(s *course, now time.Time) []delivery.Matter {
	var list []delivery.Matter
	for _, c := range s.care().Concerns(delivery.NewProgramme(), now) {
		list = append(list, c.Matter)
	}
	return list
}

// TestConcernsStayUntilTold: a later, better call does not take away what the
// clinician has not heard.
func TestConcernsStayUntilTold(t *testing.T) {
	left := onDay("17:00")
	at := onDay("09:00").AddDate(0, 0, 1)
	for name, c := range map[string]struct {
		heard delivery.Called
		want  []delivery.Matter
	}{
		"as ordered":    {delivery.Called{Flow: new(gas.Flow(2)), SpO2: new(94.0), Band: "fine"}, nil},
		"more, resting": {delivery.Called{Flow: new(gas.Flow(6))}, []delivery.Matter{delivery.AboveOrder}},
		"more, walking": {delivery.Called{Flow: new(gas.Flow(2)), ExertionFlow: new(gas.Flow(6))}, []delivery.Matter{delivery.AboveOrder}},
		"less":          {delivery.Called{Flow: new(gas.Flow(1))}, []delivery.Matter{delivery.BelowOrder}},
		"saving":        {delivery.Called{Flow: new(gas.Flow(1)), Saving: true}, []delivery.Matter{delivery.SavingGas}},
		"worse":         {delivery.Called{Worse: true, Band: "emergency"}, []delivery.Matter{delivery.InEmergency}},
		"borderline":    {delivery.Called{Flow: new(gas.Flow(2)), Band: "borderline"}, []delivery.Matter{delivery.InBorderline}},
	} {
		s := home(left)
		c.heard.Answered = true
		s.say(at, &c.heard)
		for day := 1; day <= 12; day++ { // more calls than are kept at hand
			s.say(at.AddDate(0, 0, day), answered(93, 2))
		}
		now := at.AddDate(0, 0, 12)
		assert.Equal(t, c.want, matters(s, now), name)
		s.say(now, &delivery.Escalated{About: c.want, Told: "Dr Holm"})
		assert.Empty(t, matters(s, now), name)
	}
}

// TestNewOrderSettlesTheFlow: who ordered the flow in use knows of it.
func TestNewOrderSettlesTheFlow(t *testing.T) {
	at := onDay("09:00").AddDate(0, 0, 1)
	s := home(onDay("17:00")).say(at, &delivery.Called{Answered: true, Flow: new(gas.Flow(3))})
	assert.Equal(t, []delivery.Matter{delivery.AboveOrder}, matters(s, at))
	s.say(at.Add(time.Hour), &delivery.Ordered{Rest: 3, Hours: 24})
	assert.Empty(t, matters(s, at.Add(time.Hour)))
	s.say(at.Add(2*time.Hour), &delivery.Ordered{Rest: 4, Hours: 24})
	assert.Equal(t, []delivery.Matter{delivery.BandsLacking}, matters(s, at.Add(2*time.Hour)))
}

// meterHome is a home with a machine whose meter is read at issue and later.
func meterHome(days int, from, to float64) (*course, time.Time) {
	left := onDay("17:00")
	s := home(left)
	about := func(at time.Time, st inventory.Statement) {
		s.say(at, st)
		s.facts[len(s.facts)-1].Item = "i000001"
	}
	about(left, &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5}, Role: inventory.InUse})
	about(left, &inventory.Observed{Hours: &from})
	now := left.AddDate(0, 0, days)
	about(now, &inventory.Observed{Hours: &to, Told: true})
	return s, now
}

// TestHoursAgainstTheOrder: what the meter says beside what was ordered; a
// thing to tell, not a verdict. A meter that went down is another question.
func TestHoursAgainstTheOrder(t *testing.T) {
	for name, c := range map[string]struct {
		days     int
		from, to float64
		want     string
	}{
		"14 days, 11 h":  {14, 1200, 1211, "used 0.8 h a day, 24 h ordered"},
		"14 days, 300 h": {14, 1200, 1500, ""},
		"3 days, none":   {3, 0, 0, "the meter has not moved in 3 days: is it plugged in? are they on cylinders?"},
		"2 days, none":   {2, 0, 0, ""},
		"gone down":      {14, 18099, 3033, ""},
	} {
		s, now := meterHome(c.days, c.from, c.to)
		concerns := s.care().Concerns(delivery.NewProgramme(), now)
		if c.want == "" {
			assert.Empty(t, concerns, name)
			continue
		}
		require.Len(t, concerns, 1, name)
		assert.Equal(t, delivery.LowUse, concerns[0].Matter, name)
		assert.Equal(t, c.want, concerns[0].Says, name)
		assert.False(t, concerns[0].Now, name)
		s.say(now, &delivery.Escalated{About: []delivery.Matter{delivery.LowUse}, Told: "Dr Holm"})
		assert.Empty(t, matters(s, now), name)
	}
}

// TestReviewCandidate: three days high on little oxygen is said, and nothing
// else happens.
func TestReviewCandidate(t *testing.T) {
	at := onDay("09:00").AddDate(0, 0, 1)
	days := func(calls ...*delivery.Called) []delivery.Matter {
		s := home(onDay("17:00"))
		s.say(onDay("17:30"), &delivery.Ordered{Rest: 1, Exertion: 2, Hours: 24})
		for i, c := range calls {
			s.say(at.AddDate(0, 0, i), c)
		}
		assert.Empty(t, s.care().Tasks, "no collection is booked")
		return matters(s, at.AddDate(0, 0, len(calls)))
	}
	high := func() *delivery.Called { return answered(97, 1) }
	walking := high()
	walking.Exertion, walking.ExertionFlow = new(93.0), new(gas.Flow(1))
	noFlow := &delivery.Called{Answered: true, SpO2: new(97.0), Band: "incomplete"}
	worse := high()
	worse.Worse, worse.Band = true, "emergency"
	for name, c := range map[string]struct {
		calls []*delivery.Called
		want  []delivery.Matter
	}{
		"three days":      {[]*delivery.Called{high(), high(), high()}, []delivery.Matter{delivery.ReviewMaybe}},
		"two days":        {[]*delivery.Called{high(), high()}, nil},
		"one of 2 L/min":  {[]*delivery.Called{high(), answered(97, 2), high()}, nil},
		"low on walking":  {[]*delivery.Called{high(), high(), walking}, nil},
		"flow not told":   {[]*delivery.Called{high(), noFlow, high()}, nil},
		"feels worse now": {[]*delivery.Called{high(), high(), worse}, []delivery.Matter{delivery.InEmergency}},
	} {
		assert.Equal(t, c.want, days(c.calls...), name)
	}
}

// TestConcernsOfNobody: without an order, oxygen in use is told at once; after
// the stop nothing is.
func TestConcernsOfNobody(t *testing.T) {
	at := onDay("18:00")
	s := (&course{}).say(onDay("17:00"), &delivery.Discharged{Opened: onDay("17:00")})
	s.say(at, &delivery.Called{Answered: true, Flow: new(gas.Flow(2))})
	require.Equal(t, []delivery.Matter{delivery.NoOrder}, matters(s, at))
	s.say(at, &delivery.Stopped{})
	assert.Empty(t, matters(s, at))
}
