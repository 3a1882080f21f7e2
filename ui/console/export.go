package console

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// exports are the sheets the program gives out.
var exports = map[string]func(paperwork.Clerk, context.Context) (sheet.Out, error){
	"watch":     paperwork.Clerk.WatchList,
	"items":     func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) { return c.Items(ctx, items.Filter{}) },
	"loans":     paperwork.Clerk.Loans,
	"people":    paperwork.Clerk.People,
	"rental":    paperwork.Clerk.Rental,
	"runs":      paperwork.Clerk.Runs,
	"calls":     paperwork.Clerk.Calls,
	"clinician": paperwork.Clerk.Clinician,
}

// export writes one spreadsheet.
func export(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("export")
	file := fs.String("book", "", "the book")
	what := fs.String("what", "", exportNames())
	out := fs.String("out", "", "file ending in .xlsx or .csv")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	make, ok := exports[*what]
	if !ok || *out == "" {
		return misuse{fmt.Sprintf("give --what (%s) and --out FILE", exportNames())}
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		clerk, err := paperwork.NewClerk(ctx, desk, at.or(p))
		if err != nil {
			return err
		}
		table, err := make(clerk, ctx)
		if err != nil {
			return err
		}
		if err := sheet.Write(*out, []sheet.Out{table}); err != nil {
			return err
		}
		words := "%d rows are in %s.\n"
		if len(table.Rows) == 1 {
			words = "%d row is in %s.\n"
		}
		fmt.Fprintf(p.Out, words, len(table.Rows), *out)
		return nil
	})
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
