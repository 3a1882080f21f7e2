package delivery

import (
	"slices"

	"lungwort/inventory"
)

// Serves reports whether a thing is of what is wanted.
func (w Wanted) Serves(s inventory.Spec) bool {
	return s.Kind == w.Kind && (w.Size == "" || s.Size == w.Size) && s.Rated >= w.Rated && !s.Foreign
}

// Tonight returns what the discharges that wait still lack, piece by piece, when
// everything that is ready is taken by the kit lists of their orders.
func (p Programme) Tonight(orders []Ordered, ready []inventory.Item) []Wanted {
	left := slices.Clone(ready)
	var lack []Wanted
	for _, o := range orders {
		kit, _ := p.KitFor(o.Highest())
		for _, want := range kit.Items {
			if want.Kind == inventory.Concentrator {
				want.Rated = max(want.Rated, o.Highest())
			}
			n := want.Count
			want.Count = 1
			for range n {
				best, is := Best(left, want)
				if !is {
					lack = append(lack, want)
					continue
				}
				left = slices.DeleteFunc(left, func(i inventory.Item) bool { return i.ID == best.ID })
			}
		}
	}
	return lack
}
