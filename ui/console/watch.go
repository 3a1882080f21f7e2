package console

import (
	"context"
	"fmt"
	"math"
	"text/tabwriter"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
)

type watchLine struct {
	Person      string     `json:"person"`
	Address     string     `json:"address"`
	Flow        float64    `json:"flow_lpm"`
	Litres      float64    `json:"litres"`
	DryLow      *time.Time `json:"dry_low"`
	DryMid      *time.Time `json:"dry_mid"`
	DryHigh     *time.Time `json:"dry_high"`
	ActBy       *time.Time `json:"act_by"`
	Verdict     string     `json:"verdict"`
	Assumptions []string   `json:"assumptions"`
}

// watch lists every person on oxygen, most urgent first.
func watch(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("watch")
	file := fs.String("book", "", "the book")
	asJSON := fs.Bool("json", false, "print JSON")
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
		rows, err := desk.Watch(ctx, now)
		if err != nil {
			return err
		}
		if *asJSON {
			lines := make([]watchLine, len(rows))
			for i, w := range rows {
				lines[i] = lineOf(w, now)
			}
			return p.print(lines)
		}
		return p.printWatch(rows, now)
	})
}

func lineOf(w delivery.Watch, now time.Time) watchLine {
	when := func(t time.Time) *time.Time {
		if t.IsZero() {
			return nil
		}
		t = t.In(now.Location()).Truncate(time.Second)
		return &t
	}
	assumed := w.Forecast.Assumptions()
	if assumed == nil {
		assumed = []string{}
	}
	return watchLine{
		Person: w.Person.Name(), Address: w.Address.Where(),
		Flow: float64(w.Flow), Litres: math.Round(float64(w.Forecast.Litres)*10) / 10,
		DryLow: when(w.Forecast.Low), DryMid: when(w.Forecast.Mid), DryHigh: when(w.Forecast.High),
		ActBy: when(w.ActBy()), Verdict: string(w.Verdict), Assumptions: assumed,
	}
}

func (p *Program) printWatch(rows []delivery.Watch, now time.Time) error {
	t := tabwriter.NewWriter(p.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "verdict\tperson\taddress\tgas\tact-by\tnext\n")
	for _, w := range rows {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n",
			w.Verdict, w.Person.Name(), w.Address.Where(), w.Gas, delivery.Clock(w.ActBy(), now), w.Next)
	}
	return t.Flush()
}
