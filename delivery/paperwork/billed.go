package paperwork

import (
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// billed adds the column of billing codes where the programme wants one.
func billed(out sheet.Out, setting string, spec func(row int) inventory.Spec) sheet.Out {
	table, wanted := delivery.BillingCodes(setting)
	if !wanted {
		return out
	}
	out.Columns = append(out.Columns, sheet.Column{
		Heading: setting + " code", Width: 12,
		Note: fmt.Sprintf("%s; table of %s. A code says what a thing is called, not that it is paid: the payer's rules decide, and on modifiers too.", table.Source, table.ValidFrom),
	})
	for i := range out.Rows {
		out.Rows[i] = append(out.Rows[i], table.Code(spec(i)))
	}
	return out
}
