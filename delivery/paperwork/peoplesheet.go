package paperwork

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory/sheet"
)

// everyone is more persons than a programme ever has.
const everyone = 1 << 30

// editable is what the notes say of a sheet that can come back.
const editable = "Cells can be edited and the sheet taken in again: only what was edited arrives, and what was changed in the book meanwhile is asked about. " +
	"The column " + intake.MarkHeading + " tells the rows apart; leave it as it is. A row without a mark is read as a new one."

// People returns every person in the book with the home.
func (c Clerk) People(ctx context.Context) (sheet.Out, error) {
	found, err := c.book.Homes(ctx, "", everyone)
	all := make([]intake.Resident, 0, len(found))
	for _, f := range found {
		if !f.Person.Erased && f.Care.Phase != delivery.Joined {
			all = append(all, intake.Resident(f))
		}
	}
	return PeopleSheet(all, c.Now), err
}

// PeopleSheet returns persons and their homes as a sheet that can come back
// edited.
func PeopleSheet(all []intake.Resident, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "People", Title: "People and homes", AsOf: now, What: intake.OurPeople, Notes: []string{editable},
		Columns: []sheet.Column{
			{Heading: "Record number", Width: 14}, {Heading: "Family name", Width: 18}, {Heading: "Given name", Width: 18}, {Heading: "Born", Width: 12},
			{Heading: "Phone", Width: 30, Note: "the person's own first; others with whose they are in brackets"}, {Heading: "Language", Width: 12},
			{Heading: "Street", Width: 26}, {Heading: "Town", Width: 16}, {Heading: "Area", Width: 14}, {Heading: "Power line", Width: 12},
			{Heading: "Mains", Width: 14}, {Heading: "Floors", Kind: sheet.Whole, Note: "to climb without a lift; blank: none, or not known"},
			{Heading: "Smoker"}, {Heading: "Heater", Width: 14}, {Heading: "Pets"}, {Heading: "Access", Width: 24}, {Heading: "Notes", Width: 30},
			{Heading: intake.MarkHeading, Hidden: true},
		},
	}
	for _, r := range all {
		p, a := r.Person, r.Address
		var floors any
		if a.Stairs > 0 {
			floors = a.Stairs
		}
		out.Rows = append(out.Rows, []any{
			p.Record, p.Family, p.Given, p.Born, intake.PhonesText(p.Phones), p.Language, a.Street, a.Town, a.Point.Area, a.Line,
			string(a.Mains), floors, a.Smoker, a.Heater, a.Pets, a.Access, p.Note, intake.PersonMark(r),
		})
	}
	return out
}
