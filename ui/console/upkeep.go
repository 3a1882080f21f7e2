package console

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

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
	keep := fs.String("keep", "", "folder with a copy a day, kept by a rule")
	to := fs.String("to", "", "with --keep: age recipients, comma between; left out: those of the settings")
	var at moment
	fs.Var(&at, "at", "with --keep: the day")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if (*out == "") == (*keep == "") {
		return misuse{"--out is missing: the file of the copy; or --keep: the folder of daily copies"}
	}
	return p.looking(ctx, *file, func(desk *store.Desk) error {
		if *keep != "" {
			return p.keepCopy(ctx, desk, *keep, *to, at.or(p))
		}
		if err := desk.Book().Backup(ctx, *out); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "A verified copy is in %s.\n", *out)
		return nil
	})
}

// keepCopy makes the copy of the day.
func (p *Program) keepCopy(ctx context.Context, desk *store.Desk, dir, to string, now time.Time) error {
	recipients := strings.FieldsFunc(to, func(r rune) bool { return r == ',' })
	made, err := desk.KeepCopy(ctx, dir, recipients, now)
	switch {
	case err != nil:
		return err
	case made == "":
		fmt.Fprintf(p.Out, "The copy of %s is in %s already.\n", now.Format("Mon 2 Jan"), dir)
	default:
		fmt.Fprintf(p.Out, "A verified copy is in %s.\n", made)
	}
	return nil
}

// restore puts a verified copy in the place of a book.
func restore(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("restore")
	file := fs.String("book", "", "the book to write; it must not exist")
	from := fs.String("from", "", "the copy")
	keys := fs.String("key", "", "file with the age key of an encrypted copy")
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
	if err := p.bringBack(ctx, *from, *keys, to); err != nil {
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

// bringBack makes a book of a copy, decrypted first where there is a key.
func (p *Program) bringBack(ctx context.Context, from, keys, to string) (err error) {
	if keys == "" {
		return book.Restore(ctx, from, to)
	}
	dir, err := os.MkdirTemp(filepath.Dir(to), "restoring")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }() // nothing stays in plain but the book
	plain := filepath.Join(dir, "copy.lungwort")
	if err := book.Unseal(from, keys, plain); err != nil {
		return err
	}
	return book.Restore(ctx, plain, to)
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
