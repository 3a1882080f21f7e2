package season

import (
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

const (
	benchHolds = 14                 // machines and oximeters done in one session
	reusable   = 0.9                // of full: a cylinder that came back so is lent again
	inRepair   = 6 * 24 * time.Hour // at the workshop
)

// bench cleans, tests and releases what came back, twice a day.
func (o *office) bench() error {
	found, _, err := o.desk.Items(o.ctx, items.Filter{States: []inventory.State{inventory.Dirty}, Place: inventory.At(inventory.AtDepot, fate.Depot)})
	if err != nil {
		return err
	}
	var acts []delivery.Act
	done := 0
	for _, item := range found {
		thing := o.items[item.ID]
		switch {
		case thing.Place != item.Place:
			continue // it is not there: another was taken back under its serial
		case item.Spec.Kind == inventory.Cylinder:
			if item.Gauge != nil && item.Gauge.Value >= thing.Size.Service*reusable {
				acts = append(acts, delivery.Bench{Item: item.ID}, delivery.Release{Item: item.ID, Depot: fate.Depot})
			}
			continue
		case done == benchHolds:
			continue
		case thing.Broken:
			acts = append(acts, delivery.Bench{Item: item.ID}, delivery.Test{Item: item.ID, Oxygen: new(61.0), Detail: "little oxygen"},
				delivery.SendToRepair{Item: item.ID, Fault: "little oxygen", To: "bay 2"})
			o.repair(thing)
		case item.Spec.Kind == inventory.Concentrator:
			acts = append(acts, delivery.Bench{Item: item.ID}, delivery.Test{Item: item.ID, Passed: true, Oxygen: new(93.5)}, delivery.Release{Item: item.ID, Depot: fate.Depot})
		default:
			acts = append(acts, delivery.Bench{Item: item.ID}, delivery.Test{Item: item.ID, Passed: true}, delivery.Release{Item: item.ID, Depot: fate.Depot})
		}
		done++
	}
	return o.doAll("warehouse", acts)
}

// repair sends a machine to the workshop and takes it in again.
func (o *office) repair(thing *truth.Item) {
	thing.Place = inventory.At(inventory.AtWorkshop, "bay 2")
	o.at(opening(o.clock.Add(inRepair)), func() error {
		thing.Broken, thing.Place = false, inventory.At(inventory.AtDepot, fate.Depot)
		return o.doAll("warehouse", []delivery.Act{
			delivery.BackFromRepair{Item: thing.ID, Depot: fate.Depot, Did: "new sieve beds", Cost: 120},
			delivery.Test{Item: thing.ID, Passed: true, Oxygen: new(94.0)},
			delivery.Release{Item: thing.ID, Depot: fate.Depot},
		})
	})
}

// exchange swaps used cylinders for those the plant filled since the last time.
func (o *office) exchange() error {
	lot := fmt.Sprintf("Q%s", o.clock.Format("060102"))
	act := delivery.Exchange{Plant: fate.Plant, Depot: fate.Depot, Driver: "the plant's driver", Later: true, Accept: true}
	found, _, err := o.desk.Items(o.ctx, items.Filter{
		States: []inventory.State{inventory.Dirty, inventory.InQuarantine}, Kind: inventory.Cylinder, Place: inventory.At(inventory.AtDepot, fate.Depot),
	})
	if err != nil {
		return err
	}
	then, kept := o.receive(&act, lot)
	o.filled = kept
	for _, item := range found {
		if o.items[item.ID].Place != item.Place {
			continue
		}
		act.Out = append(act.Out, item.ID)
		o.items[item.ID].Place = inventory.At(inventory.AtPlant, fate.Plant)
		o.filled = append(o.filled, item.ID)
	}
	if len(act.In)+len(act.Out) == 0 {
		return nil
	}
	return o.doAll("warehouse", append([]delivery.Act{act}, then...))
}

// receive takes in what the truck of the plant brings. What was hardly filled is
// seen on its gauge and goes back with the next truck; what the plant forgot comes
// then.
func (o *office) receive(act *delivery.Exchange, lot string) (release []delivery.Act, kept []inventory.ItemID) {
	for _, id := range o.filled {
		thing := o.items[id]
		d := o.season.Dice("plant", thing.Serial, lot)
		if d.Float64() < fate.PlantKeeps {
			kept = append(kept, id)
			continue
		}
		thing.Place = inventory.At(inventory.AtDepot, fate.Depot)
		thing.Fill(1)
		if d.Float64() < fate.PlantShort {
			thing.Fill(0.4 + 0.3*d.Float64())
		}
		gauge := o.read(thing, 0, "filled", lot)
		act.In = append(act.In, delivery.Received{Item: id, Lot: lot, Gauge: gauge})
		if *gauge >= thing.Size.Service*reusable {
			release = append(release, delivery.Release{Item: id, Depot: fate.Depot})
		}
	}
	return release, kept
}
