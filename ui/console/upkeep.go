package console

import (
	"context"
	"errors"
	"fmt"
	"os"

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
	if err := book.Restore(ctx, *from, to); err != nil {
		return err
	}
	a, err := p.audited(ctx, to)
	if err == nil && len(a.Mismatches) > 0 {
		err = fmt.Errorf("%s has %d mismatches and is not restored; 'lungwort audit --book %s' lists them", *from, len(a.Mismatches), *from)
	}
	if err != nil {
		return errors.Join(err, os.Remove(to)) // it was not there before
	}
	fmt.Fprintf(p.Out, "%s holds the restored book, %d facts.\n", to, a.Facts)
	return nil
}

// audited brings a book up to date and audits it.
func (p *Program) audited(ctx context.Context, file string) (a store.Audit, err error) {
	err = p.writing(ctx, file, func(desk *store.Desk) error {
		a, err = desk.Audit(ctx)
		return err
	})
	return a, err
}

// roles prints the SQL that makes the roles and the database of a book on a
// server.
func roles(_ context.Context, p *Program, args []string) error {
	if err := parse(p.flags("roles"), args, false); err != nil {
		return err
	}
	_, err := fmt.Fprint(p.Out, book.Roles)
	return err
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
