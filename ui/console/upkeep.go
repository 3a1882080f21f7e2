package console

import (
	"context"
	"fmt"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
)

// audit rebuilds every derived state from the facts and compares.
func audit(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("audit")
	file := fs.String("book", "", "the book")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		a, err := desk.Audit(ctx)
		if err != nil {
			return err
		}
		if err := p.printAudit(a, *asJSON); err != nil {
			return err
		}
		if len(a.Mismatches) > 0 {
			return errMismatch
		}
		return nil
	})
}

func (p *Program) printAudit(a store.Audit, asJSON bool) error {
	if asJSON {
		return p.print(a)
	}
	fmt.Fprintf(p.Out, "%d facts, %d mismatches\n", a.Facts, len(a.Mismatches))
	for _, m := range a.Mismatches {
		fmt.Fprintln(p.Out, "  "+m)
	}
	return nil
}

// backup writes a verified copy of the book.
func backup(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("backup")
	file := fs.String("book", "", "the book")
	out := fs.String("out", "", "file of the copy")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *out == "" {
		return misuse{"--out is missing: the file of the copy"}
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		if err := desk.Book().Backup(ctx, *out); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "A verified copy is in %s.\n", *out)
		return nil
	})
}

// restore puts a verified copy in the place of a book.
func restore(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("restore")
	file := fs.String("book", "", "the book to write; it must not exist")
	from := fs.String("from", "", "the copy")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *from == "" {
		return misuse{"--from is missing: the copy to restore"}
	}
	to, err := path(*file)
	if err != nil {
		return err
	}
	copied, err := book.OpenReadOnly(ctx, *from, p.options())
	if err != nil {
		return err
	}
	defer copied.Close()
	a, err := store.NewDesk(copied).Audit(ctx)
	if err != nil {
		return err
	}
	if len(a.Mismatches) > 0 {
		return fmt.Errorf("%s has %d mismatches and is not restored; run 'lungwort audit --book %s'", *from, len(a.Mismatches), *from)
	}
	if err := copied.Backup(ctx, to); err != nil {
		return err
	}
	fmt.Fprintf(p.Out, "%s holds the restored book, %d facts.\n", to, a.Facts)
	return nil
}

// gallery draws every screen into a folder.
func gallery(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("gallery")
	out := fs.String("out", "", "folder for the pictures")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *out == "" {
		return misuse{"--out is missing: the folder for the pictures"}
	}
	return p.Gallery(ctx, *out)
}
