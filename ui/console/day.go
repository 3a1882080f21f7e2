package console

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	"lungwort/labels/paper"
)

// searchSteps is the budget of the route search for a day: the same book and
// the same time give the same runs.
const searchSteps = 20_000

// day does the day's work: plans the runs that are not planned yet and writes
// the watch list, run sheets, labels and night pack into a folder.
func day(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("day")
	file := fs.String("book", "", "the book")
	out := fs.String("out", "", "folder for the papers")
	var at moment
	fs.Var(&at, "at", "as of this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *out == "" {
		return misuse{"--out is missing: the folder for the papers"}
	}
	return p.writing(ctx, *file, func(desk *store.Desk) error {
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		if err := os.MkdirAll(*out, 0o700); err != nil {
			return err
		}
		// The papers are made aside and put in place together; a folder that
		// can't be written is found out before anything is planned.
		aside, err := os.MkdirTemp(*out, ".day-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(aside)
		plan, err := desk.PlanDay(ctx, store.Hand{By: p.User, Source: inventory.Command, At: now}, searchSteps)
		if err != nil {
			return err
		}
		clerk, err := paperwork.NewClerk(ctx, desk, now)
		if err != nil {
			return err
		}
		w := dayWriter{ctx: ctx, aside: aside, clerk: clerk}
		if err := w.all(); err != nil {
			return err
		}
		if err := w.place(p, *out); err != nil {
			return err
		}
		if err := clerk.Printed(ctx, w.homes, p.User); err != nil {
			return err
		}
		p.printTroubles(plan.Troubles)
		for _, n := range plan.Notes {
			fmt.Fprintln(p.Out, "see to: "+n)
		}
		return nil
	})
}

// dayWriter writes the papers of a day into a folder aside.
type dayWriter struct {
	ctx   context.Context
	aside string
	clerk paperwork.Clerk
	made  []madePaper
	homes []inventory.PersonID // in the night pack, in the order of their numbers
}

// madePaper is one paper that was made, with what there is to say about it.
type madePaper struct{ name, about string }

// place puts the papers into the folder they were asked for, and says so.
func (w *dayWriter) place(p *Program, out string) error {
	for _, m := range w.made {
		path := filepath.Join(out, m.name)
		if err := os.Rename(filepath.Join(w.aside, m.name), path); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "%s  %s\n", path, m.about)
	}
	return nil
}

func (w *dayWriter) all() error {
	table, err := w.clerk.WatchList(w.ctx)
	if err != nil {
		return err
	}
	const list = "watch-list.xlsx"
	if err := sheet.Write(filepath.Join(w.aside, list), []sheet.Out{table}); err != nil {
		return err
	}
	w.made = append(w.made, madePaper{list, delivery.Count(len(table.Rows), "home")})
	if err := w.runs(); err != nil {
		return err
	}
	return w.packAndLabels()
}

func (w *dayWriter) runs() error {
	runs, err := w.clerk.Trips(w.ctx)
	if err != nil {
		return err
	}
	for _, run := range runs {
		page, err := w.clerk.Trip(w.ctx, run)
		if err != nil {
			return err
		}
		name := fmt.Sprintf("run-sheet-%s.pdf", run.ID)
		if err := w.print(name, fmt.Sprintf("%s, %s", run.Vehicle, delivery.Count(len(run.Open()), "stop")), page); err != nil {
			return err
		}
	}
	return nil
}

func (w *dayWriter) packAndLabels() error {
	pack, homes, err := w.clerk.Night(w.ctx)
	if err != nil {
		return err
	}
	w.homes = homes
	if err := w.print("night-pack.pdf", delivery.Count(len(pack.Households), "home"), pack); err != nil {
		return err
	}
	labels, err := w.clerk.OnTheirWay(w.ctx, paper.Stocks[0], paper.DPI300)
	if err != nil {
		return err
	}
	if len(labels.Labels) == 0 {
		return nil // nothing goes out
	}
	return w.print("labels.pdf", delivery.Count(len(labels.Labels), "label")+" of what goes out", labels)
}

// print writes one paper.
func (w *dayWriter) print(name, about string, page paperwork.Printable) error {
	if err := paperwork.Save(filepath.Join(w.aside, name), page); err != nil {
		return err
	}
	w.made = append(w.made, madePaper{name, about})
	return nil
}
