package console

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// takeIn takes in spreadsheets: clear rows in one transaction, rows with a
// question wait for their answers.
func takeIn(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("intake")
	file := fs.String("book", "", "the book; it is made when there is none")
	dry := fs.Bool("dry-run", false, "say what was understood and write nothing")
	answers := fs.String("answers", "", "JSON file with the answers, by the keys of the questions")
	by := fs.String("by", p.User, "who does it")
	asJSON := fs.Bool("json", false, "print JSON")
	left := fs.String("left", "", "workbook to write the rows to that are not taken in, each with the reason")
	list := fs.Bool("list", false, "list what was taken in, and read nothing")
	var at moment
	fs.Var(&at, "at", "when it is taken in; dates of the list lie before")
	files, err := mixed(fs.Parse, fs.Args, args)
	if err != nil {
		return err
	}
	if *list {
		return p.listTaken(ctx, *file, *asJSON)
	}
	if len(files) == 0 {
		return misuse{"name the spreadsheets to take in"}
	}
	in := intakeOf{at: at.or(p), by: *by, dry: *dry}
	if in.answers, err = readAnswers(*answers); err != nil {
		return err
	}
	defer intake.Sparing(intake.Judging)()
	for _, name := range files {
		tables, err := sheet.Reader{Tell: p.progress("reading")}.File(ctx, name)
		if err != nil {
			return err
		}
		in.tables = append(in.tables, tables...)
	}
	reading, err := p.takenIn(ctx, *file, in)
	if errors.Is(err, context.Canceled) {
		return refusal.New(refusal.Busy, "Stopped. Nothing of the lists was written.", "").Because(err)
	}
	if err != nil {
		return err
	}
	if rows := reading.Left(); *left != "" && len(rows) > 0 {
		if err := sheet.Write(*left, rows); err != nil {
			return err
		}
	}
	if *asJSON {
		return p.print(reading)
	}
	return p.printReading(reading, *dry)
}

// listTaken lists what was taken in, the last first, with the numbers by which
// each can be taken back.
func (p *Program) listTaken(ctx context.Context, file string, asJSON bool) error {
	return p.looking(ctx, file, func(desk *store.Desk) error {
		lists, err := desk.Lists(ctx)
		if err != nil {
			return err
		}
		if asJSON {
			return p.print(lists)
		}
		for _, l := range lists {
			back := ""
			if l.Back {
				back = "; taken back"
			}
			fmt.Fprintf(p.Out, "no. %d, %s by %s: %s%s\n", l.Fact, l.At.In(p.Now().Location()).Format("2 Jan 2006 15:04"), l.By, l.Says, back)
		}
		return nil
	})
}

// intakeOf is one intake: the tables, the answers, and whose hand it is.
type intakeOf struct {
	tables  []sheet.Table
	answers intake.Answers
	at      time.Time
	by      string
	dry     bool
}

// mixed parses flags that stand before, between and after file names.
func mixed(parse func([]string) error, rest func() []string, args []string) ([]string, error) {
	var files []string
	for {
		if err := parse(args); err != nil {
			return nil, misuse{err.Error()}
		}
		left := rest()
		if len(left) == 0 {
			return files, nil
		}
		files, args = append(files, left[0]), left[1:]
	}
}

func readAnswers(name string) (intake.Answers, error) {
	if name == "" {
		return nil, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var answers intake.Answers
	if err := json.Unmarshal(data, &answers); err != nil {
		return nil, fmt.Errorf("%s holds no answers: write {\"key\": \"answer\"} with the keys of the questions (%w)", name, err)
	}
	return answers, nil
}

// takenIn reads the tables against the book, and writes the clear rows. A
// book made for lists that are refused is not left behind.
func (p *Program) takenIn(ctx context.Context, flag string, in intakeOf) (reading intake.Reading, err error) {
	file, err := path(flag)
	if err != nil {
		return reading, err
	}
	b, err := book.Open(ctx, file, p.options())
	if refusal.KindOf(err) == refusal.NotFound {
		if in.dry {
			dir, err := os.MkdirTemp("", "lungwort-dry-run")
			if err != nil {
				return reading, err
			}
			defer os.RemoveAll(dir)
			file = filepath.Join(dir, "book.lungwort")
		}
		b, err = book.Create(ctx, file, p.options())
	}
	if err != nil {
		return reading, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, b.Abandon())
			return
		}
		err = b.Close()
	}()
	desk := store.NewDesk(b)
	if err = p.enter(ctx, desk); err != nil {
		return reading, err
	}
	settings, err := desk.Programme(ctx)
	if err != nil {
		return reading, err
	}
	if reading, err = desk.ReadLists(ctx, in.tables, in.answers, p.onTheWall(settings, in.at), p.progress("understanding")); err != nil || in.dry {
		return reading, err
	}
	defer intake.Sparing(intake.Writing)()
	reading.TookIn, err = desk.TakeIn(ctx, reading, store.Hand{By: in.by, Source: inventory.Sheet, At: in.at}, p.progress("writing"))
	return reading, err
}

// progress tells on the error stream how far long work is.
func (p *Program) progress(what string) func(share float64) {
	tell := p.nowAndThen()
	return func(share float64) { tell("%s: %.0f %%\n", what, 100*share) }
}

// count is progress by a number.
func (p *Program) count(what string) func(n int) {
	tell := p.nowAndThen()
	return func(n int) { tell("%s: %d\n", what, n) }
}

// nowAndThen returns a print on the error stream that is silent most of the
// time.
func (p *Program) nowAndThen() func(format string, args ...any) {
	const every = 200 * time.Millisecond
	last := p.Now()
	return func(format string, args ...any) {
		if now := p.Now(); now.Sub(last) >= every {
			last = now
			fmt.Fprintf(p.Err, format, args...)
		}
	}
}

func (p *Program) printReading(r intake.Reading, dry bool) error {
	list, verb := "", "taken in"
	for _, c := range r.Columns {
		if c.List != list {
			list = c.List
			fmt.Fprintf(p.Out, "%s\n", list)
		}
		fmt.Fprintf(p.Out, "  %-24s %s\n", c.Heading, c.Means)
	}
	if dry {
		verb = "clear, nothing written"
	}
	if r.TookIn != 0 {
		fmt.Fprintf(p.Out, "taken in as no. %d; 'act take-back --list %d' takes all of it back\n", r.TookIn, r.TookIn)
	}
	fmt.Fprintf(p.Out, "%d rows: %d %s, %d wait for an answer, %d refused, %d left out\n",
		r.Rows, r.Taken, verb, r.Waiting, len(r.Refused), r.LeftOut)
	for _, q := range r.Questions {
		fmt.Fprintf(p.Out, "asks: %s (rows %s)\n  answer %q with:", q.Asks, numbers(q.Rows), q.Key)
		for _, c := range q.Choices {
			fmt.Fprintf(p.Out, " %q", c.Value)
		}
		if len(q.Choices) == 0 {
			fmt.Fprint(p.Out, " any text")
		}
		fmt.Fprintln(p.Out)
	}
	for _, k := range r.Reused {
		fmt.Fprintf(p.Out, "answered on %s by %s: %s %q (rows %s)\n", k.At.Format("2 Jan 2006"), k.By, k.Asks, k.Answer, numbers(k.Rows))
	}
	for _, no := range r.Refused {
		fmt.Fprintf(p.Out, "refused row %d: %s\n", no.Row, no.Why)
	}
	for _, c := range r.Changes {
		fmt.Fprintln(p.Out, "changes: "+c)
	}
	for _, f := range r.Findings {
		fmt.Fprintln(p.Out, "found: "+f)
	}
	for _, n := range r.Notices {
		fmt.Fprintln(p.Out, "note: "+n)
	}
	return nil
}

func numbers(rows []int) string {
	const shown = 8
	words := make([]string, 0, shown)
	for _, row := range rows[:min(len(rows), shown)] {
		words = append(words, fmt.Sprint(row))
	}
	if len(rows) > shown {
		return fmt.Sprintf("%s and %d more", strings.Join(words, ", "), len(rows)-shown)
	}
	return strings.Join(words, ", ")
}
