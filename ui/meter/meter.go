// Package meter reads what people write down from a thing: the gauge of a
// cylinder, the hours of a concentrator, the weight of a liquid vessel.
package meter

import (
	"fmt"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Reading is what was read; nil is what was not.
type Reading struct {
	Gauge  *gas.Pressure
	Hours  *float64
	Weight *gas.Kilograms
}

// Asks is what there is to read on a thing, with the unit meant when none is
// written; empty when there is nothing.
func Asks(s inventory.Spec) string {
	switch s.Kind {
	case inventory.Cylinder:
		return "gauge, psi"
	case inventory.Concentrator:
		return "hours"
	case inventory.Vessel:
		return "weight, kg"
	}
	return ""
}

// Of returns what a text says of a thing. An empty text says nothing.
func Of(i inventory.Item, text string) (Reading, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Reading{}, nil
	}
	switch i.Spec.Kind {
	case inventory.Cylinder:
		return gauge(i, text)
	case inventory.Concentrator:
		run, err := gas.ParseHours(text)
		if err != nil {
			return Reading{}, err
		}
		hours := run.Hours()
		return Reading{Hours: &hours}, nil
	case inventory.Vessel:
		if strings.Trim(text, "0123456789,. ") == "" {
			text += " kg" // the unit stands in the box
		}
		weight, err := gas.ParseKilograms(text)
		if err != nil {
			return Reading{}, err
		}
		return Reading{Weight: &weight}, nil
	}
	return Reading{}, nil
}

func gauge(i inventory.Item, text string) (Reading, error) {
	if i.Spec.Size == "" {
		return Reading{}, fmt.Errorf("the size of the cylinder is not known. Set it on the item's page first")
	}
	if strings.Trim(text, "0123456789,. ") == "" {
		text += " psi" // the unit stands in the box
	}
	full, known := i.Full()
	if !known { // a size of the programme's own, never filled: its act knows more
		read, err := gas.ParsePressure(text)
		return Reading{Gauge: &read}, err
	}
	read, err := gas.ParseGauge(text, full)
	if err != nil {
		return Reading{}, err
	}
	return Reading{Gauge: &read}, nil
}

// Scanned tells a tag or a serial that a scanner typed where a reading
// belongs from a reading: no reading with digits begins with a letter.
func Scanned(text string) bool {
	text = strings.TrimSpace(text)
	return len(text) > 4 && (text[0] < '0' || text[0] > '9') && strings.ContainsAny(text, "0123456789")
}
