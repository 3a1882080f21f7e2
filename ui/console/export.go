package console

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// exports are the sheets the program gives out.
var exports = map[string]func(context.Context, *store.Desk, time.Time) (sheet.Out, error){
	"watch": watchSheet,
	"items": func(ctx context.Context, desk *store.Desk, now time.Time) (sheet.Out, error) {
		return itemSheet(ctx, desk, now, items.Filter{})
	},
	"loans": loanSheet,
	"runs":  runTable,
}

// export writes one spreadsheet.
func export(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("export")
	file := fs.String("book", "", "the book")
	what := fs.String("what", "", exportNames())
	out := fs.String("out", "", "file ending in .xlsx or .csv")
	var at moment
	fs.Var(&at, "at", "as of this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	make, ok := exports[*what]
	if !ok || *out == "" {
		return misuse{fmt.Sprintf("give --what (%s) and --out FILE", exportNames())}
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		table, err := make(ctx, desk, at.or(p))
		if err != nil {
			return err
		}
		if err := sheet.Write(*out, []sheet.Out{table}); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "%d rows are in %s.\n", len(table.Rows), *out)
		return nil
	})
}

func watchSheet(ctx context.Context, desk *store.Desk, now time.Time) (sheet.Out, error) {
	rows, err := desk.Watch(ctx, now)
	return paperwork.WatchSheet(rows, now), err
}

func itemSheet(ctx context.Context, desk *store.Desk, now time.Time, f items.Filter) (sheet.Out, error) {
	list, _, err := desk.Items(ctx, f)
	if err != nil {
		return sheet.Out{}, err
	}
	names, err := desk.Names(ctx)
	return paperwork.ItemSheet(list, names, now), err
}

func loanSheet(ctx context.Context, desk *store.Desk, now time.Time) (sheet.Out, error) {
	lent := []inventory.State{inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle, inventory.Waiting}
	table, err := itemSheet(ctx, desk, now, items.Filter{States: lent})
	table.Name, table.Title = "Loans", "Items on loan"
	return table, err
}

func runTable(ctx context.Context, desk *store.Desk, now time.Time) (sheet.Out, error) {
	runs, err := desk.Runs(ctx, "")
	if err != nil {
		return sheet.Out{}, err
	}
	names, err := desk.Names(ctx)
	if err != nil {
		return sheet.Out{}, err
	}
	streets, err := desk.Streets(ctx)
	return paperwork.RunSheetTable(runs, names, streets, now), err
}

// exportNames lists what can be exported.
func exportNames() string {
	names := make([]string, 0, len(exports))
	for name := range exports {
		names = append(names, name)
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}
