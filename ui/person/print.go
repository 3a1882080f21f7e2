package person

import (
	"context"

	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
)

// PrintGas prints the gas chart of the person with its table.
func (m *Model) PrintGas() {
	if !m.Page.Watched && len(m.Page.Chart.Readings) == 0 {
		m.work.Refuse(refusal.New(refusal.Unready, "Nothing is known of gas in this home.", "Record a reading first."))
		return
	}
	who, page := m.id, m.Page
	m.work.Paper("gas-sheet", "Gas sheet", func(_ context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		return c.GasSheet(who, page.Name, page.Answer, page.Chart), nil
	})
}
