package paperwork

import (
	"context"
	"slices"
	"time"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// ReturnReceipt says what a person gave back on the last day anything was, to a
// driver or at a depot, and what is still lent.
func (c Clerk) ReturnReceipt(ctx context.Context, page store.PersonPage, a Asked) (paper.ReturnReceipt, error) {
	r := paper.ReturnReceipt{
		Head: c.head(c.code(tag.PaperReturn, string(page.Person.ID))), Tongue: a.Tongue, Name: page.Person.Name(), Identifiers: identifiersIn(page.Person, a.Tongue),
		Address: nonEmpty(page.Address.Street, page.Address.Town),
	}
	standing := inventory.Standing(page.Facts)
	listed := map[inventory.ItemID]bool{}
	for _, f := range slices.Backward(standing) {
		to, back := gaveTo(f, a.Tongue)
		at := f.Happened.In(c.Now.Location())
		if !back || listed[f.Item] || !r.At.IsZero() && at.Format(time.DateOnly) != r.At.Format(time.DateOnly) {
			continue
		}
		if r.At.IsZero() {
			r.At, r.Place, r.TakenBy = at, to, f.By
		}
		item, err := c.book.ItemPage(ctx, f.Item)
		if err != nil {
			return r, err
		}
		given := paper.KitItem{Item: named(item.Item, a.Tongue)}
		given.Gauge, given.ReadAt = gaugeWith(f, standing, c.Now)
		r.Returned, listed[f.Item] = append(r.Returned, given), true
	}
	if len(r.Returned) == 0 {
		return r, refusal.New(refusal.NotFound, "Nothing came back from this person yet.", "Scan what came back in on the screen Return first.")
	}
	slices.Reverse(r.Returned)
	for _, item := range page.Kit {
		r.Missing = append(r.Missing, named(item, a.Tongue))
	}
	return r, nil
}

// gaveTo reports whether a fact is a person giving a thing back, and to whom.
func gaveTo(f inventory.Fact, t tongue.Tongue) (to string, back bool) {
	switch s := f.Statement.(type) {
	case *inventory.Returned:
		return placeIn(inventory.At(inventory.AtDepot, s.Depot), t), f.Person != ""
	case *inventory.Collected:
		return placeIn(inventory.At(inventory.AtVehicle, s.Vehicle), t), f.Person != ""
	}
	return "", false
}

// gaugeWith returns what the gauge of a thing showed as it was given back.
func gaugeWith(back inventory.Fact, facts []inventory.Fact, now time.Time) (gauge string, at time.Time) {
	for _, f := range facts {
		s, read := f.Statement.(*inventory.Observed)
		if read && s.Gauge != nil && f.Item == back.Item && f.Happened.Equal(back.Happened) {
			gauge, at = s.Gauge.String(), f.Happened.In(now.Location())
		}
	}
	return gauge, at
}
