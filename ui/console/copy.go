package console

import (
	"context"
	"fmt"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
)

// copyBook copies a book into a new one, between a file and a server or either
// alone, and proves the copy.
func copyBook(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("copy")
	from := fs.String("from", "", "the book to copy; a file or the address of a server")
	to := fs.String("to", "", "where the copy goes; nothing may be there yet")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *to == "" {
		return misuse{"--to is missing: where the copy goes"}
	}
	var before store.Audit
	var rows int
	err := p.looking(ctx, *from, func(desk *store.Desk) (err error) {
		if before, err = desk.Audit(ctx); err != nil {
			return err
		}
		told := p.count("copied")
		rows, err = desk.Book().CopyTo(ctx, *to, told)
		return err
	})
	if err != nil {
		return err
	}
	return p.looking(ctx, *to, func(desk *store.Desk) error {
		after, err := desk.Audit(ctx)
		if err != nil {
			return err
		}
		if err := p.printCopy(copied{Rows: rows, Before: before, After: after}, *to, *asJSON); err != nil {
			return err
		}
		if len(before.Mismatches)+len(after.Mismatches) > 0 || before.Facts != after.Facts {
			return errMismatch
		}
		return nil
	})
}

// copied is what a copy came to: the rows held against the original's, and the
// audits of both.
type copied struct {
	Rows   int         `json:"rows"`
	Before store.Audit `json:"before"`
	After  store.Audit `json:"after"`
}

func (p *Program) printCopy(c copied, to string, asJSON bool) error {
	if asJSON {
		return p.print(c)
	}
	fmt.Fprintf(p.Out, "%s holds the copy: %d rows, each read back and held against the original.\n", book.Named(to), c.Rows)
	fmt.Fprintf(p.Out, "The original: ")
	if err := p.printAudit(c.Before, false); err != nil {
		return err
	}
	fmt.Fprintf(p.Out, "The copy: ")
	return p.printAudit(c.After, false)
}
