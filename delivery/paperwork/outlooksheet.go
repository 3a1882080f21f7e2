package paperwork

import (
	"context"
	"fmt"
	"math"
	"strings"

	"lungwort/delivery/stocking"
	"lungwort/inventory/sheet"
)

// Outlook returns whether each kind of thing lasts, day by day for the two weeks
// to come, as is usual: no surge, no strike, no recall.
func (c Clerk) Outlook(ctx context.Context) (sheet.Out, error) {
	out := sheet.Out{
		Name: "Outlook", What: "outlook", Title: "Will there be enough?", AsOf: c.Now,
		Columns: []sheet.Column{
			{Heading: "Kind", Width: 28}, {Heading: "Day", Kind: sheet.Day},
			{Heading: "Ready now", Kind: sheet.Whole}, {Heading: "Needed now", Kind: sheet.Whole, Note: "with a person who needs it, or set aside"},
			{Heading: "Not needed now", Kind: sheet.Whole, Note: "in homes that need it no more"},
			{Heading: "Coming", Kind: sheet.Whole, Note: "collected, on the bench or at the plant"},
			{Heading: "Hand-overs a week", Kind: sheet.Number, Note: "of a usual week"},
			{Heading: "Left at the end", Kind: sheet.Number, Note: "ready at the end of the day: the mean of what may come; below 0: so many lack"},
			{Heading: "Left, low", Kind: sheet.Whole, Note: "1 chance in 20 of fewer"}, {Heading: "Left, high", Kind: sheet.Whole, Note: "1 chance in 20 of more"},
			{Heading: "Short (%)", Kind: sheet.Number, Note: "chance that not all of what is wanted by then was there"},
			{Heading: "More needed", Kind: sheet.Whole, Note: "that many more hold the chance the programme accepts"},
			{Heading: "What helps", Width: 60, Note: "beside the first day of a kind: the cheapest first; blank: it lasts"},
		},
	}
	o, err := c.book.Outlook(ctx, c.Now)
	if err != nil {
		return out, err
	}
	out.Notes = append(out.Notes, fmt.Sprintf("The programme accepts a chance of %s of running short.", stocking.Chance(o.Programme.Shortage)))
	for _, l := range o.Lines(stocking.WhatIf{}) {
		for _, says := range l.Assumed {
			out.Notes = append(out.Notes, l.What+": "+says)
		}
		out.Rows = append(out.Rows, outlookRows(l, c)...)
	}
	return out, nil
}

func outlookRows(l stocking.Line, c Clerk) [][]any {
	helps := make([]string, len(l.Ways))
	for i, way := range l.Ways {
		helps[i] = way.Says(c.Now)
	}
	var rows [][]any
	for i, d := range l.Days {
		row := []any{
			l.What, d.Day, l.Ready, l.Needed, l.Idle, l.Coming, tenths(l.Weekly), tenths(d.Left), d.Low, d.High, tenths(100 * d.Short), d.ToBeSafe, nil,
		}
		if i == 0 && len(helps) > 0 {
			row[len(row)-1] = strings.Join(helps, "; ")
		}
		rows = append(rows, row)
	}
	return rows
}

func tenths(v float64) float64 { return math.Round(v*10) / 10 }
