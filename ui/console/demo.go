package console

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
	"lungwort/inventory/wall"
	"lungwort/testdata/quillet"
)

// demo writes the demo scenario into a new book.
func demo(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("demo")
	file := fs.String("book", "", "the new book")
	var now moment
	fs.Var(&now, "now", "the present of the scenario")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	to, err := path(*file)
	if err != nil {
		return err
	}
	if err := MakeDemo(ctx, to, now.or(p)); err != nil {
		return err
	}
	fmt.Fprintf(p.Out, "%s holds the Quillet Isles as of %s.\n", book.Named(to), now.or(p).Format("Mon 2 Jan 2006 15:04 -07:00"))
	return nil
}

// MakeDemo writes the demo scenario into a new book whose present is now. The
// same moment gives the same book. What can't be finished is not left behind.
func MakeDemo(ctx context.Context, path string, now time.Time) (err error) {
	scene := quillet.At(wall.Fixed(now))
	t := teller{ctx: ctx, scene: scene, clock: scene.Opening()}
	b, err := book.Create(ctx, path, book.Options{Now: func() time.Time { return t.clock }, Sets: store.Migrations()})
	if err != nil {
		return err
	}
	t.desk = store.NewDesk(b)
	if err := t.tell(); err != nil {
		return errors.Join(err, b.Abandon()) // half a demo is of no use to anybody
	}
	return b.Close()
}

// teller tells the story of the isles to a book, whose clock it sets: what is
// told is recorded when it happened.
type teller struct {
	ctx   context.Context
	scene quillet.Scene
	desk  *store.Desk
	clock time.Time
}

// part is one part of the story and when it is told.
type part struct {
	at   time.Time
	tell func() error
}

// tell sets the programme up, takes the lists in, and then lives through the
// weeks and the last day in the order of happening.
func (t *teller) tell() error {
	places, err := t.scene.Places()
	if err != nil {
		return err
	}
	if _, err := t.desk.Do(t.ctx, t.hand(quillet.Coordinator, inventory.Keyed), delivery.Settings{Programme: places}); err != nil {
		return err
	}
	isles, err := t.scene.Outline()
	if err != nil {
		return err
	}
	if _, err := t.desk.Do(t.ctx, t.hand(quillet.Coordinator, inventory.Keyed), delivery.TakeOutline{File: quillet.OutlineFile, Outline: isles}); err != nil {
		return err
	}
	if err := t.takeInLists(); err != nil {
		return err
	}
	script, err := t.scene.Script()
	if err != nil {
		return err
	}
	parts, err := t.weeks(places, script)
	if err != nil {
		return err
	}
	for _, line := range script {
		parts = append(parts, part{line.At, func() error { return t.act(line) }})
	}
	ward, err := t.scene.Ward()
	if err != nil {
		return err
	}
	parts = append(parts, part{ward.At, func() error { return t.takeIn(ward) }})
	slices.SortStableFunc(parts, func(a, b part) int { return a.at.Compare(b.at) })
	for _, p := range parts {
		t.clock = p.at
		if err := p.tell(); err != nil {
			return err
		}
	}
	return nil
}

func (t *teller) hand(by string, source inventory.Source) store.Hand {
	return store.Hand{By: by, Source: source, At: t.clock}
}

// takeInLists takes in the item list and the lists of persons.
func (t *teller) takeInLists() error {
	first, err := t.scene.Items()
	if err != nil {
		return err
	}
	people, err := t.scene.People()
	if err != nil {
		return err
	}
	for _, list := range append([]quillet.List{first}, people...) {
		t.clock = list.At
		if err := t.takeIn(list); err != nil {
			return err
		}
	}
	return nil
}

// takeIn takes the clear rows of a list in; rows with a question wait.
func (t *teller) takeIn(list quillet.List) error {
	tables, err := sheet.Read(t.ctx, list.Name, list.CSV)
	if err != nil {
		return err
	}
	reading, err := t.desk.ReadLists(t.ctx, tables, nil, t.clock, nil)
	if err != nil {
		return err
	}
	_, err = t.desk.TakeIn(t.ctx, reading, t.hand(quillet.Coordinator, inventory.Sheet), nil)
	return err
}

// weeks returns the story up to the script, an hour's acts in one
// transaction.
func (t *teller) weeks(places delivery.Programme, script []quillet.Line) ([]part, error) {
	people, err := t.desk.Homes(t.ctx, "", everybody)
	if err != nil {
		return nil, err
	}
	things, _, err := t.desk.Items(t.ctx, items.Filter{})
	if err != nil {
		return nil, err
	}
	var parts []part
	for acts := t.scene.History(places, people, things, script); len(acts) > 0; {
		n := 1
		for n < len(acts) && acts[n].Hand.At.YearDay() == acts[0].Hand.At.YearDay() {
			n++
		}
		together := acts[:n]
		parts = append(parts, part{together[n-1].Hand.At, func() error { return t.desk.DoAll(t.ctx, together, nil) }})
		acts = acts[n:]
	}
	return parts, nil
}

// everybody is more people than a book has.
const everybody = 1 << 20

// act does one line of the script as the act command would.
func (t *teller) act(line quillet.Line) error {
	all := forms()
	i := slices.IndexFunc(all, func(f form) bool { return f.name == line.Args[0] })
	if i < 0 {
		return fmt.Errorf("day.txt, line %d: there is no act %q", line.Number, line.Args[0])
	}
	fs := flag.NewFlagSet(line.Args[0], flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	by := fs.String("by", quillet.Coordinator, "who does it")
	into := all[i].make()
	if err := (filler{t.ctx, t.desk}).fill(fs, line.Args[1:], into); err != nil {
		return fmt.Errorf("day.txt, line %d: %w", line.Number, err)
	}
	deed, err := all[i].act(t.ctx, t.desk, into)
	if err != nil {
		return fmt.Errorf("day.txt, line %d: %w", line.Number, err)
	}
	if _, err := t.desk.Do(t.ctx, t.hand(*by, cmp.Or(sources[line.Args[0]], inventory.Scanned)), deed); err != nil {
		return fmt.Errorf("day.txt, line %d: %w", line.Number, err)
	}
	return nil
}

// sources says how the acts of the script reach the book when not by a scan.
var sources = map[string]inventory.Source{
	"call": inventory.Phoned, "switch": inventory.Phoned, "order": inventory.Keyed,
	"ask": inventory.Keyed, "outage": inventory.Keyed, "recall": inventory.Keyed,
}
