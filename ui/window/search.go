package window

import (
	"context"
	"fmt"
	"strings"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/tag"
	"lungwort/ui/finder"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// suggestions is how many of each sort the field offers.
const suggestions = 6

func (f *Frame) suggest(text string) {
	work.Ask(f.work, "suggest", func(ctx context.Context) ([]finder.Hit, error) {
		return finder.Anything(ctx, f.work.Desk, text, suggestions)
	}, func(hits []finder.Hit) {
		list := make([]widgets.Suggestion, len(hits))
		for i, h := range hits {
			list[i] = widgets.Suggestion{ID: hitID(h), Text: h.Title, Below: h.Detail, Kind: string(h.Sort)}
		}
		f.field.SetSuggestions(list)
	})
}

// submit goes where a scan or a typed text leads. On a screen that scans,
// the scan is the screen's own.
func (f *Frame) submit(text string) {
	if s, ok := f.rooms[f.here.Room].(scanning); ok {
		f.open = true // until something is said of it
		if s.Scan(text) {
			return
		}
		f.open = false
	}
	work.Ask(f.work, "submit", func(ctx context.Context) ([]finder.Hit, error) {
		hits, err := finder.Anything(ctx, f.work.Desk, text, suggestions)
		if err == nil && len(hits) == 0 {
			err = unknown(ctx, f.work.Desk, text)
		}
		return hits, err
	}, func(hits []finder.Hit) {
		switch {
		case len(hits) == 1 || hits[0].Exact:
			f.pick(hitID(hits[0]))
		case hits[0].Sort == finder.ItemHit: // persons come first
			f.Open(work.Target{Room: work.Items, Text: text})
		default:
			f.Open(work.Target{Room: work.Homes, Text: text})
		}
	})
}

// unknown says why a text leads nowhere: a slip in a tag or a serial close to
// one of ours is named, anything else is simply not in the book.
func unknown(ctx context.Context, desk *store.Desk, text string) error {
	_, err := finder.Item(ctx, desk, text)
	if refusal.KindOf(err) == refusal.Ask {
		return err
	}
	return refusal.New(refusal.NotFound, fmt.Sprintf("Nothing in the book goes by “%s”.", text),
		"Scan again, or type part of a name, serial, phone or street. A thing that came back goes in under Return.")
}

// hitID names a hit for a suggestion, as "person:p00012".
func hitID(h finder.Hit) string { return string(h.Sort) + ":" + h.ID }

// pick opens what hitID names.
func (f *Frame) pick(id string) {
	sort, id, _ := strings.Cut(id, ":")
	switch finder.Sort(sort) {
	case finder.PersonHit:
		f.Open(work.Target{Room: work.Person, Person: inventory.PersonID(id)})
	case finder.ItemHit:
		f.Open(work.Target{Room: work.Item, Item: inventory.ItemID(id)})
	case finder.PaperHit:
		f.Open(ofPaper(id))
	}
}

// ofPaper returns what a scanned paper belongs to.
func ofPaper(id string) work.Target {
	kind, id, _ := strings.Cut(id, ".")
	id = strings.ToLower(id)
	switch kind {
	case tag.PaperRun:
		return work.Target{Room: work.Runs, Run: inventory.RunID(id)}
	case tag.PaperReceipt, tag.PaperProof, tag.PaperReturn, tag.PaperLetter, tag.PaperLeaflet, tag.PaperSign, tag.PaperGas:
		return work.Target{Room: work.Person, Person: inventory.PersonID(id)}
	case tag.PaperBench, tag.PaperHold:
		return work.Target{Room: work.Item, Item: inventory.ItemID(id)}
	case tag.PaperRecall:
		return work.Target{Room: work.Recall, Item: inventory.ItemID(id)}
	case tag.PaperSlip:
		return work.Target{Room: work.Plant, Text: id}
	case tag.PaperOutage:
		return work.Target{Room: work.Outage}
	case tag.PaperCalls:
		return work.Target{Room: work.Calls}
	case tag.PaperMeasures:
		return work.Target{Room: work.Measures}
	case tag.PaperMap:
		return work.Target{Room: work.Map}
	case tag.PaperNight:
		return work.Target{Room: work.NightLog}
	}
	return work.Target{Room: work.Papers}
}
