package paperwork

import (
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/sheet"
)

// CallSheet returns the calls that are due as a sheet.
func CallSheet(due []delivery.CheckIn, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Calls", What: "list of calls", Title: "Calls due, in the order in which to make them", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Person", Width: 24}, {Heading: "Phone", Width: 14}, {Heading: "Whose", Width: 14}, {Heading: "Language", Width: 12},
			{Heading: "Why", Width: 36}, {Heading: "Due", Kind: sheet.Time}, {Heading: "At the latest", Kind: sheet.Time},
			{Heading: "Ask", Width: 44, Note: "beside the usual questions"}, {Heading: "Verdict"}, {Heading: "Ordered", Width: 36},
			{Heading: "Last call", Kind: sheet.Time}, {Heading: "Tried since", Kind: sheet.Whole, Note: "calls without an answer"},
		},
	}
	for _, c := range due {
		phone, whose := Number(c.Person, c.Call.Contact)
		var ordered, last any
		if c.Care.Order != nil {
			ordered = c.Care.Order.InWords()
		}
		if c.Care.LastCall != nil {
			last = when(c.Care.LastCall.At, now)
		}
		out.Rows = append(out.Rows, []any{
			c.Person.Name(), phone, whose, c.Person.Language, c.Call.Why, when(c.Call.Due, now), when(c.Call.By, now),
			strings.Join(c.Asks, "; "), string(c.Verdict), ordered, last, c.Care.Tried,
		})
	}
	return out
}

// Number returns the number to call and whose it is.
func Number(p delivery.Person, contact int) (number, whose string) {
	if contact >= len(p.Phones) {
		return "", "no number in the book"
	}
	phone := p.Phones[contact]
	return phone.Number, phone.Whose
}

// TellSheet returns what the clinician has not heard of yet as a sheet, with
// room to write who was told.
func TellSheet(tell []delivery.CheckIn, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "To tell", What: "list for the clinician", Title: "To tell the clinician: what was seen, not what to do", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Person", Width: 24}, {Heading: "Matter", Width: 24}, {Heading: "What was seen", Width: 50},
			{Heading: "Facts", Width: 70}, {Heading: "Since", Kind: sheet.Time},
			{Heading: "Told whom", Width: 20, Note: "record it with 'act escalate' or on the screen Calls"}, {Heading: "When", Width: 14}, {Heading: "Reply", Width: 30},
		},
	}
	for _, c := range tell {
		for _, x := range c.Concerns {
			out.Rows = append(out.Rows, []any{
				c.Person.Name(), string(x.Matter), x.Says, strings.Join(x.Facts, "; "), when(x.Since, now), nil, nil, nil,
			})
		}
	}
	return out
}
