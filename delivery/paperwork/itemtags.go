package paperwork

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// ItemPaper is one paper about a thing.
type ItemPaper struct {
	ID, Name string
	make     func(Desk, store.ItemPage, tongue.Tongue) (paper.ItemTag, error)
}

// ItemPapers are the papers of a thing.
var ItemPapers = []ItemPaper{
	{"bench-tag", "Tag for the bench", Desk.BenchTag},
	{"hold-tag", "Tag: hold, do not use", Desk.HoldTag},
	{ReadyTag, "Tag: ready to lend", Desk.ReadyTag},
}

// ItemPaper returns the tags of things by the paper's id, a page each, in a
// language of the depot.
func (c Clerk) ItemPaper(ctx context.Context, id string, t tongue.Tongue, things ...inventory.ItemID) (Printable, error) {
	i := slices.IndexFunc(ItemPapers, func(p ItemPaper) bool { return p.ID == id })
	if i < 0 {
		return nil, refusal.New(refusal.NotFound, fmt.Sprintf("There is no paper %q about a thing.", id), "")
	}
	tags := paper.ItemTags{Head: c.head(""), Tongue: t}
	for _, thing := range things {
		page, err := c.book.ItemPage(ctx, thing)
		if err != nil {
			return nil, err
		}
		made, err := ItemPapers[i].make(c.Desk, page, spoken(t))
		if err != nil {
			return nil, err
		}
		tags.Tags = append(tags.Tags, made)
	}
	return tags, nil
}

// itemTag is a tag of a sort, with its words in a language.
func (d Desk) itemTag(sort, code string, i inventory.Item, t tongue.Tongue) paper.ItemTag {
	return paper.ItemTag{
		Head: d.head(code), Tongue: t, Word: t.Say("tag." + sort), Says: t.Say("tag." + sort + ".says"), Thing: named(i, t),
	}
}

// HoldTag keeps everybody's hands off a thing: recalled, soiled, in quarantine,
// failed, past its requalification, or not ours.
func (d Desk) HoldTag(page store.ItemPage, t tongue.Tongue) (paper.ItemTag, error) {
	i := page.Item
	made := d.itemTag("hold", d.code(tag.PaperHold, string(i.ID)), i, t)
	made.Held, made.Sign = true, t.Say("tag.hold.sign")
	why, next := heldFor(i, t)
	if why == "" {
		return made, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s: nothing holds it.", i.Label(), i.State), "Keep it back first, with the reason.")
	}
	made.Facts = []paper.TagFact{
		{Word: t.Say("tag.why"), Value: why}, {Word: t.Say("tag.since"), Value: d.clock(i.Since, t)},
		{Word: t.Say("tag.where"), Value: placeIn(i.Place, t)}, {Word: t.Say("tag.next"), Value: next},
	}
	return made, nil
}

// heldFor says why a thing is held and what is to be done; empty: nothing does.
func heldFor(i inventory.Item, t tongue.Tongue) (why, next string) {
	switch {
	case i.Recall != "":
		return t.Say("tag.recalled", "notice", i.Recall), t.Say("tag.recalled.next")
	case i.Spec.Foreign:
		return t.Say("tag.foreign", "owner", ownerIn(i.Spec.Owner, t)), t.Say("tag.foreign.next")
	case i.Soiled:
		return strings.Join(nonEmpty(t.Say("tag.soiled"), i.Why), "; "), t.Say("tag.soiled.next")
	case i.State == inventory.InQuarantine:
		return strings.Join(nonEmpty(t.Say("tag.quarantine"), i.Why), ": "), t.Say("tag.quarantine.next")
	}
	return "", ""
}

// benchStates are the states in which a thing goes over the bench, with the
// keys of their words.
var benchStates = map[inventory.State]string{
	inventory.Dirty: "tag.dirty", inventory.OnBench: "tag.benched", inventory.InQuarantine: "tag.quarantine",
}

// BenchTag goes with a thing over the bench: what is looked at, and who says
// that it is ready.
func (d Desk) BenchTag(page store.ItemPage, t tongue.Tongue) (paper.ItemTag, error) {
	i := page.Item
	made := d.itemTag("bench", d.code(tag.PaperBench, string(i.ID)), i, t)
	made.Steps, made.Sign = stepsIn(d.Programme.BenchSteps(i.Spec.Kind), t), t.Say("tag.bench.sign")
	key, known := benchStates[i.State]
	if !known {
		return made, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s: the bench has nothing to do on it.", i.Label(), i.State), "Scan it in as returned first.")
	}
	state := t.Say(key)
	if i.Soiled {
		state += ", " + t.Say("tag.soiled")
	}
	made.Facts = []paper.TagFact{
		{Word: t.Say("tag.state"), Value: state}, {Word: t.Say("tag.since"), Value: d.clock(i.Since, t)}, {Word: t.Say("tag.why"), Value: i.Why},
		{Word: t.Say("tag.read"), Value: d.lastRead(i, t)},
	}
	switch i.Spec.Kind {
	case inventory.Concentrator:
		made.Blank = []string{t.Say("tag.oxygen"), t.Say("tag.flow"), t.Say("tag.hours")}
	case inventory.Cylinder:
		made.Blank = []string{t.Say("tag.gauge"), t.Say("tag.requalify"), t.Say("tag.newlot")}
	}
	return made, nil
}

// stepsIn says the steps of the bench in a language; the programme's own stay as
// it wrote them.
func stepsIn(steps []string, t tongue.Tongue) []string {
	said := make([]string, len(steps))
	for i, step := range steps {
		said[i] = cmp.Or(t.Say("step."+strings.ReplaceAll(step, " ", "-")), step)
	}
	return said
}

// lastRead is the last reading of a thing with its time.
func (d Desk) lastRead(i inventory.Item, t tongue.Tongue) string {
	var said []string
	if i.Gauge != nil {
		said = append(said, i.Gauge.Value.String()+" "+d.clock(i.Gauge.At, t))
	}
	if i.Hours != nil {
		said = append(said, fmt.Sprintf("%.0f h %s", i.Hours.Value, d.clock(i.Hours.At, t)))
	}
	return strings.Join(said, ", ")
}

// clock is a time on a paper of the depot: by its day and hour, for a tag hangs
// for days; empty for none.
func (d Desk) clock(at time.Time, t tongue.Tongue) string {
	if at.IsZero() {
		return ""
	}
	return t.Moment(at.In(d.Now.Location()))
}
