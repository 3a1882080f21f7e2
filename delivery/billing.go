package delivery

import (
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// HCPCS is the setting under which sheets carry billing codes of that system.
const HCPCS = "HCPCS"

// BillingTable is what things are called on a bill, as it was read at a time.
type BillingTable struct {
	ValidFrom string // 2006-01-02: the day from which the program holds it
	Source    string
	Codes     []BillingCode
}

// BillingCode is one code and what it stands for.
type BillingCode struct {
	Code, Means string
}

// hcpcs are the codes for what a programme lends. Which of them a payer pays,
// and with which modifier, is for the payer's rules: no modifier is derived.
var hcpcs = BillingTable{
	ValidFrom: "2026-01-01",
	Source:    "HCPCS Level II, as two public pages of US contractors quote it; E0445 from memory",
	Codes: []BillingCode{
		{"E0424", "Stationary compressed gaseous oxygen system, rental; includes container, contents, regulator, flowmeter, humidifier, nebulizer, cannula or mask, and tubing"},
		{"E0431", "Portable gaseous oxygen system, rental; includes portable container, regulator, flowmeter, humidifier, cannula or mask, and tubing"},
		{"E0445", "Oximeter device for measuring blood oxygen levels non-invasively"},
		{"E1390", "Oxygen concentrator, single delivery port, capable of delivering 85 percent or greater oxygen concentration at the prescribed flow rate"},
	},
}

// BillingCodes returns the table of a setting, and whether there is one.
func BillingCodes(setting string) (BillingTable, bool) {
	return hcpcs, setting == HCPCS
}

// Means returns what a code stands for; empty where the table lacks it.
func (t BillingTable) Means(code string) string {
	for _, c := range t.Codes {
		if c.Code == code {
			return c.Means
		}
	}
	return ""
}

// portable is the most a cylinder holds that is carried. Common practice, no
// source: sizes up to E are portable.
const portable gas.Litres = 700

// Code returns the code of a thing; empty where it has none of its own: a
// regulator belongs to the system it is lent with.
func (t BillingTable) Code(p Programme, s inventory.Spec) string {
	switch s.Kind {
	case inventory.Concentrator:
		return "E1390"
	case inventory.Oximeter:
		return "E0445"
	case inventory.Cylinder:
		size, known := p.SizeOf(s)
		switch {
		case !known:
			return ""
		case size.Contents > portable:
			return "E0424"
		}
		return "E0431"
	}
	return ""
}
