package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// A machine of 5 L/min takes 275 to 350 W: under 70 W for each L/min is the
// requirement of WHO and UNICEF (technical specifications for oxygen therapy
// devices, 2019), 55 W is from memory. A model that is set comes first; its
// figures here are invented.
func TestDrawAndHeatByModel(t *testing.T) {
	p := delivery.NewProgramme()
	five := inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Model: "Fern 5"}
	least, most, rests := p.Draw(five)
	assert.InDelta(t, 275, float64(least), 1e-9)
	assert.InDelta(t, 350, float64(most), 1e-9)
	assert.Contains(t, rests, "WHO and UNICEF 2019")
	limit, rests := p.WarmestFor(five)
	assert.InDelta(t, 40, float64(limit), 1e-9)
	assert.Contains(t, rests, "common practice, no source")

	p.Machines = []delivery.Machine{{Model: "fern 5 ", Least: 290, Most: 310, Warmest: 35, Source: "plate"}}
	least, most, rests = p.Draw(five)
	assert.InDelta(t, 290, float64(least), 1e-9)
	assert.InDelta(t, 310, float64(most), 1e-9)
	assert.Contains(t, rests, "model fern 5 (plate)")
	limit, _ = p.WarmestFor(five)
	assert.InDelta(t, 35, float64(limit), 1e-9)
	least, _, _ = p.Draw(inventory.Spec{Kind: inventory.Concentrator, Rated: 5})
	assert.InDelta(t, 275, float64(least), 1e-9, "a machine without a model is no model's")

	p.WattsMost = 50
	assert.ErrorContains(t, p.Check(), "power of the concentrators")
}
