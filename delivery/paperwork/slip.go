package paperwork

import (
	"context"
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// ExchangeSlip returns the slip of an exchange by the number of its fact; zero
// is the last one.
func (c Clerk) ExchangeSlip(ctx context.Context, fact inventory.FactID) (paper.ExchangeSlip, error) {
	all, err := c.book.Exchanges(ctx)
	if err != nil {
		return paper.ExchangeSlip{}, err
	}
	i := slices.IndexFunc(all, func(f inventory.Fact) bool { return fact == 0 || f.ID == fact })
	if i < 0 {
		return paper.ExchangeSlip{}, refusal.New(refusal.NotFound, "There is no such exchange in the book.", "Sign the exchange on the screen Plant first.")
	}
	f := all[i]
	said, _ := f.Statement.(*inventory.Exchanged)
	x := paper.ExchangeSlip{
		Head: c.head(c.code(tag.PaperSlip, fmt.Sprint(f.ID))), Plant: c.siteName(said.Plant), Depot: c.siteName(said.Depot),
		Driver: said.Driver, By: f.By, Theirs: said.Slip, At: f.Happened.In(c.Now.Location()),
	}
	for _, l := range slipLines(*said) {
		x.Lines = append(x.Lines, paper.SlipLine{Owner: ownerName(l.owner), Size: string(l.size), Out: l.out, In: l.in})
	}
	for _, e := range said.Exceptions {
		x.Notes = append(x.Notes, paper.SlipNote{Says: e.Says, Next: e.Next})
	}
	if x.Went, err = c.things(ctx, said.Went); err != nil {
		return x, err
	}
	x.Came, err = c.things(ctx, said.Came)
	return x, err
}

// siteName is a place as people call it.
func (d Desk) siteName(short string) string {
	if site, known := d.Programme.Site(short); known && site.Title != "" {
		return site.Title
	}
	return short
}

func (c Clerk) things(ctx context.Context, ids []inventory.ItemID) ([]paper.Item, error) {
	list := make([]paper.Item, len(ids))
	for i, id := range ids {
		page, err := c.book.ItemPage(ctx, id)
		if err != nil {
			return nil, err
		}
		list[i] = thing(page.Item)
	}
	return list, nil
}
