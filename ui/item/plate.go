package item

import (
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/requal"
)

// plate is what stands on the item itself.
func plate(s inventory.Spec, p delivery.Programme, now time.Time) []Detail {
	lines := []Detail{
		{"is", s.What(), false},
		{"model", s.Model, false},
		{"serial", s.Serial, false},
		{"owner", s.Owner, false},
	}
	if s.Owner == "" {
		lines[3].Text = "the programme"
	}
	if size, known := p.SizeOf(s); known {
		full := fmt.Sprintf("%s at %s", size.Contents, size.Service)
		if s.Marked != (gas.Marks{}) {
			full += ", as marked on it"
		}
		lines = append(lines, Detail{"full", full, false})
	}
	lines = append(lines, ofItsKind(s)...)
	for _, from := range []Detail{{"product", s.GTIN, false}, {"lot", s.Lot, false}, {"made", s.Made, false}, {"expires", s.Expires, false}} {
		if from.Text != "" {
			lines = append(lines, from)
		}
	}
	if due, known := requal.ParseMonth(s.Requal); known {
		lines = append(lines, Detail{"requalify", requal.InWords(due, now), false})
	}
	return lines
}

// ofItsKind is what only its kind has on its plate.
func ofItsKind(s inventory.Spec) []Detail {
	var lines []Detail
	add := func(label, text string) {
		if text != "" {
			lines = append(lines, Detail{label, text, false})
		}
	}
	switch s.Kind {
	case inventory.Cylinder:
		add("valve", s.ValveOf())
	case inventory.Regulator:
		add("fits valve", s.Valve)
		add("seal", s.Seal)
	case inventory.Concentrator:
		if s.Volts > 0 {
			add("mains", fmt.Sprintf("%d V", s.Volts))
		}
	case inventory.Oximeter:
		add("pool", s.Pool)
	case inventory.Vessel:
		if s.Holds > 0 {
			add("full", fmt.Sprintf("%.1f kg of liquid, %.1f kg empty", float64(s.Holds), float64(s.Tare)))
		}
		if s.Loses > 0 {
			add("loses", fmt.Sprintf("%.2f kg a day", float64(s.Loses)))
		}
	}
	return lines
}
