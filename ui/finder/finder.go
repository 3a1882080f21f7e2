// Package finder turns whatever is scanned or typed into what it names: an
// item, a person, a run. The field on top of the window and every command use
// it.
package finder

import (
	"context"
	"fmt"
	"strings"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
	"lungwort/labels/tag"
)

// Item returns the one item a scan, a tag or a serial names. A failed check
// character or a near serial is asked about, never taken.
func Item(ctx context.Context, desk *store.Desk, text string) (inventory.Item, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return inventory.Item{}, refusal.New(refusal.Invalid, "No item is named.", "Scan its label or type its serial.")
	}
	read, err := tag.Read(text)
	if err == nil && read.Kind == tag.OurTag {
		if number, ok := read.Tag.Number(); ok {
			return desk.Item(ctx, "", number)
		}
	}
	if err == nil && read.Asset() != "" {
		if t, ours := ownAsset(ctx, desk, read); ours {
			number, _ := t.Number()
			return desk.Item(ctx, "", number)
		}
		text = read.Asset()
	}
	if err == nil && read.Serial != "" {
		text = read.Serial
	}
	item, lookErr := desk.Item(ctx, text, 0)
	if lookErr != nil && err != nil && refusal.KindOf(lookErr) == refusal.NotFound {
		return item, refusal.New(refusal.Ask, err.Error(), likely(read))
	}
	return item, lookErr
}

// ownAsset returns our tag within a GS1 asset number of the programme's own.
func ownAsset(ctx context.Context, desk *store.Desk, read tag.Reading) (tag.Tag, bool) {
	p, err := desk.Programme(ctx)
	if err != nil {
		return "", false
	}
	return read.Ours(p.Company)
}

// OurTag reports whether a text is meant as one of our tags, right or with a
// slip in it.
func OurTag(text string) bool {
	read, _ := tag.Read(strings.TrimSpace(text)) // a slip is told with an error
	return read.Kind == tag.OurTag || len(read.Likely) > 0
}

// Serial returns the maker's serial a scan carries; a bare text is its own.
func Serial(text string) string {
	text = strings.TrimSpace(text)
	if read, err := tag.Read(text); err == nil && read.Serial != "" {
		return read.Serial
	}
	return text
}

func likely(read tag.Reading) string {
	if len(read.Likely) == 0 {
		return "Scan it again, or type the serial."
	}
	names := make([]string, len(read.Likely))
	for i, t := range read.Likely {
		names[i] = t.Printed()
	}
	return fmt.Sprintf("Perhaps %s? Scan it again.", strings.Join(names, " or "))
}

// Label returns how people name an item on screen and paper: our printed tag
// and the maker's serial.
func Label(i inventory.Item) string {
	printed := tag.Mint(i.Tag).Printed()
	if i.Spec.Serial == "" {
		return printed
	}
	return printed + "  " + i.Spec.Serial
}

// Sort is what a hit is.
type Sort string

// The sorts of hits.
const (
	ItemHit   Sort = "item"
	PersonHit Sort = "person"
	PaperHit  Sort = "paper"
)

// Hit is one thing a text may name.
type Hit struct {
	Sort   Sort
	ID     string // of a paper its kind and the id of its record, as "RUN.R00001"
	Title  string // first line
	Detail string // second line
	Exact  bool   // the text names this and nothing else
}

// Anything returns what a text may name, best first: an exact item or paper
// alone, else persons, then items. At most limit hits of each sort.
func Anything(ctx context.Context, desk *store.Desk, text string, limit int) ([]Hit, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil, nil
	}
	if read, err := tag.Read(text); err == nil && read.Kind == tag.Paper {
		return []Hit{{Sort: PaperHit, ID: read.PaperKind + "." + read.PaperID, Title: read.Says, Exact: true}}, nil
	}
	if item, err := Item(ctx, desk, text); err == nil {
		return []Hit{itemHit(item, true)}, nil
	}
	persons, err := desk.Homes(ctx, text, limit)
	if err != nil {
		return nil, err
	}
	hits := make([]Hit, 0, len(persons)+limit)
	for _, p := range persons {
		hits = append(hits, Hit{
			Sort: PersonHit, ID: string(p.Person.ID), Title: p.Person.Name(),
			Detail: strings.Trim(p.Address.Where()+" · "+string(p.Care.Phase), " ·"),
		})
	}
	found, _, err := desk.Items(ctx, items.Filter{Text: text, Limit: limit})
	if err != nil {
		return nil, err
	}
	for _, item := range found {
		hits = append(hits, itemHit(item, false))
	}
	return hits, nil
}

func itemHit(item inventory.Item, exact bool) Hit {
	kind := string(item.Spec.Kind)
	if kind == "" {
		kind = "unknown thing"
	}
	return Hit{
		Sort: ItemHit, ID: string(item.ID), Title: Label(item), Exact: exact,
		Detail: strings.TrimSpace(fmt.Sprintf("%s %s · %s", kind, item.Spec.Size, item.State)),
	}
}
