package discharge

import (
	"slices"

	"lungwort/delivery"
	"lungwort/inventory"
)

// supply writes the supplies of the kit list into their field until somebody
// writes others, each with its lot where only one lies in the store.
func (m *Model) supply() {
	of, at, err := delivery.Stocked(&m.draft, m.supplies, m.texts[Ward])
	if err != nil {
		return // a draft reads nothing and can't fail
	}
	m.store = at
	if !m.touched[Supplies] {
		m.texts[Supplies] = delivery.WriteSupplies(of)
	}
}

// suppliesHint says where they are taken from, and which lots lie there where
// none is written.
func (m *Model) suppliesHint() string {
	if m.store == "" {
		return ""
	}
	hint := "from " + m.store.InWords()
	of, err := delivery.ReadSupplies(m.texts[Supplies])
	if err != nil {
		return hint
	}
	for _, h := range of {
		lots := delivery.LotsAt(m.draft.stock, h.Supply, m.store, m.draft.now)
		i := slices.IndexFunc(lots, func(s inventory.SupplyStock) bool { return s.Lot != "" })
		if h.Lot == "" && i >= 0 {
			hint += ": which lot of " + h.Supply + "? " + delivery.LotNames(lots)
			break
		}
	}
	return hint
}
