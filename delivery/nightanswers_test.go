package delivery_test

import (
	"strings"
	"testing"

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
	a := delivery.NewOrderAnswer([]delivery.Watch{machineAt("Abara", "yes", 5)}, ready)
	assert.Equal(t, []string{"machines to 5 L/min: 0 ready, 1 in homes", "machines to 10 L/min: 1 ready, 0 in homes"}, a.Facts)
	assert.Contains(t, a.Do[0], "replaces the whole old one")
}
