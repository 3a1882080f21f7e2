package finder_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/ui/finder"
	"lungwort/ui/uitest"
)

// Whatever is scanned or typed for an item finds that item, or is asked about.
func TestItem(t *testing.T) {
	d := uitest.New(t)
	want := d.Thing("E-20101")
	printed := tag.Mint(want.Tag).Printed()
	for _, text := range []string{"E-20101", "e20101", " E 20101\r\n", printed, tag.Mint(want.Tag).Payload() + "\t"} {
		got, err := finder.Item(context.Background(), d.Desk, text)
		require.NoError(t, err, text)
		assert.Equal(t, want.ID, got.ID, text)
	}
	for text, kind := range map[string]refusal.Kind{
		"":                             refusal.Invalid,
		"E-2O1O1":                      refusal.Ask, // letters for zeros: near, never taken
		"XX-999":                       refusal.NotFound,
		printed[:len(printed)-1] + "?": refusal.NotFound,
	} {
		_, err := finder.Item(context.Background(), d.Desk, text)
		require.Error(t, err, text)
		assert.Equal(t, kind, refusal.KindOf(err), "%q: %v", text, err)
	}
}

// A label with our tag and one with a GS1 number of the programme's own find the
// same thing, in any form; the number of another company finds nothing of ours.
func TestEveryLabelOfAThingFindsIt(t *testing.T) {
	d := uitest.New(t)
	p := uitest.Programme()
	p.Company = "9521234"
	d.Act(delivery.Settings{Programme: p})
	for _, serial := range []string{"E-20101", "CN00408"} {
		want := d.Thing(serial)
		for _, form := range []string{"", tag.AsElements, tag.AsLink} {
			p.Carries = form
			label := paperwork.NewDesk(p, uitest.Now).Labels([]inventory.Item{want}, paper.Stocks[0], paper.DPI203, 1).Labels[0]
			assert.NotEqual(t, tag.Mint(want.Tag).Payload(), label.Payload)
			got, err := finder.Item(context.Background(), d.Desk, label.Payload)
			require.NoError(t, err, label.Payload)
			assert.Equal(t, want.ID, got.ID, label.Payload)
			_, err = finder.Item(context.Background(), d.Desk, strings.Replace(label.Payload, "9521234", "9521235", 1))
			assert.Error(t, err)
		}
		got, err := finder.Item(context.Background(), d.Desk, tag.Mint(want.Tag).Payload())
		require.NoError(t, err)
		assert.Equal(t, want.ID, got.ID, "the tag printed before stays good")
	}
}

func TestAnything(t *testing.T) {
	d := uitest.New(t)
	for _, tc := range []struct {
		text  string
		first finder.Sort
		exact bool
	}{
		{"E-20101", finder.ItemHit, true},
		{"abara", finder.PersonHit, false},
		{"gull row", finder.PersonHit, false},
		{"concentrator", finder.ItemHit, false},
		{"LWP.RUN.R00001", finder.PaperHit, true},
	} {
		text := tc.text
		if tc.first == finder.PaperHit {
			code, err := tag.PaperCode(tag.PaperRun, "r00001")
			require.NoError(t, err)
			text = code
		}
		hits, err := finder.Anything(context.Background(), d.Desk, text, 5)
		require.NoError(t, err, text)
		require.NotEmpty(t, hits, text)
		assert.Equal(t, tc.first, hits[0].Sort, text)
		assert.Equal(t, tc.exact, hits[0].Exact, text)
	}
	for _, nothing := range []string{"", "   ", "nobody at all"} {
		hits, err := finder.Anything(context.Background(), d.Desk, nothing, 5)
		require.NoError(t, err)
		assert.Empty(t, hits, nothing)
	}
}
