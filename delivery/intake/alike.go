package intake

import (
	"lungwort/delivery"
	"lungwort/inventory"
)

// alikes are statements that many rows make word for word, each held once: a long
// ledger is held in memory. They are only read; what else they say is filled in
// when they are written.
type alikes struct {
	lent    map[inventory.Role]*inventory.Lent
	back    map[string]*inventory.Returned // by depot
	ordered map[delivery.Ordered]*delivery.Ordered
}

func newAlikes() alikes {
	return alikes{
		lent: map[inventory.Role]*inventory.Lent{}, back: map[string]*inventory.Returned{}, ordered: map[delivery.Ordered]*delivery.Ordered{},
	}
}

func (a alikes) lentAs(role inventory.Role) *inventory.Lent {
	if a.lent[role] == nil {
		a.lent[role] = &inventory.Lent{Role: role}
	}
	return a.lent[role]
}

func (a alikes) backAt(depot string) *inventory.Returned {
	if a.back[depot] == nil {
		a.back[depot] = &inventory.Returned{Depot: depot}
	}
	return a.back[depot]
}

func (a alikes) order(o delivery.Ordered) *delivery.Ordered {
	if a.ordered[o] == nil {
		a.ordered[o] = &o
	}
	return a.ordered[o]
}
