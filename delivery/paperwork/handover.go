package paperwork

import (
	"context"
	"fmt"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// Receipt returns the receipt of a person's hand-over.
func (c Clerk) Receipt(ctx context.Context, who inventory.PersonID, by string) (paper.HandOver, error) {
	page, err := c.book.Page(ctx, who, c.Now)
	if err != nil {
		return paper.HandOver{}, err
	}
	watch, err := c.book.WatchOne(ctx, who, c.Now)
	return c.HandOver(page, watch, by), err
}

// HandOver returns the receipt for what a person took home from the ward. By
// is who handed over.
func (d Desk) HandOver(page store.PersonPage, w delivery.Watch, by string) paper.HandOver {
	code, err := tag.PaperCode(tag.PaperReceipt, string(page.Person.ID))
	if err != nil {
		code = "" // the receipt is found by its name as well
	}
	h := paper.HandOver{
		Head: d.head(code), Name: page.Person.Name(), Identifiers: identifiers(page.Person),
		Address: []string{page.Address.Street, page.Address.Town}, HandedBy: by,
		Order: order(page.Care), NextBy: w.ActBy(), Language: page.Person.Language,
		FireDistance: d.fireDistance(), Numbers: d.numbers(),
	}
	if gone := page.Care.Discharge; gone != nil {
		h.At, h.Place = gone.Opened, "ward "+gone.Ward
		for _, s := range gone.Supplies {
			h.Kit = append(h.Kit, paper.KitItem{Item: paper.Item{What: s.Supply, Quantity: s.Count}})
		}
	}
	if o := page.Care.Order; o != nil && o.Setting == "" {
		h.FlowSet = o.Rest.String()
	}
	h.Kit = append(kitOf(page.Kit), h.Kit...)
	h.Next = next(page)
	return h
}

// numbers are whom to ring after the emergency number.
func (d Desk) numbers() []paper.Phone {
	var list []paper.Phone
	if d.Programme.Phone != "" {
		list = append(list, paper.Phone{Whose: "the kit: alarm, noise, low gauge, moving", Number: d.Programme.Phone})
	}
	for _, c := range d.Programme.Clinician {
		list = append(list, paper.Phone{Whose: c.Name, Number: c.Phone})
	}
	return list
}

// kitOf lists things with what their gauges showed.
func kitOf(items []inventory.Item) []paper.KitItem {
	list := make([]paper.KitItem, len(items))
	for i, item := range items {
		list[i] = paper.KitItem{Item: thing(item)}
		if item.Gauge != nil {
			list[i].Gauge, list[i].ReadAt = item.Gauge.Value.String(), item.Gauge.At
		}
	}
	return list
}

// next says what comes to the home next.
func next(page store.PersonPage) string {
	for _, t := range page.Care.Tasks {
		if t.Tasked.Task != delivery.Deliver {
			continue
		}
		what := "the delivery"
		if len(t.Bring) > 0 {
			what = inventory.Spec{Kind: t.Bring[0].Kind, Rated: t.Bring[0].Rated}.What()
		}
		if t.Until.IsZero() {
			return what
		}
		return fmt.Sprintf("%s by %s", what, t.Until.Format("Mon 15:04"))
	}
	return ""
}
