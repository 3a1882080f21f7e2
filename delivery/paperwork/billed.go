package paperwork

import (
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// billed adds the column of billing codes where the programme wants one.
func billed(out sheet.Out, p delivery.Programme, spec func(row int) inventory.Spec) sheet.Out {
	table, wanted := delivery.BillingCodes(p.Billing)
	if !wanted {
		return out
	}
	out.Columns = append(out.Columns, sheet.Column{
		Heading: p.Billing + " code", Width: 12,
		Note: fmt.Sprintf("%s; table of %s. A code says what a thing is called, not that it is paid: the payer's rules decide, and on modifiers too.", table.Source, table.ValidFrom),
	})
	for i := range out.Rows {
		out.Rows[i] = append(out.Rows[i], table.Code(p, spec(i)))
	}
	return out
}
