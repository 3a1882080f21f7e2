package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
)

// Delivered is one thing that was handed over to a person, and when a valid
// proof of it was signed.
type Delivered struct {
	At     time.Time
	Item   inventory.ItemID
	Person inventory.PersonID
	Spec   inventory.Spec
	To     inventory.Place
	Proven time.Time // zero: not yet
}

// DeliveriesOf returns what was handed over by the facts of the whole book, in
// the order of happening. A proof counts for the last hand-over before it.
func DeliveriesOf(facts []inventory.Fact) []Delivered {
	var all []Delivered
	for _, f := range inventory.Standing(facts) {
		switch s := f.Statement.(type) {
		case *inventory.Lent:
			all = append(all, Delivered{At: f.Happened, Item: f.Item, Person: f.Person, Spec: s.Spec, To: s.At})
		case *Proven:
			for _, item := range s.Items {
				for i := range slices.Backward(all) {
					if d := &all[i]; d.Item == item && d.Person == f.Person {
						d.Proven = f.Happened
						break
					}
				}
			}
		}
	}
	return all
}
