package console

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/tongue"
	"lungwort/ui/finder"
)

// printPaper writes one paper about a person, a thing, an exchange or the
// programme, or the English texts for a translator to work on.
func printPaper(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("paper")
	file := fs.String("book", "", "the book")
	what := fs.String("what", "", paperNames())
	who := fs.String("person", "", "record number, name or id; of a paper about a person")
	thing := fs.String("item", "", "tags or serials, comma between; of a paper about things")
	fact := fs.Int64("exchange", 0, "number of the exchange's fact; left out: the last")
	language := fs.String("language", "", "as the person speaks; left out: as the book says")
	folder := fs.String("languages", "", "folder with the programme's own language files")
	out := fs.String("out", "", "file to write")
	var at moment
	fs.Var(&at, "at", "as of this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	switch {
	case *what == texts && *out != "":
		return writeTexts(p, *out)
	case *what == "" || *out == "" || *who == "" && *thing == "" && *what != slip && *what != judgedBy:
		return misuse{fmt.Sprintf("give --what (%s), --person or --item, and --out FILE", paperNames())}
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		clerk, err := paperwork.NewClerk(ctx, desk, at.or(p))
		if err != nil {
			return err
		}
		var page paperwork.Printable
		note := ""
		switch {
		case *what == slip:
			page, err = clerk.ExchangeSlip(ctx, inventory.FactID(*fact))
		case *what == judgedBy:
			page, err = clerk.MeasurePages(ctx)
		case *thing != "":
			page, err = itemPaper(ctx, clerk, desk, *what, *thing)
		default:
			asked := paperwork.Asked{By: p.User}
			if asked.Person, err = desk.Person(ctx, *who); err != nil {
				return err
			}
			if asked.Tongue, note, err = clerk.Tongue(ctx, asked.Person, *language, *folder); err != nil {
				return err
			}
			page, err = clerk.HomePaper(ctx, *what, asked)
		}
		if err != nil {
			return err
		}
		if err := paperwork.Save(*out, page); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "%s is made.\n", filepath.Base(*out))
		if note != "" && paperwork.Spoken(*what) {
			fmt.Fprintln(p.Out, note)
		}
		return nil
	})
}

// itemPaper returns a paper about the things that a list names.
func itemPaper(ctx context.Context, clerk paperwork.Clerk, desk *store.Desk, what, list string) (paperwork.Printable, error) {
	var things []inventory.ItemID
	for _, name := range strings.Split(list, ",") {
		item, err := finder.Item(ctx, desk, name)
		if err != nil {
			return nil, err
		}
		things = append(things, item.ID)
	}
	return clerk.ItemPaper(ctx, what, things...)
}

// What is printed about neither a person nor a thing.
const (
	slip     = "exchange-slip"
	judgedBy = "measures"
	texts    = "texts" // to translate
)

// writeTexts writes the English texts, never over a file that is there.
func writeTexts(p *Program, out string) error {
	raw, err := tongue.Template()
	if err != nil {
		return err
	}
	file, err := os.OpenFile(out, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = file.Write(raw)
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err == nil {
		fmt.Fprintf(p.Out, "%s holds the English texts, to be translated line by line.\n", filepath.Base(out))
	}
	return err
}

func paperNames() string {
	var names []string
	for _, p := range paperwork.HomePapers {
		names = append(names, p.ID)
	}
	for _, p := range paperwork.ItemPapers {
		names = append(names, p.ID)
	}
	return strings.Join(append(names, slip, judgedBy, texts), ", ")
}
