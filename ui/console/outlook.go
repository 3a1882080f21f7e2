package console

import (
	"context"
	"fmt"
	"text/tabwriter"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/delivery/store"
)

// stockOutlook says whether each kind of thing lasts for two weeks.
func stockOutlook(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("outlook")
	file := fs.String("book", "", "the book")
	var w stocking.WhatIf
	fs.Float64Var(&w.Surge, "surge", 0, "suppose so many times the usual hand-overs for the two weeks")
	fs.BoolVar(&w.Strike, "strike", false, "suppose that the filling plants give nothing for the two weeks")
	fs.StringVar(&w.Recalled, "recalled", "", "suppose that every thing of this model is out of use")
	asJSON := fs.Bool("json", false, "print JSON")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if !(w.Surge >= 0 && w.Surge <= 20) {
		return misuse{"--surge is a factor up to 20: 2 for twice the usual"}
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		o, err := desk.Outlook(ctx, now)
		if err != nil {
			return err
		}
		lines := o.Lines(w)
		if *asJSON {
			return p.print(lines)
		}
		if err := p.printOutlook(lines, o.Programme, now); err != nil {
			return err
		}
		p.printSplits(o.Splits(o.Loans()))
		return nil
	})
}

// printSplits says how long people needed what they were lent.
func (p *Program) printSplits(splits []stocking.Split) {
	by := ""
	for _, s := range splits {
		if s.By != by {
			by = s.By
			fmt.Fprintf(p.Out, "\nneeded for, of all loans, by %s\n", by)
		}
		fmt.Fprintf(p.Out, "  %s\n", s.Says())
	}
}

func (p *Program) printOutlook(lines []stocking.Line, settings delivery.Programme, now time.Time) error {
	t := tabwriter.NewWriter(p.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "what\tready\tneeded\tnot needed\tcoming\ta week\tshort\tday\n")
	for _, l := range lines {
		worst := l.Worst()
		fmt.Fprintf(t, "%s\t%d\t%d\t%d\t%d\t%.1f\t%s\t%s\n", l.What, l.Ready, l.Needed, l.Idle, l.Coming, l.Weekly,
			stocking.Chance(worst.Short), worst.Day.Format("Mon 2 Jan"))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	for _, l := range lines {
		if !l.Short(settings) {
			continue
		}
		fmt.Fprintf(p.Out, "\n%s: what helps, the cheapest first\n", l.What)
		for _, way := range l.Ways {
			fmt.Fprintf(p.Out, "  %s\n", way.Says(now))
			for _, do := range way.Do {
				fmt.Fprintf(p.Out, "    %s\n", do)
			}
		}
		for _, says := range l.Assumed {
			fmt.Fprintf(p.Out, "  assumed: %s\n", says)
		}
	}
	return nil
}
