package season

import (
	"fmt"
	"slices"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// What the programme owns. Forty people a week who are gone for 13 days of
// oxygen, some idle days and the bench keep about 95 machines busy; 112 leave one
// free 95 days of a hundred (Poisson). Cylinders go round three times as fast as
// machines: each home has two or three.
var owned = []struct {
	spec  inventory.Spec
	count int
}{
	{inventory.Spec{Kind: inventory.Concentrator, Model: "Tern 5", Rated: 5}, 98},
	{inventory.Spec{Kind: inventory.Concentrator, Model: "Tern 10", Rated: 10}, 14},
	{inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, 420},
	{inventory.Spec{Kind: inventory.Cylinder, Size: "US-H"}, 36},
	{inventory.Spec{Kind: inventory.Oximeter}, 140},
}

// seeping is the share of cylinders whose closed valve seeps.
const seeping = 0.03

// stock enters everything the programme owns, ready to lend.
func (o *office) stock() error {
	for k, kind := range owned {
		for n := range kind.count {
			spec := kind.spec
			spec.Serial = fmt.Sprintf("%c%02d%03d", "CTEHX"[k], 17+k, n*7+11)
			act := delivery.Enrol{Spec: spec, Depot: fate.Depot, Cleared: true}
			thing := &truth.Item{Serial: spec.Serial, Kind: spec.Kind, Place: inventory.At(inventory.AtDepot, fate.Depot)}
			if size, is := gas.LookUp(spec.Size); is {
				thing.Size = size
				thing.Fill(1)
				act.Gauge, act.Lot = new(size.Service), "Q30001"
				if r := o.season.Dice("seeps", spec.Serial); r.Float64() < seeping {
					thing.Seeps = (10 + 50*r.Float64()) / size.Service.PSI() * float64(size.Contents)
				}
			}
			out, err := o.do(fate.Desk, act)
			if err != nil {
				return err
			}
			thing.ID = out.Facts[0].Item
			o.items[thing.ID] = thing
		}
	}
	return nil
}

// ready returns what is ready to lend of a kind and is not loaded, as the book
// has it.
func (o *office) ready(kind inventory.Kind) ([]inventory.Item, error) {
	found, _, err := o.desk.Items(o.ctx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: kind})
	return slices.DeleteFunc(found, func(i inventory.Item) bool { return o.loaded[i.ID] }), err
}

// choose takes so many of what is wanted out of what is ready.
func choose(ready []inventory.Item, want delivery.Wanted) (chosen []inventory.Item) {
	left := slices.Clone(ready)
	for range want.Count {
		best, ok := delivery.Best(left, want)
		if !ok {
			break
		}
		chosen = append(chosen, best)
		left = slices.DeleteFunc(left, func(i inventory.Item) bool { return i.ID == best.ID })
	}
	return chosen
}

// read returns what somebody writes down of a gauge: to the next 50 psi, and
// sometimes one printed number off.
func (o *office) read(i *truth.Item, misread float64, matter ...any) *gas.Pressure {
	r := o.season.Dice(append([]any{"gauge", i.Serial}, matter...)...)
	psi := i.Gauge().PSI() + 30*r.NormFloat64()
	if r.Float64() < misread {
		psi += []float64{-500, 500}[r.IntN(2)]
	}
	psi = max(0, min(float64(int(psi/50+0.5))*50, 1.1*i.Size.Service.PSI()))
	if i.Litres <= 0 {
		psi = 0
	}
	return new(gas.PSI(psi))
}
