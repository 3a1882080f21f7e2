package delivery_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// alarmAt is a home on a concentrator with one E at a pressure, 2 L/min.
// (2000 - 200) x 0.28 / 2 is 252 min, (500 - 200) x 0.28 / 2 is 42 min.
func alarmAt(a delivery.Alarm, psi float64, spare time.Duration) delivery.AlarmCall {
	day := told.Add(-24 * time.Hour)
	facts := []inventory.Fact{
		{ID: 1, Happened: day, Person: "p", Statement: &delivery.Ordered{Rest: 2, Hours: 24}},
		{ID: 2, Happened: day, Person: "p", Statement: &delivery.Discharged{Opened: day}},
		{ID: 3, Happened: day, Person: "p", Item: "c", Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5}}},
		{ID: 4, Happened: day, Person: "p", Statement: &delivery.Switched{To: delivery.FromConcentrator}},
	}
	if psi > 0 {
		facts = append(facts,
			inventory.Fact{ID: 5, Happened: day, Person: "p", Item: "e", Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}},
			inventory.Fact{ID: 6, Happened: day, Person: "p", Item: "e", Statement: &inventory.Observed{Gauge: new(gas.PSI(psi))}})
	}
	c := delivery.AlarmCall{Alarm: a, At: told}
	c.Home = delivery.WatchHome(delivery.NewProgramme(), delivery.Person{ID: "p"}, a.Told(delivery.Home{Care: delivery.FoldCare("p", facts)}, told), told)
	if spare > 0 {
		c.Spare = delivery.Rescue{From: "Depot", Holds: "1 machine", Takes: spare}
	}
	return c
}

// TestAlarmVerdict holds the gas in the home against who could be there.
func TestAlarmVerdict(t *testing.T) {
	fault := delivery.Alarm{Power: delivery.PowerOn, Light: delivery.LightFault}
	read, full := fault, fault
	read.Gauge, full.Gauge = new(gas.PSI(500)), new(gas.PSI(2000))
	for _, tc := range []struct {
		name    string
		call    delivery.AlarmCall
		verdict depletion.Verdict
		low     string
		first   string
	}{
		{"gas lasts", alarmAt(full, 2000, 30*time.Minute), depletion.Holds, "", "To the cylinder now"},
		{"the gauge told counts, not the book's", alarmAt(read, 2000, 30*time.Minute), depletion.Tight, "42 min", "To the cylinder now"},
		{"gas ends before anybody is there", alarmAt(read, 2000, 50*time.Minute), depletion.Short, "42 min", "Emergency number 911"},
		{"no gas there", alarmAt(fault, 0, 30*time.Minute), depletion.Dry, "", "Emergency number 911"},
	} {
		a := tc.call.Answer(delivery.NewProgramme())
		assert.Equal(t, tc.verdict, a.Verdict, tc.name)
		if tc.low != "" { // the planning value; with more gas the 1 % end is the more careful
			assert.Equal(t, tc.low, a.Low, tc.name)
		}
		assert.Contains(t, a.Do[0], tc.first, tc.name)
	}
}

// TestAlarmCauses holds each answer to what it points to; common practice, no
// source.
func TestAlarmCauses(t *testing.T) {
	for _, tc := range []struct {
		alarm delivery.Alarm
		title string
		does  string
	}{
		{delivery.Alarm{Power: delivery.HomeDark}, "in this home alone", "breaker"},
		{delivery.Alarm{Power: delivery.PowerOn, Light: delivery.LightLow, Air: delivery.AirBlocked}, "too little air", "Clean the filter"},
		{delivery.Alarm{Light: delivery.LightFlow}, "nothing gets through the line", "Nose: "},
		{delivery.Alarm{Line: delivery.LineKinked}, "nothing gets through the line", "chair leg"},
		{delivery.Alarm{Line: delivery.LineWater}, "water stands in the tubing", "swing the water out"},
		{delivery.Alarm{Light: delivery.LightFine, Line: delivery.LineBubbles}, "do not chase the machine", "Nose: "},
		{delivery.Alarm{Power: delivery.PowerOn}, "ask on", "Ask: Which light"},
	} {
		a := alarmAt(tc.alarm, 2000, time.Hour).Answer(delivery.NewProgramme())
		assert.Contains(t, a.Title, tc.title, "%+v", tc.alarm)
		assert.Contains(t, strings.Join(a.Do, "\n"), tc.does, "%+v", tc.alarm)
		assert.Contains(t, a.Assumed, delivery.NoFlowAdvice)
	}
}

// Every answer a question offers is one that Check takes, and no other is.
func TestAlarmAnswersAreKnown(t *testing.T) {
	for _, q := range delivery.AlarmQuestions() {
		require.NotEmpty(t, q.Signs, q.Key)
	}
	assert.NoError(t, delivery.Alarm{Power: delivery.StreetDark, Light: delivery.LightDead, Air: delivery.AirClear, Line: delivery.LineSilent}.Check())
	err := delivery.Alarm{Air: "hot"}.Check()
	assert.Equal(t, refusal.Ask, refusal.KindOf(err))
	assert.ErrorContains(t, err, "clear, blocked")
}
