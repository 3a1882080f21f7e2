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
	"watch":      paperwork.Clerk.WatchList,
	"items":      func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) { return c.Items(ctx, items.Filter{}) },
	"loans":      paperwork.Clerk.Loans,
	"people":     paperwork.Clerk.People,
	"rental":     paperwork.Clerk.Rental,
	"supplies":   paperwork.Clerk.Supplies,
	"runs":       paperwork.Clerk.Runs,
	"deliveries": paperwork.Clerk.Deliveries,
	"bench":      paperwork.Clerk.Bench,
	"exchange":   paperwork.Clerk.Exchanges,
	"recalls":    paperwork.Clerk.Recalls,
	"calls":      paperwork.Clerk.Calls,
	"clinician":  paperwork.Clerk.Clinician,
	"measures":   paperwork.Clerk.Measures,
	"outlook":    paperwork.Clerk.Outlook,
}

// exportsAbout are the sheets about one person or one item.
var exportsAbout = map[string]func(paperwork.Clerk, context.Context, string) (sheet.Out, error){
	"person": paperwork.Clerk.Person,
	"item":   paperwork.Clerk.Item,
}

// export writes one spreadsheet.
func export(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("export")
	file := fs.String("book", "", "the book")
	what := fs.String("what", "", exportNames())
	about := fs.String("about", "", "with --what person or item: record number, name or id; serial")
	out := fs.String("out", "", "file ending in .xlsx or .csv")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	make, ok := exports[*what]
	if of, single := exportsAbout[*what]; single && *about != "" {
		make, ok = func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) { return of(c, ctx, *about) }, true
	}
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
	names := make([]string, 0, len(exports)+len(exportsAbout))
	for name := range exports {
		names = append(names, name)
	}
	for name := range exportsAbout {
		names = append(names, name+" with --about")
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}
