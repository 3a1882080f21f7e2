package paperwork

import (
	"context"
	"math"
	"time"

	"lungwort/delivery/measures"
	"lungwort/inventory/sheet"
)

// MeasureSheet returns the measures as a sheet: each as a whole, by month and
// by its parts.
func MeasureSheet(list []measures.Measure, now time.Time) sheet.Out {
	out := sheet.Out{
		Name: "Measures", What: "measures", Title: "What the programme is judged by", AsOf: now,
		Columns: []sheet.Column{
			{Heading: "Measure", Width: 26}, {Heading: "Of", Width: 24, Note: "all cases, one month, or the cases of one cause, kind or reason"},
			{Heading: "Cases", Kind: sheet.Number}, {Heading: "Open", Kind: sheet.Number, Note: "not finished; counted as longer, never left out"},
			{Heading: "Half within (h)", Kind: sheet.Number, Note: "blank: too many are still open to know"},
			{Heading: "Tail (h)", Kind: sheet.Number, Note: "9 of 10 took no longer; of the bridge margin, 1 of 10 had less"},
			{Heading: "Share (%)", Kind: sheet.Number}, {Heading: "Band from (%)", Kind: sheet.Number, Note: "95 % score interval (Wilson 1927)"},
			{Heading: "Band to (%)", Kind: sheet.Number}, {Heading: "Sum", Kind: sheet.Number}, {Heading: "In words", Width: 44},
			{Heading: "Few", Note: "under ten cases: it says little"}, {Heading: "Definition", Width: 80},
		},
	}
	for _, m := range list {
		add := func(of string, f measures.Figure) { out.Rows = append(out.Rows, measureRow(m, of, f)) }
		add("all", m.Figure())
		for _, month := range m.Months(now) {
			add(month.Month.Format("2006-01"), month.Figure)
		}
		if parts := m.Parts(); len(parts) > 1 {
			for _, part := range parts {
				add(part.Why, part.Figure)
			}
		}
	}
	return out
}

func measureRow(m measures.Measure, of string, f measures.Figure) []any {
	row := []any{m.Name, of, float64(f.N), float64(f.Open), nil, nil, nil, nil, nil, nil, m.Says(f), nil, m.Definition}
	tenth := func(v float64) any { return math.Round(v*10) / 10 }
	switch m.Sort {
	case measures.Lasts:
		if f.Known {
			row[4] = tenth(f.Middle.Hours())
		}
		if f.TailKnown {
			row[5] = tenth(f.Tail.Hours())
		}
	case measures.Shares:
		if f.N > f.Open {
			row[6], row[7], row[8] = tenth(100*f.Share), tenth(100*f.Low), tenth(100*f.High)
		}
	case measures.Sums:
		row[9] = tenth(f.Sum)
	}
	if f.N > 0 && f.Few {
		row[11] = "few"
	}
	return row
}

// Measures returns what the programme is judged by as a sheet.
func (c Clerk) Measures(ctx context.Context) (sheet.Out, error) {
	list, err := c.book.Measures(ctx, c.Now)
	return MeasureSheet(list, c.Now), err
}
