package paperwork

import (
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// DeliveryProof says what stands in a home, since when, and who signed for it.
func (d Desk) DeliveryProof(page store.PersonPage, t tongue.Tongue) (paper.DeliveryProof, error) {
	p := paper.DeliveryProof{
		Head: d.head(d.code(tag.PaperProof, string(page.Person.ID))), Tongue: t, Name: page.Person.Name(), Identifiers: identifiersIn(page.Person, t),
		Address: nonEmpty(page.Address.Street, page.Address.Town),
	}
	for _, given := range delivery.DeliveriesOf(page.Facts) {
		i := slices.IndexFunc(page.Kit, func(item inventory.Item) bool { return item.ID == given.Item })
		if i < 0 || given.Person != page.Person.ID {
			continue
		}
		p.Things = append(p.Things, paper.ProvenThing{
			Item: named(page.Kit[i], t), Left: given.At.In(d.Now.Location()), Signed: local(given.Proven, d.Now), SignedBy: signedBy(page.Person, given.Proven),
		})
	}
	if len(p.Things) == 0 {
		return p, refusal.New(refusal.NotFound, "Nothing of ours stands in this home.", "A proof is for what was delivered and is still lent; the register of proofs holds the rest.")
	}
	return p, nil
}

// local is a time as the clock at the desk shows it; zero stays zero.
func local(at, now time.Time) time.Time {
	if at.IsZero() {
		return at
	}
	return at.In(now.Location())
}

// signedBy names who signed at a time, with the relationship.
func signedBy(p delivery.Person, at time.Time) string {
	for _, s := range p.Signatures {
		if s.At.Equal(at) {
			return strings.Join(nonEmpty(s.Name, s.Relationship), ", ")
		}
	}
	return ""
}

// named is a thing in a household's language.
func named(i inventory.Item, t tongue.Tongue) paper.Item {
	if t.Name == "" || t.Original() {
		return thing(i)
	}
	l := leafletThing(i)
	l.What = l.Named(t)
	return l.Item
}

// namedSupply is a handful of supplies in a household's language.
func namedSupply(s inventory.Handful, t tongue.Tongue) paper.Item {
	if t.Name == "" || t.Original() {
		return paper.Item{What: s.Supply, Quantity: s.Count}
	}
	l := leafletSupply(s)
	l.What = l.Named(t)
	return l.Item
}
