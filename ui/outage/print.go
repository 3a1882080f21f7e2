package outage

import (
	"context"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
)

// Print prints the list of the power cut shown.
func (m *Model) Print() {
	plan := m.Plan
	if len(plan.Homes) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "No home is on the list.", "Choose another area on the left."))
		return
	}
	m.work.Paper("outage-list", "Outage list", func(_ context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		return c.OutageList(plan), nil
	})
}
