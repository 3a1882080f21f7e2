package paperwork

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
)

// Exchanges returns the statement of exchanges with filling plants.
func (c Clerk) Exchanges(ctx context.Context) (sheet.Out, error) {
	facts, err := c.book.Exchanges(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	rented, err := c.book.Rentals(ctx, "", "")
	out := ExchangeSheet(facts, c.Now)
	out.Notes = rentalNotes(rented, c.Now)
	return out, err
}

// ExchangeSheet returns exchanges as a sheet: a row for each owner and size of
// each slip, newest first.
func ExchangeSheet(facts []inventory.Fact, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Exchanges", Title: "Exchanges with filling plants, by the book", AsOf: now, What: "exchange statement",
		Columns: []sheet.Column{
			{Heading: "Signed", Kind: sheet.Time}, {Heading: "Plant", Width: 18}, {Heading: "Slip", Width: 12}, {Heading: "Depot", Width: 14}, {Heading: "Driver", Width: 16},
			{Heading: "Owner", Width: 18, Note: "of the cylinders; the programme's own come back by serial"}, {Heading: "Size"},
			{Heading: "Out", Kind: sheet.Whole, Note: "empties that went to the plant"}, {Heading: "In", Kind: sheet.Whole, Note: "fulls that came back"},
			{Heading: "Exceptions", Width: 60, Note: "what the slip was signed with although it did not fit"},
		},
	}
	for _, f := range facts {
		s, is := f.Statement.(*inventory.Exchanged)
		if !is {
			continue
		}
		exceptions := make([]string, len(s.Exceptions))
		for i, x := range s.Exceptions {
			exceptions[i] = x.Says
		}
		for _, l := range slipLines(*s) {
			out.Rows = append(out.Rows, []any{
				when(f.Happened, now), s.Plant, s.Slip, s.Depot, s.Driver, ownerName(l.owner), string(l.size), l.out, l.in, strings.Join(exceptions, "; "),
			})
		}
	}
	return out
}

// slipLine is what a slip says of one owner and size.
type slipLine struct {
	owner   string
	size    gas.SizeCode
	out, in int
}

func slipLines(s inventory.Exchanged) []slipLine {
	var lines []slipLine
	of := func(c inventory.Counted) *slipLine {
		for i := range lines {
			if lines[i].owner == c.Owner && lines[i].size == c.Size {
				return &lines[i]
			}
		}
		lines = append(lines, slipLine{owner: c.Owner, size: c.Size})
		return &lines[len(lines)-1]
	}
	for _, c := range s.Out {
		of(c).out += c.Count
	}
	for _, c := range s.In {
		of(c).in += c.Count
	}
	return lines
}

func ownerName(owner string) string {
	if owner == "" {
		return "own"
	}
	return owner
}

// rentalNotes sums up for each owner what is with us and what is owed.
func rentalNotes(all []delivery.Rental, now time.Time) []string {
	var notes []string
	for _, l := range delivery.RentalLines(all, now.AddDate(0, 0, -rentalPeriod), now) {
		notes = append(notes, fmt.Sprintf("%s, %s: %d with us now, %d cylinder days in the last %d days.", l.Owner, l.Size, l.Count, l.Days, rentalPeriod))
	}
	return notes
}
