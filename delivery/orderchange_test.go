package delivery_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// TestOrderChange holds each new order to its verdict and its words. The house
// has a machine of 5 or 10 L/min and an E at 2,000 psi, ordered 2 L/min before:
// (2000 - 200) × 0.28 ÷ 2 is 252 min, ÷ 6 is 84 (textbook factor of
// respiratory-therapy texts).
func TestOrderChange(t *testing.T) {
	p := delivery.NewProgramme()
	stopped := dark("A", 2, 2000).Care
	stopped.Phase, stopped.Since, stopped.StoppedBy = delivery.Over, told.Add(-time.Hour), "Dr Holm"
	small := dark("A", 2, 2000).Care
	small.Kit[0].Spec.Rated = 5
	large := inventory.Item{State: inventory.Ready, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 10}}
	for name, c := range map[string]struct {
		care    delivery.Care
		order   delivery.Ordered
		ready   []inventory.Item
		verdict depletion.Verdict
		low     string
		says    string // among what to do, or the title
	}{
		"the same":            {dark("A", 2, 2000).Care, delivery.Ordered{Rest: 2, Hours: 24}, nil, depletion.Holds, "4 h 12 min", "serves the new order"},
		"low cover":           {dark("A", 2, 2000).Care, delivery.Ordered{Rest: 4, Exertion: 6, Hours: 24}, nil, depletion.Tight, "1 h 24 min", "A backup task opens with the order: bring gas"},
		"too small":           {small, delivery.Ordered{Rest: 4, Exertion: 6, Hours: 24}, []inventory.Item{large}, depletion.Short, "1 h 24 min", "bring one of the larger machines"},
		"too small, no other": {small, delivery.Ordered{Rest: 6, Hours: 24}, nil, depletion.Short, "1 h 24 min", "No larger machine is free"},
		"pulse":               {dark("A", 2, 2000).Care, delivery.Ordered{Setting: "3", Hours: 24}, nil, depletion.Unknown, "", "cover at the new flow is not known"},
		"not all":             {dark("A", 2, 2000).Care, delivery.Ordered{Rest: 2, Hours: 24, Names: "concentrator"}, nil, depletion.Holds, "4 h 12 min", "nothing is taken until somebody confirms"},
		"no hours":            {dark("A", 2, 2000).Care, delivery.Ordered{Rest: 2}, nil, depletion.Unknown, "4 h 12 min", "Send it back to the ward"},
		"after a stop":        {stopped, delivery.Ordered{Rest: 2, Hours: 24}, nil, depletion.Unknown, "4 h 12 min", "Ask whether the stop was a mistake"},
	} {
		a := delivery.OrderChange{Care: c.care, New: c.order, Ready: c.ready, At: told}.Answer(p)
		assert.Equal(t, c.verdict, a.Verdict, name)
		assert.Equal(t, c.low, a.Low, name)
		said := a.Title
		for _, step := range a.Do {
			said += "\n" + step
		}
		assert.Contains(t, said, c.says, name)
		assert.Contains(t, a.Assumed, delivery.NoFlowAdvice, name)
	}
}

// What the machine was found to give counts: 90 to 96 % is usual (WHO and UNICEF
// technical specifications for oxygen therapy devices, 2019), and at its rating
// it is measured again.
func TestOrderChangeMindsWhatTheMachineGives(t *testing.T) {
	p := delivery.NewProgramme()
	at := func(percent float64, flow gas.Flow) delivery.Answer {
		care := dark("A", 2, 2000).Care
		if i := slices.IndexFunc(care.Kit, func(h delivery.Holding) bool { return h.Spec.Kind == inventory.Concentrator }); percent > 0 {
			care.Kit[i].Oxygen = &inventory.Seen[float64]{Value: percent, At: told.Add(-time.Hour)}
		}
		return delivery.OrderChange{Care: care, New: delivery.Ordered{Rest: flow, Hours: 24}, At: told}.Answer(p)
	}
	measure := func(a delivery.Answer) string {
		i := slices.IndexFunc(a.Do, func(s string) bool { return strings.HasPrefix(s, "Measure its oxygen") })
		if i < 0 {
			return ""
		}
		return a.Do[i]
	}
	fine := at(94, 2)
	assert.Equal(t, depletion.Holds, fine.Verdict)
	assert.Contains(t, fine.Facts, "oxygen of the machine: it gave 94 % "+delivery.Clock(told.Add(-time.Hour), told))
	assert.Empty(t, measure(fine))
	low := at(84, 2)
	assert.Equal(t, depletion.Tight, low.Verdict)
	assert.Equal(t, "the machine gave 84 % oxygen, 90 to 96 is usual", low.Title)
	assert.Contains(t, measure(low), "at 2 L/min at the next visit: it gave 84 %")
	assert.Contains(t, measure(at(94, 10)), "at 10 L/min at the next visit: it gave 94 %", "at its rating")
	assert.Contains(t, measure(at(0, 10)), "nothing was measured yet")
	assert.Empty(t, measure(at(0, 2)))
}

// Each thing in the house is listed with what becomes of it.
func TestOrderChangeListsEveryThing(t *testing.T) {
	a := delivery.OrderChange{Care: dark("A", 2, 2000, 1000).Care, New: delivery.Ordered{Rest: gas.Flow(1), Hours: 24}, At: told}.Answer(delivery.NewProgramme())
	stays := 0
	for _, f := range a.Facts {
		if len(f) > 7 && f[len(f)-7:] == ": stays" {
			stays++
		}
	}
	assert.Equal(t, 3, stays, "a machine and two cylinders: %v", a.Facts)
}
