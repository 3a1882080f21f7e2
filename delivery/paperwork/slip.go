package paperwork

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// ExchangeSlip returns the slip of an exchange by the number of its fact; zero
// is the last one.
func (c Clerk) ExchangeSlip(ctx context.Context, fact inventory.FactID, t tongue.Tongue) (paper.ExchangeSlip, error) {
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
	t = spoken(t)
	x := paper.ExchangeSlip{
		Tongue: t, Head: c.head(c.code(tag.PaperSlip, fmt.Sprint(f.ID))), Plant: c.siteName(said.Plant), Depot: c.siteName(said.Depot),
		Driver: said.Driver, By: f.By, Theirs: said.Slip, At: f.Happened.In(c.Now.Location()),
	}
	for _, l := range slipLines(*said) {
		x.Lines = append(x.Lines, paper.SlipLine{Owner: ownerIn(l.owner, t), Size: string(l.size), Out: l.out, In: l.in})
	}
	for _, e := range said.Exceptions {
		x.Notes = append(x.Notes, noteIn(e, t))
	}
	if x.Went, err = c.things(ctx, said.Went, t); err != nil {
		return x, err
	}
	x.Came, err = c.things(ctx, said.Came, t)
	return x, err
}

// noteIn is an exception as it was signed. In another language its sort is said
// first: the sentence itself is a fact and stays as it was written.
func noteIn(e inventory.Exception, t tongue.Tongue) paper.SlipNote {
	if t.Original() {
		return paper.SlipNote{Says: e.Says, Next: e.Next}
	}
	return paper.SlipNote{Says: strings.Join(nonEmpty(t.Say("slip."+e.Sort), e.Serial), ": "), Next: e.Says}
}

// ownerIn names the owner of a cylinder; no name is the programme.
func ownerIn(owner string, t tongue.Tongue) string { return cmp.Or(owner, t.Say("tag.ours")) }

// siteName is a place as people call it.
func (d Desk) siteName(short string) string {
	if site, known := d.Programme.Site(short); known && site.Title != "" {
		return site.Title
	}
	return short
}

func (c Clerk) things(ctx context.Context, ids []inventory.ItemID, t tongue.Tongue) ([]paper.Item, error) {
	list := make([]paper.Item, len(ids))
	for i, id := range ids {
		page, err := c.book.ItemPage(ctx, id)
		if err != nil {
			return nil, err
		}
		list[i] = named(page.Item, t)
	}
	return list, nil
}
