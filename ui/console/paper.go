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

// paperAsked is a paper as it was asked for.
type paperAsked struct {
	what, person, things string
	exchange             inventory.FactID // zero: the last
	language, folder     string
	by                   string
}

// printPaper writes one paper about a person, a thing, an exchange or the
// programme, or the English texts for a translator to work on.
func printPaper(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("paper")
	asked := paperAsked{by: p.User}
	file := fs.String("book", "", "the book")
	fs.StringVar(&asked.what, "what", "", paperNames())
	fs.StringVar(&asked.person, "person", "", "record number, name or id; of a paper about a person")
	fs.StringVar(&asked.things, "item", "", "tags or serials, comma between; of a paper about things")
	fact := fs.Int64("exchange", 0, "number of the exchange's fact; left out: the last")
	fs.StringVar(&asked.language, "language", "", "as the person speaks, or the depot; left out: as the book says")
	fs.StringVar(&asked.folder, "languages", "", "folder with the programme's own language files")
	out := fs.String("out", "", "file to write")
	var at moment
	fs.Var(&at, "at", "as of this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	asked.exchange = inventory.FactID(*fact)
	switch {
	case asked.what == texts && *out != "":
		return writeTexts(p, *out)
	case asked.what == "" || *out == "" || asked.person == "" && asked.things == "" && asked.what != slip && asked.what != judgedBy:
		return misuse{fmt.Sprintf("give --what (%s), --person or --item, and --out FILE", paperNames())}
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		clerk, err := paperwork.NewClerk(ctx, desk, at.or(p))
		if err != nil {
			return err
		}
		page, note, err := asked.make(ctx, clerk, desk)
		if err != nil {
			return err
		}
		if err := paperwork.Save(*out, page); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "%s is made.\n", filepath.Base(*out))
		if note != "" {
			fmt.Fprintln(p.Out, note)
		}
		return nil
	})
}

// make returns the paper, with a word on its language.
func (a paperAsked) make(ctx context.Context, clerk paperwork.Clerk, desk *store.Desk) (page paperwork.Printable, note string, err error) {
	switch {
	case a.what == judgedBy:
		page, err = clerk.MeasurePages(ctx)
		return page, "", err
	case a.what == slip || a.things != "":
		return a.ofDepot(ctx, clerk, desk)
	}
	asked := paperwork.Asked{By: a.by}
	if asked.Person, err = desk.Person(ctx, a.person); err != nil {
		return nil, "", err
	}
	if asked.Tongue, note, err = clerk.Tongue(ctx, asked.Person, a.language, a.folder); err != nil {
		return nil, "", err
	}
	if !paperwork.Spoken(a.what) {
		note = ""
	}
	page, err = clerk.HomePaper(ctx, a.what, asked)
	return page, note, err
}

// ofDepot returns a slip, or tags of the things that a list names.
func (a paperAsked) ofDepot(ctx context.Context, clerk paperwork.Clerk, desk *store.Desk) (paperwork.Printable, string, error) {
	spoken, note, err := clerk.DepotTongue(a.language, a.folder)
	if err != nil {
		return nil, "", err
	}
	if a.what == slip {
		page, err := clerk.ExchangeSlip(ctx, a.exchange, spoken)
		return page, note, err
	}
	var things []inventory.ItemID
	for name := range strings.SplitSeq(a.things, ",") {
		item, err := finder.Item(ctx, desk, name)
		if err != nil {
			return nil, "", err
		}
		things = append(things, item.ID)
	}
	page, err := clerk.ItemPaper(ctx, a.what, spoken, things...)
	return page, note, err
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
