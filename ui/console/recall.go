package console

import (
	"bufio"
	"cmp"
	"context"
	"fmt"
	"os"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// recall finds what a recall names: now in homes, in our places, lent before,
// and what can't be told.
func recall(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("recall")
	file := fs.String("book", "", "the book")
	notice := delivery.RecallNotice{}
	fs.StringVar(&notice.Model, "model", "", "maker's model")
	fs.StringVar(&notice.From, "from", "", "first serial of a range")
	fs.StringVar(&notice.To, "to", "", "last serial of a range")
	fs.StringVar(&notice.Lot, "lot", "", "lot of a fill or of a supply")
	list := fs.String("list", "", "file with one serial a line")
	asJSON := fs.Bool("json", false, "print JSON")
	var known moment
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *list != "" {
		var err error
		if notice.Serials, err = lines(*list); err != nil {
			return err
		}
	}
	if notice.Empty() {
		return misuse{"say what the notice names: --model, --from and --to, --lot or --list"}
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		found, err := desk.FindRecalled(ctx, notice)
		if err != nil {
			return err
		}
		if *asJSON {
			return p.print(found)
		}
		names, err := desk.Names(ctx)
		if err != nil {
			return err
		}
		for _, part := range []struct {
			title string
			items []store.Recalled
		}{
			{"in homes now", found.Homes}, {"in our places", found.Places},
			{"lent before", found.Before}, {"cannot tell", found.Unsure},
		} {
			fmt.Fprintf(p.Out, "%s: %d\n", part.title, len(part.items))
			for _, i := range part.items {
				fmt.Fprintf(p.Out, "  %s  %s  %s%s\n", i.Serial, i.Where, i.Why, usedBy(i, names))
			}
		}
		printSupplies(p, found)
		if len(found.NotInBook) > 0 {
			fmt.Fprintf(p.Out, "on the list, not in the book: %d\n", len(found.NotInBook))
		}
		return nil
	})
}

// usedBy names who has or had a thing; of a lot, whom its gas served.
func usedBy(r store.Recalled, names map[inventory.PersonID]string) string {
	if len(r.Persons) == 0 {
		return ""
	}
	who := make([]string, len(r.Persons))
	for i, id := range r.Persons {
		who[i] = cmp.Or(names[id], string(id))
	}
	return "  used by " + strings.Join(who, "; ")
}

// printSupplies says where the supplies of a lot lie, and who was given them.
func printSupplies(p *Program, found store.RecallList) {
	for _, s := range found.Stock {
		fmt.Fprintf(p.Out, "supplies with us: %d %s at %s\n", s.Count, s.Supply, s.At.InWords())
	}
	for _, g := range found.Given {
		sure := "given to"
		if !g.Sure {
			sure = "cannot tell, perhaps given to"
		}
		fmt.Fprintf(p.Out, "%s %s: %d %s, %s (%s)\n", sure, g.Person, g.Count, g.Supply, g.At.Format("Mon 2 Jan 15:04"), g.Why)
	}
}

// lines returns the lines of a text file that hold anything.
func lines(path string) ([]string, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	var all []string
	in := bufio.NewScanner(file)
	for in.Scan() {
		if line := strings.TrimSpace(strings.TrimPrefix(in.Text(), "\ufeff")); line != "" {
			all = append(all, line)
		}
	}
	return all, in.Err()
}
