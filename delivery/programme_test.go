package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

func TestCheckRefusesWhatThereCantBe(t *testing.T) {
	require.NoError(t, delivery.NewProgramme().Check())
	for name, tc := range map[string]struct {
		spoil func(*delivery.Programme)
		says  string
	}{
		"emergency": {func(p *delivery.Programme) { p.Emergency = "" }, "no emergency number"},
		"margin":    {func(p *delivery.Programme) { p.Margin = 0.9 }, "under 1"},
		"risk":      {func(p *delivery.Programme) { p.Risk = 0.5 }, "out of range"},
		"detour":    {func(p *delivery.Programme) { p.Detour = 0.5 }, "can't be"},
		"bands":     {func(p *delivery.Programme) { p.Bands.Borderline = 5 }, "above the emergency band"},
		"vehicle":   {func(p *delivery.Programme) { p.Vehicles = []delivery.Vehicle{{Name: "van", Depot: "port"}} }, "no depot"},
		"ward": {func(p *delivery.Programme) {
			p.Wards = []delivery.Site{{Name: "6B"}}
			p.Vehicles = []delivery.Vehicle{{Name: "van", Depot: "6B", From: "08:00", Until: "17:00"}}
		}, "no depot"},
		"shift": {func(p *delivery.Programme) {
			p.Depots = []delivery.Site{{Name: "port"}}
			p.Vehicles = []delivery.Vehicle{{Name: "van", Depot: "port", From: "8 am", Until: "17:00"}}
		}, "shift of vehicle van"},
		"shift turned round": {func(p *delivery.Programme) {
			p.Depots = []delivery.Site{{Name: "port"}}
			p.Vehicles = []delivery.Vehicle{{Name: "van", Depot: "port", From: "17:00", Until: "08:00"}}
		}, "shift of vehicle van"},
		"twins": {func(p *delivery.Programme) {
			p.Depots = []delivery.Site{{Name: "quay", Title: "Quay depot"}}
			p.Wards = []delivery.Site{{Name: "quay", Title: "Quay ward"}}
		}, `Quay depot and Quay ward both go by "quay".`},
	} {
		p := delivery.NewProgramme()
		tc.spoil(&p)
		err := p.Check()
		require.Error(t, err, name)
		assert.Equal(t, refusal.Invalid, refusal.KindOf(err), name)
		assert.Contains(t, err.Error(), tc.says, name)
	}
}

// A size of the programme's own weighs, loads and fills as it says; the marks of
// one cylinder come before it. 20 kg empty and 4,000 L of 1.3261 g are 25.3 kg
// (NIST, oxygen at 70 °F and 1 atm), and a limit counts whole kilograms upwards.
func TestOwnSizes(t *testing.T) {
	own, err := delivery.SetSize{Region: "QI", Letter: "big", Contents: 4000, Full: gas.Bar(150), Empty: new(gas.Kilograms(20))}.Size()
	require.NoError(t, err)
	p := delivery.NewProgramme()
	p.Sizes = gas.Table{own}
	require.NoError(t, p.Check())
	assert.Equal(t, int64(26), p.GrossKg(inventory.Cylinder, "QI-BIG"))

	spec := inventory.Spec{Kind: inventory.Cylinder, Size: "QI-BIG", Marked: gas.Marks{Contents: 3000}}
	size, known := p.SizeOf(spec)
	require.True(t, known)
	assert.Equal(t, gas.Litres(3000), size.Contents)
	assert.Equal(t, own.Service, size.Service)

	p.Sizes = append(p.Sizes, own)
	assert.ErrorContains(t, p.Check(), "QI-BIG is there twice")
}
