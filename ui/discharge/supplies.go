package discharge

import (
	"slices"
	"strings"

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

// AsksParts returns the small parts that go along with what is handed over.
func (m *Model) AsksParts() []string {
	var parts []string
	for _, p := range m.Pieces {
		if p.Item.ID == "" || p.Brought {
			continue
		}
		for _, part := range m.draft.programme.PartsOf(p.Item.Spec.Kind) {
			if !slices.Contains(parts, part) {
				parts = append(parts, part)
			}
		}
	}
	return parts
}

// There returns the small parts that were ticked; nil where nobody looked.
func (m *Model) There() []string {
	if m.texts[Parts] == "" {
		return nil
	}
	return strings.Split(m.texts[Parts], ",")
}

// partsHint says what is not ticked yet.
func (m *Model) partsHint() string {
	var lacks []string
	for _, part := range m.AsksParts() {
		if !slices.Contains(m.There(), part) {
			lacks = append(lacks, part)
		}
	}
	if len(lacks) == 0 {
		return ""
	}
	return "not there yet: " + strings.Join(lacks, ", ")
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
