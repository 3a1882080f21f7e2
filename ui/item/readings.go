package item

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

func gauge(i inventory.Item, now time.Time) string {
	switch {
	case i.Gauge != nil:
		return fmt.Sprintf("%s, %s %s", i.Gauge.Value, i.Gauge.How(), delivery.Ago(i.Gauge.At, now))
	case i.Spec.Kind == inventory.Cylinder:
		return "not read since it was filled"
	}
	return ""
}

func weight(i inventory.Item, now time.Time) string {
	switch {
	case i.Weight != nil:
		return fmt.Sprintf("%.1f kg, %s %s", float64(i.Weight.Value), i.Weight.How(), delivery.Ago(i.Weight.At, now))
	case i.Spec.Kind == inventory.Vessel:
		return "not weighed since it was filled"
	}
	return ""
}

// liquid is the gas in a vessel by its weight, and how long it lasts at two
// litres a minute, all that evaporates counted.
func liquid(i inventory.Item) string {
	vessel := i.Spec.Liquid()
	litres, err := vessel.ByWeight(i.Weight.Value)
	if err != nil {
		return ""
	}
	minutes, err := vessel.Minutes(litres, 2, 24)
	if err != nil {
		return litres.String()
	}
	words := fmt.Sprintf("%s at that weight, %s at 2 L/min", litres, delivery.Spell(time.Duration(minutes)*time.Minute))
	if vessel.Loses == 0 {
		words += "; evaporation is not known and comes off"
	}
	return words
}

// holds is the gas the gauge or the scale stands for.
func holds(i inventory.Item, p delivery.Programme) string {
	if i.Weight != nil {
		return liquid(i)
	}
	size, known := p.SizeOf(i.Spec)
	if !known || i.Gauge == nil {
		return ""
	}
	return fmt.Sprintf("%s at that reading", size.ContentsAt(i.Gauge.Value, gas.Room))
}

func fill(i inventory.Item, now time.Time) string {
	if i.Fill == nil {
		return ""
	}
	var parts []string
	if i.Fill.Lot != "" {
		parts = append(parts, "lot "+i.Fill.Lot)
	}
	if i.Fill.Full > 0 {
		parts = append(parts, "to "+i.Fill.Full.String())
	}
	if i.Fill.Plant != "" {
		parts = append(parts, "by "+i.Fill.Plant)
	}
	return strings.Join(append(parts, delivery.Clock(i.Fill.At, now)), ", ")
}

func seen(s *inventory.Seen[float64], format string, now time.Time) string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf(format+", %s %s", s.Value, s.How(), delivery.Ago(s.At, now))
}
