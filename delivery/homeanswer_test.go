package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// homeAt is a home on one cylinder read an hour ago, with a visit planned.
func homeAt(psi float64, flow gas.Flow, visit time.Duration) delivery.Watch {
	hour := told.Add(-time.Hour)
	care := delivery.FoldCare("p", []inventory.Fact{
		{ID: 1, Happened: hour, Person: "p", Statement: &delivery.Ordered{Rest: flow, Hours: 24}},
		{ID: 2, Happened: hour, Person: "p", Statement: &delivery.Discharged{Opened: hour}},
		{ID: 3, Happened: hour, Person: "p", Item: "e", Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Bridging}},
		{ID: 4, Happened: hour, Person: "p", Item: "e", Statement: &inventory.Observed{Gauge: new(gas.PSI(psi))}},
	})
	h := delivery.Home{Care: care}
	if visit != 0 {
		h.Visit = told.Add(visit)
	}
	return delivery.WatchHome(delivery.NewProgramme(), delivery.Person{ID: "p"}, h, told)
}

// TestHomeAnswer holds each verdict to its first words. An E at 2,000 psi and
// 2 L/min lasts (2000 - 200) × 0.28 ÷ 2 = 252 min by the textbook rule, at
// 1,000 psi and 4 L/min 56 min, at 1,500 psi 91 min.
func TestHomeAnswer(t *testing.T) {
	p := delivery.NewProgramme()
	for _, tc := range []struct {
		name    string
		watch   delivery.Watch
		verdict depletion.Verdict
		title   string
		first   string
	}{
		{"holds", homeAt(2000, 2, time.Hour), depletion.Holds, "holds: gas until ", ""},
		{"short", homeAt(1500, 4, 3*time.Hour), depletion.Short, "short: gas until ", "Emergency number 911, then the clinician on call"},
		{"dry", homeAt(1000, 4, time.Hour), depletion.Dry, "dry: the planning value ended ", "Emergency number 911, then the clinician on call"},
	} {
		a := tc.watch.Answer(p, told)
		assert.Equal(t, tc.verdict, a.Verdict, tc.name)
		assert.Contains(t, a.Title, tc.title, tc.name)
		assert.Equal(t, tc.watch.Next, a.Do[len(a.Do)-1], tc.name)
		if tc.first != "" {
			assert.Equal(t, tc.first, a.Do[0], tc.name)
		}
		assert.NotEmpty(t, a.Low, tc.name)
		assert.Contains(t, a.Assumed, delivery.NoFlowAdvice, tc.name)
		assert.Contains(t, a.Facts[0], "E ", tc.name)
	}
}

func TestHomeAnswerOfAnUnknownHomeHasNoNumbers(t *testing.T) {
	w := homeAt(2000, 2, time.Hour)
	w = delivery.WatchHome(delivery.NewProgramme(), w.Person, delivery.Home{Care: w.Care}, told.Add(48*time.Hour))
	a := w.Answer(delivery.NewProgramme(), told.Add(48*time.Hour))
	assert.Equal(t, depletion.Unknown, a.Verdict)
	assert.Contains(t, a.Title, "unknown: ")
	assert.Empty(t, a.Low+a.Mid+a.High)
}

// TestNextComesFromTheLastCall holds a home whose gas holds to what was heard:
// the bands are common practice, no source.
func TestNextComesFromTheLastCall(t *testing.T) {
	for _, tc := range []struct {
		heard delivery.Called
		ago   time.Duration
		next  string
	}{
		{delivery.Called{Answered: true, Band: "emergency"}, time.Hour, "emergency band 15:20"},
		{delivery.Called{Answered: true, Band: "borderline"}, time.Hour, "borderline band 15:20"},
		{delivery.Called{Answered: true, Band: "fine", Saving: true}, time.Hour, "saving oxygen, told 15:20"},
		{delivery.Called{Answered: true, Band: "fine"}, time.Hour, ""},
		{delivery.Called{Answered: true, Band: "emergency"}, 25 * time.Hour, ""},
	} {
		w := homeAt(2000, 1, time.Hour)
		w.Care.LastCall = &delivery.Check{At: told.Add(-tc.ago), Called: tc.heard}
		w = delivery.WatchHome(delivery.NewProgramme(), w.Person, delivery.Home{Care: w.Care, Visit: w.Visit}, told)
		assert.Equal(t, tc.next != "", w.Heard != "", "%+v", tc)
		assert.Contains(t, w.Next, tc.next, "%+v", tc)
		assert.Equal(t, tc.next != "", w.Needs(), "%+v", tc)
	}
}
