package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// Codes and texts: HCPCS Level II as quoted by public contractor pages; the
// text of E0445 is from memory. That sizes up to E are portable is common
// practice, no source.
func TestBillingCodes(t *testing.T) {
	table, on := delivery.BillingCodes("HCPCS")
	assert.True(t, on)
	for _, test := range []struct {
		spec        inventory.Spec
		code, means string
	}{
		{inventory.Spec{Kind: inventory.Concentrator}, "E1390", "Oxygen concentrator, single delivery port, capable of delivering 85 percent or greater oxygen concentration at the prescribed flow rate"},
		{inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, "E0431", "Portable gaseous oxygen system, rental; includes portable container, regulator, flowmeter, humidifier, cannula or mask, and tubing"},
		{inventory.Spec{Kind: inventory.Cylinder, Size: "US-H"}, "E0424", "Stationary compressed gaseous oxygen system, rental; includes container, contents, regulator, flowmeter, humidifier, nebulizer, cannula or mask, and tubing"},
		{inventory.Spec{Kind: inventory.Oximeter}, "E0445", "Oximeter device for measuring blood oxygen levels non-invasively"},
		{inventory.Spec{Kind: inventory.Regulator}, "", ""},
		{inventory.Spec{Kind: inventory.Cylinder}, "", ""},
	} {
		assert.Equal(t, test.code, table.Code(delivery.NewProgramme(), test.spec))
		assert.Equal(t, test.means, table.Means(test.code))
	}
	_, on = delivery.BillingCodes("")
	assert.False(t, on, "off unless the programme wants it")
}
