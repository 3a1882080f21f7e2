package tend

import (
	"fmt"
	"math"
	"strconv"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// Plate is the form for what stands on the item: what its kind has.
func (t Tender) Plate() ask.Form {
	s := t.Item.Spec
	fields := append([]ask.Field{{Key: "model", Label: "Model", Value: s.Model, Hint: "as on the plate"}}, plateFields(s)...)
	return ask.Form{
		Title: t.title("Plate of"), Button: "Describe", Fields: append(fields, ask.When(t.Work.Now())),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Describe{
				Item: t.Item.ID, Model: a.Text("model"), Valve: a.Text("valve"), Seal: a.Text("seal"), Pool: a.Text("pool"),
				Carries: gas.SizeCode(a.Text("carries")), Rated: r.Flow("rated"), Tare: r.Weight("tare"), Holds: r.Weight("holds"), Loses: r.Weight("loses"),
				Contents: litres(r, "contents"), Full: r.Gauge("full"), Water: litres(r, "water"),
			}
			if volts := r.Number("volts", "V", 0, 1000); volts != nil {
				act.Volts = new(int(*volts))
			}
			return t.try(r, act, closed)
		},
	}
}

// plateFields are what only the item's kind has on its plate.
func plateFields(s inventory.Spec) []ask.Field {
	valve := ask.Field{Key: "valve", Label: "Valve", Kind: ask.Pick, Value: s.ValveOf(), Options: []ask.Option{
		{Value: inventory.PostValve, Label: "post"}, {Value: inventory.ThreadedValve, Label: "threaded"}, {Value: inventory.IntegralValve, Label: "integral"},
	}}
	switch s.Kind {
	case inventory.Cylinder:
		return []ask.Field{valve,
			{Key: "contents", Label: "Holds", Value: written(float64(s.Marked.Contents), " L"), Hint: "as 660 L, where its label differs from its size; 0 L: as its size"},
			{Key: "full", Label: "Full at", Kind: ask.Gauge, Value: written(math.Round(s.Marked.Service.PSI()), ""), Hint: "where its shoulder differs from its size; 0: as its size"},
			{Key: "water", Label: "Water volume", Value: written(s.Marked.Water, " L"), Hint: "as 4.6 L, stamped on its shoulder"},
		}
	case inventory.Regulator:
		valve.Label = "Fits valve"
		return []ask.Field{valve, {Key: "seal", Label: "Seal", Value: s.Seal, Hint: "gasket used once, or washer with ring"}}
	case inventory.Concentrator:
		return []ask.Field{
			{Key: "rated", Label: "Gives", Value: written(float64(s.Rated), " L/min"), Hint: "at most, as 5 L/min"},
			{Key: "volts", Label: "Mains", Kind: ask.Number, Unit: "V", Value: written(float64(s.Volts), "")},
		}
	case inventory.Oximeter:
		return []ask.Field{{Key: "pool", Label: "Pool number", Value: s.Pool, Hint: "written on it, where its serial can't be read"}}
	case inventory.Cart:
		return []ask.Field{{Key: "carries", Label: "Carries", Value: string(s.Carries), Hint: "size of cylinder, as US-E"}}
	case inventory.Vessel:
		return []ask.Field{
			{Key: "tare", Label: "Empty weight", Value: written(float64(s.Tare), " kg"), Hint: "with fittings, from its plate"},
			{Key: "holds", Label: "Liquid when full", Value: written(float64(s.Holds), " kg"), Hint: "from its plate, in kg or lb"},
			{Key: "loses", Label: "Loses a day", Value: written(float64(s.Loses), " kg"), Hint: "the maker's figure; empty: not known"},
		}
	}
	return nil
}

// litres returns an amount; nil when none is written.
func litres(r *ask.Reader, key string) *gas.Litres {
	if r.Text(key) == "" {
		return nil
	}
	l, err := gas.ParseLitres(r.Text(key))
	r.Fail(key, err)
	return &l
}

// written returns a value as it is typed; empty for none.
func written(v float64, unit string) string {
	if v == 0 {
		return ""
	}
	return fmt.Sprint(strconv.FormatFloat(v, 'f', -1, 64), unit)
}
