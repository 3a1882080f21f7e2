package delivery_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

func machineAt(family, registered string, rated float64) delivery.Watch {
	w := delivery.Watch{Person: delivery.Person{Family: family}, Address: delivery.Address{Registered: registered}}
	w.Care = delivery.Care{Phase: delivery.Running, Kit: []delivery.Holding{{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: gas.Flow(rated)}}}}
	return w
}

func TestUseAnswerTellsTheClinicianAndChangesNothing(t *testing.T) {
	none := delivery.UseAnswer(nil)
	assert.Equal(t, depletion.Holds, none.Verdict)
	tell := []delivery.CheckIn{{
		Watch: delivery.Watch{Person: delivery.Person{Family: "Abara"}},
		Concerns: []delivery.Concern{
			{Matter: delivery.AboveOrder, Says: "6 L/min in use, 4 L/min ordered", Now: true, Facts: []string{"told 09:00"}},
			{Matter: delivery.NotReached, Says: "no answer twice"},
			{Matter: delivery.LowUse, Says: "0.8 h a day by the meter"},
		},
	}}
	a := delivery.UseAnswer(tell)
	assert.Equal(t, "2 differences from what is ordered, 1 to tell today", a.Title)
	assert.Equal(t, []string{"Abara, more than ordered: 6 L/min in use, 4 L/min ordered; told 09:00", "Abara, used less than ordered: 0.8 h a day by the meter"}, a.Facts)
	assert.Contains(t, a.Assumed, delivery.NoFlowAdvice)
	assert.NotContains(t, strings.Join(a.Do, " "), "ollect")
}

// A machine takes under 70 W for each L/min of its rating (WHO and UNICEF, technical
// specifications for oxygen therapy devices, 2019): at 5 L/min at most 8.4 kWh a day.
func TestMainsAnswerSaysWhatAMachineTakesADay(t *testing.T) {
	p := delivery.NewProgramme()
	assert.Equal(t, depletion.Holds, p.MainsAnswer(nil).Verdict)
	a := p.MainsAnswer([]delivery.Watch{machineAt("Abara", "yes", 5), machineAt("Rao", "", 5), machineAt("Sund", "no", 10)})
	assert.Equal(t, "2 models on the mains in homes; 1 home not registered with the power company, 1 not asked", a.Title)
	assert.Contains(t, strings.Join(a.Facts, "\n"), "concentrator to 5 L/min: 7 kWh to 8 kWh a day")
	assert.Contains(t, a.Do[2], "Not registered: Sund")
}

func TestNewOrderAnswerCountsTheMachinesByRating(t *testing.T) {
	ready := []inventory.Item{
		{State: inventory.Ready, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: gas.Flow(10)}},
		{State: inventory.Held, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: gas.Flow(10)}},
		{State: inventory.Ready, Spec: inventory.Spec{Kind: inventory.Cylinder}},
	}
	ends, spare := machineAt("Abara", "yes", 5), machineAt("Rao", "yes", 5)
	ends.Care.Order, spare.Care.Order = &delivery.Ordered{Rest: 3, Exertion: 5, Hours: 24}, &delivery.Ordered{Rest: 3, Hours: 24}
	a := delivery.NewOrderAnswer([]delivery.Watch{ends, spare}, ready)
	assert.Equal(t, []string{
		"machines to 5 L/min: 0 ready, 2 in homes", "machines to 10 L/min: 1 ready, 0 in homes", "their machine can give no more: Abara (5 L/min ordered)",
	}, a.Facts)
	assert.Contains(t, a.Do[0], "replaces the whole old one")
}

// A full E at 2,015 psi holds 0.28 L/psi: with 200 psi kept it lasts 1,815 × 0.28 / 2
// = 254 minutes at 2 L/min (the bedside rule of respiratory-therapy texts).
func TestLeavingAnswerSaysWithinWhatTimeTheMachineMustRun(t *testing.T) {
	now := time.Date(2030, time.March, 8, 16, 20, 0, 0, time.UTC)
	p := delivery.NewProgramme()
	none := p.LeavingAnswer(nil, map[gas.SizeCode]int{"US-E": 3, "US-D": 0}, now)
	assert.Equal(t, depletion.Holds, none.Verdict)
	assert.Len(t, none.Do, 3, "of a size that is not ready nothing is said")
	var hours, minutes int
	_, said, found := strings.Cut(none.Do[2], "; 2 L/min ")
	assert.True(t, found, none.Do[2])
	_, err := fmt.Sscanf(said, "%d h %d min, within", &hours, &minutes)
	assert.NoError(t, err, said)
	assert.LessOrEqual(t, 60*hours+minutes, 254)
	assert.InDelta(t, 254, 60*hours+minutes, 15, "three methods differ by some percent")

	way := delivery.Watch{Person: delivery.Person{Family: "Vale"}, Verdict: depletion.Tight, Next: "be there before 18:00"}
	way.Care.Phase = delivery.OnBridge
	a := p.LeavingAnswer([]delivery.Watch{way, machineAt("Rao", "yes", 5)}, nil, now)
	assert.Equal(t, depletion.Tight, a.Verdict)
	assert.Equal(t, "1 home on the bridge to a concentrator: tight", a.Title)
	assert.Contains(t, a.Do[2], "Vale: ")
	assert.Contains(t, a.Do[2], "be there before 18:00")
	assert.Contains(t, a.Assumed, delivery.NoFlowAdvice)
}
