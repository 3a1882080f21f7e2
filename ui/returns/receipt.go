package returns

import (
	"context"
	"path/filepath"
	"slices"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Givers are the persons whose things were booked here, in the order of the
// first of each.
func (m *Model) Givers() []inventory.PersonID {
	var who []inventory.PersonID
	for _, item := range m.booked {
		giver := item.Person
		if giver == "" {
			giver = item.Last // a driver brought it
		}
		if giver != "" && !slices.Contains(who, giver) {
			who = append(who, giver)
		}
	}
	return who
}

// Receipt prints a receipt for each person whose things were booked here, in
// the person's language.
func (m *Model) Receipt() {
	givers := m.Givers()
	if len(givers) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "Nothing that a person gave back was booked here yet.", "Scan what came back first; a receipt of another day is on the person's page."))
		return
	}
	for _, who := range givers {
		m.work.Paper(paperwork.ReturnReceipt+"-"+string(who), "Receipt", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
			spoken, _, err := c.Tongue(ctx, who, "", filepath.Join(m.work.Dir, paperwork.TongueDir))
			if err != nil {
				return nil, err
			}
			return c.HomePaper(ctx, paperwork.ReturnReceipt, paperwork.Asked{Person: who, By: m.work.By, Tongue: spoken})
		})
	}
}
