package settings

import (
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// machines are the models of concentrators whose plate or manual somebody read.
var machines = rowsOf[delivery.Machine]{
	id: "machines", what: "model",
	get: func(p delivery.Programme) []delivery.Machine { return p.Machines },
	set: func(p *delivery.Programme, rows []delivery.Machine) { p.Machines = rows },
	says: func(_ delivery.Programme, m delivery.Machine) (string, string) {
		return m.Model, join(fmt.Sprintf("%g to %g W", float64(m.Least), float64(m.Most)), fmt.Sprintf("up to %g °C", float64(m.Warmest)), m.Source)
	},
	asks: func(_ delivery.Programme, m delivery.Machine) []ask.Field {
		return []ask.Field{
			{Key: "name", Label: "Model", Value: m.Model, Hint: "as the items carry it"},
			{Key: "least", Label: "Takes at the least", Kind: ask.Number, Unit: "W", Value: blankZero(float64(m.Least))},
			{Key: "most", Label: "and at the most", Kind: ask.Number, Unit: "W", Value: blankZero(float64(m.Most)), Hint: "what the plate says"},
			{Key: "warmest", Label: "Room up to", Kind: ask.Number, Unit: "°C", Value: blankZero(float64(m.Warmest)), Hint: "operating temperature in the manual"},
			{Key: "source", Label: "Source", Value: m.Source, Hint: "plate, or manual with its revision"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Machine {
		m := delivery.Machine{Model: r.Need("name", "write the model"), Source: r.Need("source", "write where this stands")}
		m.Least, m.Most = gas.Watts(numberOf(r, "least", "W", 5000)), gas.Watts(numberOf(r, "most", "W", 5000))
		m.Warmest = gas.Celsius(numberOf(r, "warmest", "°C", 60))
		if m.Most < m.Least {
			r.Fail("most", fmt.Errorf("it is under the least"))
		}
		return m
	},
}

// numberOf returns a number that may be left out; zero is then not known.
func numberOf(r *ask.Reader, key, unit string, most float64) float64 {
	if n := r.Number(key, unit, 0, most); n != nil {
		return *n
	}
	return 0
}

func blankZero(v float64) string {
	if v == 0 {
		return ""
	}
	return decimals(v)
}
