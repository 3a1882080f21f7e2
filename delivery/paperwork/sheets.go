package paperwork

import (
	"math"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	"lungwort/labels/tag"
)

// WatchSheet returns the watch list as a sheet.
func WatchSheet(rows []delivery.Watch, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Watch list", What: "watch list", Title: "Watch list, most urgent first", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Verdict", Note: "holds: gas outlasts help with the margin; tight: margin not kept; short: ends before help; dry: the planning value has ended; unknown: ask"},
			{Heading: "Person", Width: 24}, {Heading: "Address", Width: 34}, {Heading: "Phone", Width: 14},
			{Heading: "Situation", Width: 14}, {Heading: "Flow (L/min)", Kind: sheet.Number},
			{Heading: "Gas", Width: 36, Note: "the last reading, with its age"},
			{Heading: "Litres left", Kind: sheet.Number, Note: "above the reserve, at 70 °F and 14.696 psia, aged from the reading"},
			{Heading: "Dry, safe end", Kind: sheet.Time, Note: "gauge zero with a chance of 1 %; blank while a concentrator runs"},
			{Heading: "Dry, middle", Kind: sheet.Time}, {Heading: "Dry, far end", Kind: sheet.Time},
			{Heading: "Cover, safe end", Kind: sheet.Duration, Note: "how long the gas lasts if the concentrator stopped now"},
			{Heading: "Act-by", Kind: sheet.Time, Note: "when gas must have arrived"},
			{Heading: "Next visit", Kind: sheet.Time}, {Heading: "Next action", Width: 44},
		},
	}
	for _, w := range rows {
		f := w.Forecast
		out.Rows = append(out.Rows, []any{
			string(w.Verdict), w.Person.Name(), w.Address.Where(), firstPhone(w.Person),
			w.Situation, float64(w.Flow), w.Gas, math.Round(float64(f.Litres)),
			when(f.Low, now), when(f.Mid, now), when(f.High, now), cover(f.Known, f.CoverLow),
			when(f.ActBy, now), when(w.Visit, now), w.Next,
		})
	}
	return out
}

func firstPhone(p delivery.Person) any {
	if len(p.Phones) == 0 {
		return nil
	}
	return p.Phones[0].Number
}

// when returns a time on the clock of now, to the minute, or a blank.
func when(t, now time.Time) any {
	if t.IsZero() {
		return nil
	}
	return t.In(now.Location()).Truncate(time.Minute)
}

func cover(known bool, d time.Duration) any {
	if !known {
		return nil
	}
	return d.Truncate(time.Minute)
}

// ItemSheet returns items as a sheet; names say who has what on loan, and
// streets in which home.
func ItemSheet(items []inventory.Item, names map[inventory.PersonID]string, streets map[inventory.AddressID]string, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Items", Title: "Items", AsOf: now, What: intake.OurItems, Notes: []string{editable},
		Columns: []sheet.Column{
			{Heading: "Tag", Width: 12}, {Heading: "Serial", Width: 16}, {Heading: "Kind", Width: 14}, {Heading: "Size"},
			{Heading: "Model", Width: 14}, {Heading: "Rated (L/min)", Kind: sheet.Number}, {Heading: "Owner", Width: 16},
			{Heading: "State", Width: 14}, {Heading: "Place", Width: 16}, {Heading: "Person", Width: 24}, {Heading: "Home", Width: 34},
			{Heading: "Since", Kind: sheet.Time}, {Heading: "Gauge (psi)", Kind: sheet.Number}, {Heading: "Gauge read", Kind: sheet.Time},
			{Heading: "Hours", Kind: sheet.Number}, {Heading: "Lot"}, {Heading: "Filled", Kind: sheet.Day},
			{Heading: "Requalify by"}, {Heading: "Recall", Width: 14},
			{Heading: intake.MarkHeading, Hidden: true},
		},
	}
	for _, i := range items {
		out.Rows = append(out.Rows, itemRow(i, names, streets, now))
	}
	return out
}

func itemRow(i inventory.Item, names map[inventory.PersonID]string, streets map[inventory.AddressID]string, now time.Time) []any {
	var rated, gauge, gaugeAt, hours, lot, filled, home any
	if i.Place.Kind() == inventory.AtAddress {
		home = streets[inventory.AddressID(i.Place.Name())]
	}
	if i.Spec.Rated > 0 {
		rated = float64(i.Spec.Rated)
	}
	if i.Gauge != nil {
		gauge, gaugeAt = rounded(i.Gauge.Value.PSI()), when(i.Gauge.At, now)
	}
	if i.Hours != nil {
		hours = rounded(i.Hours.Value)
	}
	if i.Fill != nil {
		lot, filled = i.Fill.Lot, i.Fill.At
	}
	return []any{
		tag.Mint(i.Tag).Printed(), i.Spec.Serial, string(i.Spec.Kind), string(i.Spec.Size), i.Spec.Model, rated, i.Spec.Owner,
		string(i.State), i.Place.InWords(), names[i.Person], home, when(i.Since, now), gauge, gaugeAt, hours, lot, filled, i.Spec.Requal, i.Recall, intake.ItemMark(i),
	}
}

// rounded keeps the digits of a measure that a spreadsheet shows.
func rounded(v float64) float64 {
	const kept = 1e6
	return math.Round(v*kept) / kept
}

// RunSheetTable returns the stops of runs as a sheet.
func RunSheetTable(runs []delivery.Run, names map[inventory.PersonID]string, streets map[inventory.AddressID]string, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Runs", What: "runs", Title: "Runs", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Run"}, {Heading: "Day"}, {Heading: "Vehicle", Width: 12}, {Heading: "Driver", Width: 16}, {Heading: "Stop", Kind: sheet.Whole},
			{Heading: "Person", Width: 24}, {Heading: "Address", Width: 34}, {Heading: "Arrive", Kind: sheet.Time}, {Heading: "Leave", Kind: sheet.Time},
			{Heading: "Act-by", Kind: sheet.Time}, {Heading: "Late", Kind: sheet.Duration}, {Heading: "Closed", Kind: sheet.Time}, {Heading: "Failed", Width: 30},
		},
	}
	for _, r := range runs {
		for n, s := range r.Stops {
			for _, who := range s.Persons {
				var late any
				if s.Late > 0 {
					late = s.Late
				}
				out.Rows = append(out.Rows, []any{
					string(r.ID), r.Day, r.Vehicle, r.Driver, n + 1, names[who], streets[s.Address],
					when(s.Arrive, now), when(s.Leave, now), when(s.ActBy, now), late, when(s.Closed, now), s.Failed,
				})
			}
		}
	}
	return out
}
