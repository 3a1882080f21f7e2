package paperwork

import (
	"cmp"
	"context"
	"slices"
	"time"

	"lungwort/delivery/measures"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
)

// MeasurePages returns the measures as pages.
func (c Clerk) MeasurePages(ctx context.Context) (paper.MeasurePages, error) {
	list, err := c.book.Measures(ctx, c.Now)
	pages := paper.MeasurePages{Head: c.head(c.code(tag.PaperMeasures, c.Now.Format("20060102")))}
	for _, m := range list {
		f := m.Figure()
		pages.Measures = append(pages.Measures, paper.MeasureBlock{
			Name: m.Name, Says: m.Says(f), Few: f.N > 0 && f.Few, Definition: m.Definition, Parts: PartsInWords(m), Months: MonthData(m, c.Now),
		})
	}
	return pages, err
}

// PartsInWords tells a measure by cause, kind or reason; nothing where there is
// only one.
func PartsInWords(m measures.Measure) []string {
	parts := m.Parts()
	if len(parts) < 2 {
		return nil
	}
	says := make([]string, 0, len(parts))
	for _, p := range parts {
		says = append(says, cmp.Or(p.Why, "the others")+": "+m.Says(p.Figure))
	}
	return says
}

// MonthData returns a measure month by month, as screen and paper draw it.
func MonthData(m measures.Measure, now time.Time) scene.MonthData {
	data := scene.MonthData{Percent: m.Sort == measures.Shares}
	switch m.Sort {
	case measures.Lasts:
		data.Unit = "hours, half and tail"
	case measures.Shares:
		data.Unit = "percent, 95 % band"
	case measures.Sums:
		data.Unit = "sum"
	default:
		data.Unit = "cases"
	}
	for _, month := range m.Months(now) {
		data.Months = append(data.Months, monthBar(m, month))
	}
	if m.Sort == measures.Lasts {
		inDays(&data)
	}
	return data
}

// inDays writes hours as days where some last for days.
func inDays(data *scene.MonthData) {
	const someDays = 4 * 24.0 // hours
	if !slices.ContainsFunc(data.Months, func(b scene.MonthBar) bool { return b.High >= someDays }) {
		return
	}
	data.Unit = "days, half and tail"
	for i := range data.Months {
		b := &data.Months[i]
		b.Value, b.Low, b.High = b.Value/24, b.Low/24, b.High/24
	}
}

func monthBar(m measures.Measure, f measures.Month) scene.MonthBar {
	b := scene.MonthBar{Month: f.Month, Cases: f.N, Few: f.Few}
	switch m.Sort {
	case measures.Lasts:
		b.Known, b.Value, b.Low, b.High = f.Known, f.Middle.Hours(), f.Middle.Hours(), f.Middle.Hours()
		if f.TailKnown {
			b.Low, b.High = min(b.Value, f.Tail.Hours()), max(b.Value, f.Tail.Hours())
		}
	case measures.Shares:
		b.Known, b.Value, b.Low, b.High = f.N > f.Open, 100*f.Share, 100*f.Low, 100*f.High
	case measures.Sums:
		b.Known, b.Value, b.Low, b.High = true, f.Sum, f.Sum, f.Sum
	default:
		b.Known, b.Value, b.Low, b.High = true, float64(f.N), float64(f.N), float64(f.N)
	}
	return b
}
