package delivery

import (
	"cmp"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Lendable refuses an item that can't be lent to a person now under an order:
// because of where it stands, or because it is too small. The refusal names
// the nearest alternative. A nil order judges no size.
func Lendable(v View, item inventory.Item, person inventory.PersonID, order *Ordered) error {
	if err := ready(v, item, person); err != nil {
		return err
	}
	if order == nil {
		return nil
	}
	if why, small := TooSmall(item.Spec, *order); small {
		item.Spec.Rated = order.Highest()
		return refuse(v, item, why)
	}
	return nil
}

// Readable refuses a gauge reading that an item can't show. Nil is no
// reading, and fine.
func Readable(v View, item inventory.Item, gauge *gas.Pressure) error {
	return plausible(v, item, gauge)
}

// Highest returns the highest ordered flow.
func (o Ordered) Highest() gas.Flow { return max(o.atRest(), o.Exertion, o.Asleep) }

// Best returns the item to lend of those that are ready: the smallest machine
// that is large enough, the fullest cylinder; and whether there is one.
func Best(ready []inventory.Item, want Wanted) (inventory.Item, bool) {
	fit := slices.DeleteFunc(slices.Clone(ready), func(i inventory.Item) bool {
		return i.State != inventory.Ready || i.Spec.Kind != want.Kind || want.Size != "" && i.Spec.Size != want.Size ||
			i.Recall != "" || i.Spec.Foreign || i.Spec.Rated < want.Rated
	})
	if len(fit) == 0 {
		return inventory.Item{}, false
	}
	return slices.MinFunc(fit, func(a, b inventory.Item) int {
		return cmp.Or(cmp.Compare(a.Spec.Rated, b.Spec.Rated), cmp.Compare(gauge(b), gauge(a)), cmp.Compare(a.Tag, b.Tag))
	}), true
}

func gauge(i inventory.Item) gas.Pressure {
	if i.Gauge == nil {
		return 0
	}
	return i.Gauge.Value
}
