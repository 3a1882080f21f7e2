package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// The card has what the night call says: (500 - 200) × 0.28 ÷ 4 = 21 min on an E,
// as respiratory-therapy texts count, and nothing above a full cylinder.
func TestTheRingCardSaysWhatTheNightCallSays(t *testing.T) {
	p := delivery.NewProgramme()
	card := p.Ring([]delivery.Watch{dark("A", 2, 2000), dark("B", 2, 1500, 2000)})
	require.Len(t, card.Minutes, 1, "the sizes that stand in the homes, each once")
	e := card.Minutes[0]
	assert.Equal(t, gas.SizeCode("US-E"), e.Size.Code)
	for i, gauge := range e.Gauges {
		assert.LessOrEqual(t, gauge, e.Size.Service)
		for j, flow := range e.Flows {
			plan, err := gas.PlanMinutes(e.Size, gauge, p.Reserve, flow, gas.Room)
			require.NoError(t, err)
			assert.Equal(t, plan.Minutes, e.Minutes[i][j])
			if gauge == gas.PSI(500) && flow == 4 {
				assert.Equal(t, 21, e.Minutes[i][j])
			}
		}
	}
	assert.Empty(t, p.Ring(nil).Minutes)
}

// Of two cylinders of one size the card counts the one marked with less: what it
// says is never too long for a cylinder in a home.
func TestTheRingCardCountsTheLeastOfASize(t *testing.T) {
	p := delivery.NewProgramme()
	homes := []delivery.Watch{dark("A", 2, 2000), dark("B", 2, 2000)}
	usual := p.Ring(homes).Minutes[0].Minutes
	for i := range homes[1].Care.Kit {
		if h := &homes[1].Care.Kit[i]; h.Spec.Kind == inventory.Cylinder {
			h.Spec.Marked = gas.Marks{Contents: 450}
		}
	}
	card := p.Ring(homes)
	require.Len(t, card.Minutes, 1)
	for i, row := range card.Minutes[0].Minutes {
		for j, minutes := range row {
			assert.LessOrEqual(t, minutes, usual[i][j])
		}
	}
	assert.Less(t, card.Minutes[0].Minutes[5][3], usual[5][3], "2,000 psi at 4 L/min")
	assert.Equal(t, card, p.Ring([]delivery.Watch{homes[1], homes[0]}), "in whatever order")
}

// Each answer that decides is on the card with what the alarm call makes of it.
func TestTheRingCardHasEveryCause(t *testing.T) {
	told := map[string]delivery.AlarmCause{}
	for _, c := range delivery.NewProgramme().Ring(nil).Causes {
		told[c.Told] = c
	}
	for _, q := range delivery.AlarmQuestions() {
		for _, sign := range q.Signs {
			switch sign {
			case delivery.PowerOn, delivery.AirClear, delivery.LineBubbles:
				assert.NotContains(t, told, string(sign), "it decides nothing by itself")
			default:
				assert.NotEmpty(t, told[string(sign)].Is, "%s", sign)
				assert.NotEmpty(t, told[string(sign)].Do, "%s", sign)
			}
		}
	}
	assert.Equal(t, "to the cylinder now; another machine", told[string(delivery.LightFault)].Do)
}
