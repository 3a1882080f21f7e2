package paperwork

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// ItemPaper is one paper about a thing.
type ItemPaper struct {
	ID, Name string
	make     func(Desk, store.ItemPage) (paper.ItemTag, error)
}

// ItemPapers are the papers of a thing.
var ItemPapers = []ItemPaper{
	{"bench-tag", "Tag for the bench", func(d Desk, p store.ItemPage) (paper.ItemTag, error) { return d.BenchTag(p.Item) }},
	{"hold-tag", "Tag: hold, do not use", func(d Desk, p store.ItemPage) (paper.ItemTag, error) { return d.HoldTag(p.Item) }},
	{ReadyTag, "Tag: ready to lend", Desk.ReadyTag},
}

// ItemPaper returns the tags of things by the paper's id, a page each.
func (c Clerk) ItemPaper(ctx context.Context, id string, things ...inventory.ItemID) (Printable, error) {
	i := slices.IndexFunc(ItemPapers, func(p ItemPaper) bool { return p.ID == id })
	if i < 0 {
		return nil, refusal.New(refusal.NotFound, fmt.Sprintf("There is no paper %q about a thing.", id), "")
	}
	tags := paper.ItemTags{Head: c.head("")}
	for _, thing := range things {
		page, err := c.book.ItemPage(ctx, thing)
		if err != nil {
			return nil, err
		}
		t, err := ItemPapers[i].make(c.Desk, page)
		if err != nil {
			return nil, err
		}
		tags.Tags = append(tags.Tags, t)
	}
	return tags, nil
}

// HoldTag keeps everybody's hands off a thing: recalled, soiled, in quarantine,
// failed, past its requalification, or not ours.
func (d Desk) HoldTag(i inventory.Item) (paper.ItemTag, error) {
	t := paper.ItemTag{
		Head: d.head(d.code(tag.PaperHold, string(i.ID))), Word: "HOLD", Says: "not to be lent, filled or used", Held: true,
		Thing: thing(i), Sign: "Released, or sent away, by",
	}
	why, next := heldFor(i)
	if why == "" {
		return t, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s: nothing holds it.", i.Label(), i.State), "Keep it back first, with the reason.")
	}
	t.Facts = []paper.TagFact{
		{Word: "why", Value: why}, {Word: "since", Value: d.clock(i.Since)}, {Word: "where", Value: i.Place.InWords()}, {Word: "next", Value: next},
	}
	return t, nil
}

// heldFor says why a thing is held and what is to be done; empty: nothing does.
func heldFor(i inventory.Item) (why, next string) {
	switch {
	case i.Recall != "":
		return "recall " + i.Recall, "keep it for its maker; the notice says what to do"
	case i.Spec.Foreign:
		return "not ours: " + ownerName(i.Spec.Owner), "its owner is told and fetches it"
	case i.Soiled:
		return strings.Join(nonEmpty("soiled: bagged, apart", i.Why), "; "), "clean it, gloves on, before anything else"
	case i.State == inventory.InQuarantine:
		return strings.Join(nonEmpty("quarantine", i.Why), ": "), "find out and release it on the bench, or send it away"
	}
	return "", ""
}

// BenchTag goes with a thing over the bench: what is looked at, and who says
// that it is ready.
func (d Desk) BenchTag(i inventory.Item) (paper.ItemTag, error) {
	t := paper.ItemTag{
		Head: d.head(d.code(tag.PaperBench, string(i.ID))), Word: "BENCH", Says: "to be cleaned and tested first",
		Thing: thing(i), Steps: d.Programme.BenchSteps(i.Spec.Kind), Sign: "Ready to be lent again",
	}
	switch i.State {
	case inventory.Dirty, inventory.OnBench, inventory.InQuarantine:
	default:
		return t, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s: the bench has nothing to do on it.", i.Label(), i.State), "Scan it in as returned first.")
	}
	state := string(i.State)
	if i.Soiled {
		state += ", soiled: bagged, apart"
	}
	t.Facts = []paper.TagFact{
		{Word: "state", Value: state}, {Word: "since", Value: d.clock(i.Since)}, {Word: "why", Value: i.Why},
		{Word: "last read", Value: d.lastRead(i)},
	}
	switch i.Spec.Kind {
	case inventory.Concentrator:
		t.Blank = []string{"oxygen %, after warm-up", "at L/min", "hours meter"}
	case inventory.Cylinder:
		t.Blank = []string{"gauge, unit", "requalify by", "lot after filling"}
	}
	return t, nil
}

// lastRead is the last reading of a thing with its time.
func (d Desk) lastRead(i inventory.Item) string {
	var said []string
	if i.Gauge != nil {
		said = append(said, i.Gauge.Value.String()+" "+d.clock(i.Gauge.At))
	}
	if i.Hours != nil {
		said = append(said, fmt.Sprintf("%.0f h %s", i.Hours.Value, d.clock(i.Hours.At)))
	}
	return strings.Join(said, ", ")
}

func (d Desk) clock(at time.Time) string {
	return delivery.Clock(at.In(d.Now.Location()), d.Now)
}
