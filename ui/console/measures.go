package console

import (
	"context"
	"fmt"
	"text/tabwriter"

	"lungwort/delivery/measures"
	"lungwort/delivery/store"
)

// measured is a measure with what its cases come to, for machines.
type measured struct {
	measures.Measure
	All    measures.Figure  `json:"all"`
	Months []measures.Month `json:"months"`
	Parts  []measures.Part  `json:"parts"`
}

// judged says what the programme is judged by.
func judged(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("measures")
	file := fs.String("book", "", "the book")
	asJSON := fs.Bool("json", false, "print JSON, with every case")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		list, err := desk.Measures(ctx, now)
		if err != nil {
			return err
		}
		if *asJSON {
			out := make([]measured, len(list))
			for i, m := range list {
				out[i] = measured{m, m.Figure(), m.Months(now), m.Parts()}
			}
			return p.print(out)
		}
		t := tabwriter.NewWriter(p.Out, 0, 0, 2, ' ', 0)
		for _, m := range list {
			fmt.Fprintf(t, "%s\t%s%s\n", m.Name, m.Says(m.Figure()), few(m.Figure()))
		}
		return t.Flush()
	})
}

func few(f measures.Figure) string {
	if f.N > 0 && f.Few {
		return " (few cases)"
	}
	return ""
}
