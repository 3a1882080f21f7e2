package paperwork

import (
	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// HandOver returns the receipt for what a person took home from the ward, from
// who handed it over.
func (d Desk) HandOver(page store.PersonPage, w delivery.Watch, a Asked) paper.HandOver {
	h := paper.HandOver{
		Head: d.head(d.code(tag.PaperReceipt, string(page.Person.ID))), Tongue: a.Tongue, Name: page.Person.Name(), Identifiers: identifiersIn(page.Person, a.Tongue),
		Address: []string{page.Address.Street, page.Address.Town}, HandedBy: a.By,
		Order: orderIn(page.Care, a.Tongue), NextBy: w.ActBy(), Language: page.Person.Language,
		FireDistance: d.fireDistance(), Numbers: d.numbers(a.Tongue),
	}
	if gone := page.Care.Discharge; gone != nil {
		h.At, h.Place = gone.Opened, placeIn(inventory.At(inventory.AtWard, gone.Ward), a.Tongue)
		for _, s := range gone.Supplies {
			h.Kit = append(h.Kit, paper.KitItem{Item: namedSupply(s, a.Tongue)})
		}
	}
	if o := page.Care.Order; o != nil && o.Setting == "" {
		h.FlowSet = o.Rest.String()
	}
	h.Kit = append(kitOf(page.Kit, a.Tongue), h.Kit...)
	h.Next = next(page, a.Tongue)
	return h
}

// numbers are whom to ring after the emergency number.
func (d Desk) numbers(t tongue.Tongue) []paper.Phone {
	t = spoken(t)
	var list []paper.Phone
	if d.Programme.Phone != "" {
		list = append(list, paper.Phone{Whose: t.Say("ring.kit"), Number: d.Programme.Phone})
	}
	for _, c := range d.Programme.Clinician {
		list = append(list, paper.Phone{Whose: c.Name, Number: c.Phone})
	}
	return list
}

// kitOf lists things with what their gauges showed.
func kitOf(items []inventory.Item, t tongue.Tongue) []paper.KitItem {
	list := make([]paper.KitItem, len(items))
	for i, item := range items {
		list[i] = paper.KitItem{Item: named(item, t)}
		if item.Gauge != nil {
			list[i].Gauge, list[i].ReadAt = item.Gauge.Value.String(), item.Gauge.At
		}
	}
	return list
}
