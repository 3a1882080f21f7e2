package paperwork

import (
	"context"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// Deliveries returns the register of proof of delivery: every thing that was
// handed over to a person, with who signed for it.
func (c Clerk) Deliveries(ctx context.Context) (sheet.Out, error) {
	facts, err := c.book.Facts(ctx, items.About{})
	if err != nil {
		return sheet.Out{}, err
	}
	found, err := c.book.Homes(ctx, "", everyone)
	if err != nil {
		return sheet.Out{}, err
	}
	streets, err := c.book.Streets(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	people := make(map[inventory.PersonID]delivery.Person, len(found))
	for _, f := range found {
		people[f.Person.ID] = f.Person
	}
	return DeliverySheet(delivery.DeliveriesOf(facts), people, streets, c.Programme, c.Now), nil
}

// DeliverySheet returns deliveries as a sheet; the fields are those a payer
// asks for on a proof of delivery.
func DeliverySheet(all []delivery.Delivered, people map[inventory.PersonID]delivery.Person, streets map[inventory.AddressID]string, p delivery.Programme, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Proof of delivery", Title: "Register of proof of delivery", AsOf: now, What: "register of proof of delivery",
		Columns: []sheet.Column{
			{Heading: "Delivered", Kind: sheet.Time, Note: "the day of delivery is the day of service"}, {Heading: "Person", Width: 24}, {Heading: "Record number", Width: 14},
			{Heading: "Address", Width: 32}, {Heading: "Description", Width: 28}, {Heading: "Model", Width: 14}, {Heading: "Serial", Width: 16}, {Heading: "Quantity", Kind: sheet.Whole},
			{Heading: "Signed", Kind: sheet.Time, Note: "blank: no valid proof is on file"}, {Heading: "Signed by", Width: 22}, {Heading: "Relationship", Width: 16},
		},
		Notes: []string{"What a proof of delivery must hold, and how long it is kept, differs by payer: local rules decide."},
	}
	for _, d := range all {
		person := people[d.Person]
		var by, relationship any
		for _, s := range person.Signatures {
			if s.At.Equal(d.Proven) {
				by, relationship = s.Name, s.Relationship
			}
		}
		out.Rows = append(out.Rows, []any{
			when(d.At, now), person.Name(), person.Record, streets[inventory.AddressID(d.To.Name())], d.Spec.What(), d.Spec.Model, d.Spec.Serial, 1,
			when(d.Proven, now), by, relationship,
		})
	}
	return billed(out, p, func(row int) inventory.Spec { return all[row].Spec })
}

// benchSpan is how far back the bench log goes.
const benchSpan = 365 * 24 * time.Hour

// Bench returns the log of the bench: what came back, was cleaned, tested,
// filled, released or kept, in the last year.
func (c Clerk) Bench(ctx context.Context) (sheet.Out, error) {
	facts, err := c.book.Facts(ctx, items.About{Since: c.Now.Add(-benchSpan)})
	if err != nil {
		return sheet.Out{}, err
	}
	list, _, err := c.book.Items(ctx, items.Filter{})
	return BenchSheet(facts, list, c.Now), err
}

// BenchSheet returns the facts of the bench as a sheet, newest first.
func BenchSheet(facts []inventory.Fact, list []inventory.Item, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Bench log", Title: "Bench log, the last year", AsOf: now, What: "bench log",
		Columns: []sheet.Column{
			{Heading: "When", Kind: sheet.Time}, {Heading: "Serial", Width: 16}, {Heading: "What it is", Width: 26}, {Heading: "Done", Width: 60},
			{Heading: "Oxygen (%)", Kind: sheet.Number}, {Heading: "Gauge (psi)", Kind: sheet.Number}, {Heading: "Hours", Kind: sheet.Number}, {Heading: "By", Width: 16},
		},
	}
	known := make(map[inventory.ItemID]inventory.Item, len(list))
	for _, i := range list {
		known[i.ID] = i
	}
	standing := inventory.Standing(facts)
	for _, f := range slices.Backward(standing) {
		if !ofBench(f) {
			continue
		}
		var oxygen, gauge, hours any
		if seen, is := f.Statement.(*inventory.Observed); is {
			oxygen, gauge, hours = seenValues(*seen)
		}
		item := known[f.Item]
		out.Rows = append(out.Rows, []any{when(f.Happened, now), item.Label(), item.Spec.What(), delivery.Sentence(f), oxygen, gauge, hours, f.By})
	}
	return out
}

// ofBench reports whether a fact belongs into the log of the bench. A reading
// in a home does not.
func ofBench(f inventory.Fact) bool {
	switch f.Statement.(type) {
	case *inventory.Returned, *inventory.Benched, *inventory.Tested, *inventory.Cleared, *inventory.Quarantined, *inventory.Filled, *inventory.Stamped, *inventory.OwnerTold:
		return f.Item != ""
	case *inventory.Observed:
		return f.Item != "" && f.Person == ""
	}
	return false
}

func seenValues(s inventory.Observed) (oxygen, gauge, hours any) {
	if s.Oxygen != nil {
		oxygen = rounded(*s.Oxygen)
	}
	if s.Gauge != nil {
		gauge = rounded(s.Gauge.PSI())
	}
	if s.Hours != nil {
		hours = rounded(*s.Hours)
	}
	return oxygen, gauge, hours
}
