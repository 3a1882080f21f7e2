package receive

import (
	"context"
	"fmt"
	"maps"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/tag"
	"lungwort/ui/work"
)

// clerk does one job off the window's goroutine, on copies of what the screen
// knows.
type clerk struct {
	desk      *store.Desk
	hand      store.Hand
	catalogue map[string]inventory.Spec
	shapes    map[string]int // of the serials received so far, by kind and shape
	learn     func(func())   // brings what was learned back to the screen
	model     *Model
}

func (m *Model) clerk() clerk {
	c := clerk{desk: m.work.Desk, hand: m.work.Hand(inventory.Scanned), catalogue: maps.Clone(m.catalogue), shapes: map[string]int{}, model: m, learn: m.work.Run.Show}
	for _, e := range m.Entries {
		if e.Outcome == Taken {
			c.shapes[shape(e.Name)]++
		}
	}
	return c
}

func (c clerk) do(ctx context.Context, j job) Entry {
	if j.undo != "" {
		if _, err := c.desk.Do(ctx, c.hand, delivery.Unreceive{Item: j.undo}); err != nil {
			return not(j.text, j.text, err)
		}
		return Entry{Item: j.undo, Name: j.text}
	}
	read, err := tag.Read(j.text)
	if read.Kind == tag.OurTag || len(read.Likely) > 0 {
		return c.ours(ctx, j, read)
	}
	if err != nil {
		return not(j.text, j.text, refusal.New(refusal.Invalid, err.Error(), ""))
	}
	spec, alone := c.spec(j, read)
	if alone {
		return c.newProduct(spec)
	}
	if why := c.unsure(ctx, j, spec, read); why != "" {
		return Entry{Text: j.text, Name: spec.Serial, What: what(spec), Outcome: Asked, Why: why}
	}
	out, err := c.desk.Do(ctx, c.hand, delivery.Receive{Spec: spec, Depot: j.depot})
	if err != nil {
		return not(j.text, spec.Serial, err)
	}
	if spec.GTIN != "" {
		c.learn(func() { c.model.catalogue[spec.GTIN] = spec.Product() })
	}
	return Entry{Text: j.text, Item: out.Facts[0].Item, Name: spec.Serial, What: what(spec), Outcome: Taken}
}

// ours says that one of our own labels is no maker's serial.
func (c clerk) ours(ctx context.Context, j job, read tag.Reading) Entry {
	if number, ok := read.Tag.Number(); ok {
		if item, err := c.desk.Item(ctx, "", number); err == nil {
			return not(j.text, read.Tag.Printed(), refusal.New(refusal.Conflict, fmt.Sprintf("This is our label on %s, in the book already.", item.Label()), ""))
		}
	}
	return not(j.text, j.text, refusal.New(refusal.Invalid, "This is meant as a label of ours.", "Scan the maker's serial on the thing itself."))
}

// spec is what a scan stands for: what was chosen, or what the product number
// in the code is known to be, with serial, lot and dates from the code. A
// product number without any serial stands alone.
func (c clerk) spec(j job, read tag.Reading) (spec inventory.Spec, alone bool) {
	spec = j.into
	if known, is := c.catalogue[read.GTIN]; is && read.GTIN != "" {
		spec = known
	}
	if read.GTIN != "" && read.Kind != tag.Serial {
		spec.GTIN, spec.Lot, spec.Made, spec.Expires = read.GTIN, read.Lot, day(read.Made), day(read.Expires)
	}
	spec.Serial = read.Serial
	switch {
	case read.Kind == tag.Serial && c.catalogue[read.GTIN].GTIN != "":
		spec.Serial = "" // the bare number of a product we know
	case spec.Serial == "":
		spec.Serial = read.Asset()
	}
	return spec, spec.Serial == ""
}

// newProduct keeps a product number for the serials that follow.
func (c clerk) newProduct(spec inventory.Spec) Entry {
	c.learn(func() { c.model.ofProduct(spec) })
	switch _, known := c.catalogue[spec.GTIN]; {
	case known:
		return Entry{Name: what(spec), Why: "Now scan the serial of each."}
	case spec.Kind == "":
		return Entry{Name: "New product", Why: "Choose what it is, then scan the serial of each: it will be known from then on."}
	}
	return Entry{Name: "New product", Why: "It counts as " + what(spec) + ". Change that if it is something else, then scan the serial of each."}
}

// ofProduct shows what a product number stands for as what comes in.
func (m *Model) ofProduct(spec inventory.Spec) {
	m.product = spec
	if spec.Kind != "" {
		m.Coming = inventory.Spec{Kind: spec.Kind, Model: spec.Model, Owner: spec.Owner}
		m.Size, m.Rated = string(spec.Size), ""
		if spec.Rated > 0 {
			m.Rated = spec.Rated.String()
		}
	}
}

// unsure says why a person must look first; empty when nobody must. What can't
// be received at all is not asked about: the book refuses it.
func (c clerk) unsure(ctx context.Context, j job, spec inventory.Spec, read tag.Reading) string {
	switch {
	case spec.Kind == "":
		return "Choose what comes in first, then take it."
	case spec.Kind == inventory.Cylinder && spec.Size == "":
		return "Write the size of the cylinders first, then take it."
	case j.sure:
		return ""
	case read.Ask != "":
		return read.Ask
	case read.GTIN != "" && c.catalogue[read.GTIN].GTIN == "":
		return "A new product number. Is it " + what(spec) + "? Say at the left what it is, then scan again: it will be known from then on."
	}
	near, err := c.desk.Near(ctx, spec.Serial)
	if _, exact := c.desk.Item(ctx, spec.Serial, 0); err == nil && exact != nil && len(near) > 0 {
		return fmt.Sprintf("Close to %s in the book: O or 0, I or 1, a dropped zero? Look at the plate; scan again to take it.", near[0].Label())
	}
	if c.shapes[shape(spec.Serial)] == 0 && c.most() >= alikeFrom {
		return "Not like the other serials of this pallet. Look at the plate; scan again to take it."
	}
	return ""
}

// alikeFrom is how many serials of one shape make a rule (common practice, no
// source).
const alikeFrom = 3

func (c clerk) most() (most int) {
	for _, n := range c.shapes {
		most = max(most, n)
	}
	return most
}

// shape is a serial with its letters as A and its digits as 9.
func shape(serial string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '9'
		}
		return 'A'
	}, inventory.SerialKey(serial))
}

func not(text, name string, err error) Entry {
	return Entry{Text: text, Name: name, Outcome: Not, Why: refusal.For(err)}
}

func what(s inventory.Spec) string { return strings.TrimSpace(s.What() + " " + s.Model) }

func day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// Labels goes on to the labels of what has none yet.
func (m *Model) Labels() { m.work.Open(work.Target{Room: work.Labels, Text: "bare"}) }
