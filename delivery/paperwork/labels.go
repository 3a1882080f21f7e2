package paperwork

import (
	"time"

	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// Labels returns a label for each item. No label says whose home an item is
// in.
func (d Desk) Labels(items []inventory.Item, stock paper.Stock, dpi paper.DPI, first int) paper.LabelSheet {
	sheet := paper.LabelSheet{Stock: stock, DPI: dpi, First: first, Copies: 1, Printed: d.Now}
	for _, i := range items {
		t := tag.Mint(i.Tag)
		label := paper.Label{
			Tag: t.Printed(), Payload: d.payload(i), Kind: i.Spec.What(), Size: string(i.Spec.Size),
			Owner: i.Spec.Owner, ReturnPhone: d.Programme.Phone,
		}
		if i.Spec.Kind == inventory.Cylinder {
			label.Kind = "oxygen cylinder"
		}
		if label.Owner == "" {
			label.Owner = d.Programme.Name
		}
		if month, err := time.Parse("2006-01", i.Spec.Requal); err == nil {
			label.RequalifyBy = month
		}
		sheet.Labels = append(sheet.Labels, label)
	}
	return sheet
}

// payload is what the code on an item's label says: our tag, or with a GS1
// company prefix the key that carries it, GRAI for a cylinder and GIAI for
// anything else.
func (d Desk) payload(i inventory.Item) string {
	t, company := tag.Mint(i.Tag), d.Programme.Company
	switch {
	case company == "":
		return t.Payload()
	case i.Spec.Kind == inventory.Cylinder:
		return tag.Carried(d.Programme.Carries, "8003", t.Returnable(company))
	}
	return tag.Carried(d.Programme.Carries, "8004", t.Individual(company))
}
