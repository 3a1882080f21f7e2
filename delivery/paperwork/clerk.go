package paperwork

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
	"lungwort/labels/paper"
)

// Clerk collects from the book what papers and sheets show, as of one moment.
// The window and the commands have their papers from one.
type Clerk struct {
	Desk

	book *store.Desk
}

// NewClerk returns a clerk with the programme's settings in force.
func NewClerk(ctx context.Context, book *store.Desk, now time.Time) (Clerk, error) {
	book = book.Unveiled() // a paper says who people are
	settings, err := book.Programme(ctx)
	if err != nil {
		return Clerk{}, err
	}
	now = settings.OnTheWall(now)
	c := Clerk{Desk: NewDesk(settings, now), book: book}
	last, err := book.LastRecorded(ctx)
	if last.Before(now) && !last.IsZero() { // looking back, what was recorded since is none of it
		c.FactsAsOf = last.In(now.Location())
	}
	return c, err
}

// WatchList returns every person on oxygen, most urgent first.
func (c Clerk) WatchList(ctx context.Context) (sheet.Out, error) {
	rows, err := c.book.Watch(ctx, c.Now)
	return WatchSheet(rows, c.Now), err
}

// Calls returns the calls due now, in the order in which to make them.
func (c Clerk) Calls(ctx context.Context) (sheet.Out, error) {
	due, _, err := c.book.Calls(ctx, c.Now)
	return CallSheet(due, c.Now), err
}

// Clinician returns what the clinician has not heard of yet.
func (c Clerk) Clinician(ctx context.Context) (sheet.Out, error) {
	_, tell, err := c.book.Calls(ctx, c.Now)
	return TellSheet(tell, c.Now), err
}

// Items returns the chosen items and who has them.
func (c Clerk) Items(ctx context.Context, f items.Filter) (sheet.Out, error) {
	list, _, err := c.book.Items(ctx, f)
	if err != nil {
		return sheet.Out{}, err
	}
	return c.itemSheet(ctx, list)
}

func (c Clerk) itemSheet(ctx context.Context, list []inventory.Item) (sheet.Out, error) {
	names, err := c.book.Names(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	streets, err := c.book.Streets(ctx)
	return ItemSheet(list, names, streets, c.Now), err
}

// Lent are the states of an item on loan.
var Lent = []inventory.State{inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle, inventory.Waiting}

// Loans returns the items on loan.
func (c Clerk) Loans(ctx context.Context) (sheet.Out, error) {
	list, _, err := c.book.Items(ctx, items.Filter{States: Lent})
	if err != nil {
		return sheet.Out{}, err
	}
	table, err := c.itemSheet(ctx, list)
	table.Name, table.Title, table.What = "Loans", "Items on loan", intake.OurLoans
	return billed(table, c.Programme, func(row int) inventory.Spec { return list[row].Spec }), err
}

// Runs returns the stops of every run that is not ended.
func (c Clerk) Runs(ctx context.Context) (sheet.Out, error) {
	runs, err := c.book.Runs(ctx, "")
	if err != nil {
		return sheet.Out{}, err
	}
	names, err := c.book.Names(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	streets, err := c.book.Streets(ctx)
	return RunSheetTable(runs, names, streets, c.Now), err
}

// Night returns the night pack of every household, and whose they are in the
// order of their numbers.
func (c Clerk) Night(ctx context.Context) (pack paper.NightPack, homes []inventory.PersonID, err error) {
	rows, err := c.book.Watch(ctx, c.Now)
	if err != nil {
		return pack, nil, err
	}
	for _, w := range rows {
		homes = append(homes, w.Person.ID)
	}
	ready, _, err := c.book.Items(ctx, items.Filter{States: []inventory.State{inventory.Ready}})
	if err != nil {
		return pack, nil, err
	}
	pack = c.NightPack(rows, ready)
	pack.Cards, err = c.nightCards(ctx, rows, ready)
	return pack, homes, err
}

// Printed puts it in the book that a night pack was printed, as of the clerk's
// moment, so that its numbers can be keyed in and what changed since is known.
func (c Clerk) Printed(ctx context.Context, homes []inventory.PersonID, by string) error {
	if len(homes) == 0 {
		return nil
	}
	_, err := c.book.Do(ctx, store.Hand{By: by, Source: inventory.Program, At: c.Now}, delivery.PrintedPack{Persons: homes})
	if refusal.KindOf(err) == refusal.ReadOnly {
		return nil // an earlier state of the book, only looked at
	}
	return err
}

// Trips returns the runs that still have stops to make: those whose sheets
// are printed.
func (c Clerk) Trips(ctx context.Context) ([]delivery.Run, error) {
	runs, err := c.book.Runs(ctx, "")
	var open []delivery.Run
	for _, r := range runs {
		if len(r.Open()) > 0 {
			open = append(open, r)
		}
	}
	return open, err
}

// Trip returns the sheet a driver works from.
func (c Clerk) Trip(ctx context.Context, run delivery.Run) (paper.RunSheet, error) {
	pages, err := c.book.RunPages(ctx, run, c.Now)
	if err != nil {
		return paper.RunSheet{}, err
	}
	loading, err := c.book.Loading(ctx, run.ID)
	if err != nil {
		return paper.RunSheet{}, err
	}
	house := make(map[inventory.ItemID]inventory.Item)
	for _, page := range pages {
		for _, other := range page.House {
			theirs, _, err := c.book.Items(ctx, items.Filter{Person: other.Care.Person})
			if err != nil {
				return paper.RunSheet{}, err
			}
			for _, item := range theirs {
				house[item.ID] = item
			}
		}
	}
	return c.RunSheet(loading, pages, house)
}

// OnTheirWay returns the labels of what goes out: set aside or handed over.
func (c Clerk) OnTheirWay(ctx context.Context, stock paper.Stock, dpi paper.DPI) (paper.LabelSheet, error) {
	held, _, err := c.book.Items(ctx, items.Filter{States: []inventory.State{inventory.Held, inventory.HandedOver}})
	return c.Labels(held, stock, dpi, 1), err
}
