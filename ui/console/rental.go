package console

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
)

// rental says what is owed for rented cylinders, by owner and size, and checks
// an owner's invoice against it.
func rental(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("rental")
	file := fs.String("book", "", "the book")
	owner := fs.String("owner", "", "whose; left out: every owner")
	size := fs.String("size", "", "cylinder size, as US-E; left out: every size")
	var from, until, known moment
	fs.Var(&from, "from", "begin of the period; left out: 30 days before its end")
	fs.Var(&until, "until", "end of the period")
	fs.Var(&known, "known", "show what the book knew at this time")
	bills := fs.Int("invoice", -1, "how many the owner's invoice counts")
	list := fs.String("list", "", "file with the serials of the invoice, one a line")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	var serials []string
	if *list != "" {
		var err error
		if serials, err = lines(*list); err != nil {
			return err
		}
		if *bills < 0 {
			*bills = len(serials)
		}
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		end, err := until.on(ctx, p, desk)
		if err != nil {
			return err
		}
		begin := end.AddDate(0, 0, -30)
		if !from.IsZero() {
			begin = from.Time
		}
		all, err := desk.Rentals(ctx, *owner, *size)
		if err != nil {
			return err
		}
		owed := owing{From: begin, Until: end, Lines: delivery.RentalLines(all, begin, end)}
		if *bills >= 0 {
			owed.Invoice = new(delivery.CheckInvoice(all, *bills, serials, end))
		}
		if *asJSON {
			return p.print(owed)
		}
		p.printOwing(owed)
		return nil
	})
}

// owing is what is owed in a period, and what an invoice says otherwise.
type owing struct {
	From    time.Time             `json:"from"`
	Until   time.Time             `json:"until"`
	Lines   []delivery.RentalLine `json:"lines"`
	Invoice *delivery.Difference  `json:"invoice,omitempty"`
}

func (p *Program) printOwing(o owing) {
	for _, l := range o.Lines {
		fmt.Fprintf(p.Out, "%s  %s  %d with us, %d cylinder days from %s to %s\n",
			l.Owner, l.Size, l.Count, l.Days, o.From.Format("2 Jan"), o.Until.Format("2 Jan"))
	}
	if o.Invoice == nil {
		return
	}
	fmt.Fprintf(p.Out, "The invoice says %d, the book says %d.\n", o.Invoice.Theirs, o.Invoice.Ours)
	for _, line := range o.Invoice.Lines {
		fmt.Fprintln(p.Out, "  "+line)
	}
}
