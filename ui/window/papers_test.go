package window

import (
	"bytes"
	"context"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
	"lungwort/ui/finder"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// firstPage prints a paper and returns what zbar, which is none of our code,
// scans off its first page as the codes of papers.
func firstPage(t *testing.T, p paperwork.Printable) []string {
	t.Helper()
	var pdf bytes.Buffer
	_, err := p.Print(&pdf)
	require.NoError(t, err)
	stem := filepath.Join(t.TempDir(), "page")
	render := exec.Command("pdftoppm", "-r", "150", "-gray", "-singlefile", "-", stem)
	render.Stdin = &pdf
	require.NoError(t, render.Run(), "install poppler-utils")
	out, err := exec.Command("zbarimg", "--nodbus", "-q", "--raw", "-Sdisable", "-Sqrcode.enable", stem+".pgm").Output()
	require.NoError(t, err, "install zbar-tools; or no code is on the page")
	var codes []string
	for _, code := range strings.Fields(string(out)) {
		if strings.HasPrefix(code, "LWP.") {
			codes = append(codes, code)
		}
	}
	return codes
}

// TestEveryPaperOpensWhatItBelongsTo: every paper is made from the book, printed,
// its page rendered and scanned; what was scanned leads to the record.
func TestEveryPaperOpensWhatItBelongsTo(t *testing.T) {
	d := uitest.New(t)
	ctx := context.Background()
	slip := d.Act(delivery.Exchange{Plant: "works", Depot: "harbour", Driver: "Tam", OutMore: []inventory.Counted{{Owner: "Gas works", Size: "US-D", Count: 1}}, Later: true, Accept: true}).Facts
	clerk, err := paperwork.NewClerk(ctx, d.Desk, uitest.Now)
	require.NoError(t, err)
	home := func(paper, given string) func() (paperwork.Printable, error) {
		return func() (paperwork.Printable, error) {
			return clerk.HomePaper(ctx, paper, paperwork.Asked{Person: d.Persons[given], By: "desk", Tongue: tongue.English()})
		}
	}
	thing := func(paper, serial string) func() (paperwork.Printable, error) {
		return func() (paperwork.Printable, error) {
			return clerk.ItemPaper(ctx, paper, tongue.English(), d.Things[serial])
		}
	}
	person := func(given string) work.Target { return work.Target{Room: work.Person, Person: d.Persons[given]} }
	seen := map[string]bool{}
	for _, c := range []struct {
		name  string
		make  func() (paperwork.Printable, error)
		opens work.Target
	}{
		{"leaflet", home("leaflet", "Mira"), person("Mira")},
		{"sign", home("sign", "Mira"), person("Mira")},
		{"hand-over", home("hand-over", "Mira"), person("Mira")},
		{"proof", home("delivery-proof", "Mira"), person("Mira")},
		{"return", home(paperwork.ReturnReceipt, "Mira"), person("Mira")},
		{"collect", home("collect-letter", "Mira"), person("Mira")},
		{"value", home("value-letter", "Mira"), person("Mira")},
		{"recall", home(paperwork.RecallLetter, "Rhea"), work.Target{Room: work.Recall, Item: d.Things["E-20106"]}},
		{"bench", thing("bench-tag", "CN00410"), work.Target{Room: work.Item, Item: d.Things["CN00410"]}},
		{"hold", thing("hold-tag", "CN00409"), work.Target{Room: work.Item, Item: d.Things["CN00409"]}},
		{"slip", func() (paperwork.Printable, error) { return clerk.ExchangeSlip(ctx, 0, tongue.English()) }, work.Target{Room: work.Plant, Text: slipNumber(slip)}},
		{"run", func() (paperwork.Printable, error) {
			trips, err := clerk.Trips(ctx)
			require.NoError(t, err)
			return clerk.Trip(ctx, trips[0])
		}, work.Target{Room: work.Runs, Run: d.Run}},
		{"night", func() (paperwork.Printable, error) {
			pack, _, err := clerk.Night(ctx)
			return pack, err
		}, work.Target{Room: work.NightLog}},
		{"gas", func() (paperwork.Printable, error) {
			return clerk.GasSheet(d.Persons["Jory"], "Vale, Jory", delivery.Answer{}, scene.ChartData{Now: uitest.Now, From: uitest.Now, To: uitest.Now.Add(time.Hour)}), nil
		}, person("Jory")},
		{"outage", func() (paperwork.Printable, error) {
			plan, err := d.Outage(ctx, delivery.PowerCut{Area: "Harbour line"}, 4*time.Hour, uitest.Now)
			return clerk.OutageList(plan), err
		}, work.Target{Room: work.Outage}},
		{"calls", func() (paperwork.Printable, error) { return clerk.CallList(ctx) }, work.Target{Room: work.Calls}},
		{"clinician", func() (paperwork.Printable, error) { return clerk.ConcernList(ctx) }, work.Target{Room: work.Calls}},
		{"measures", func() (paperwork.Printable, error) { return clerk.MeasurePages(ctx) }, work.Target{Room: work.Measures}},
		{"map", func() (paperwork.Printable, error) { return clerk.MapPage(scene.MapData{}, "all homes", 600, 400), nil }, work.Target{Room: work.Map}},
	} {
		page, err := c.make()
		require.NoError(t, err, c.name)
		codes := firstPage(t, page)
		require.NotEmpty(t, codes, c.name)
		for _, code := range codes { // a letter's slip carries it again
			hits, err := finder.Anything(ctx, d.Desk, code, 1)
			require.NoError(t, err, c.name)
			require.Len(t, hits, 1, c.name)
			assert.Equal(t, c.opens, ofPaper(hits[0].ID), "%s %s", c.name, code)
			kind, _, _ := strings.Cut(hits[0].ID, ".")
			seen[kind] = true
		}
	}
	for _, kind := range tag.Papers {
		assert.True(t, seen[kind], "no paper of kind %s was scanned here", kind)
	}
}

func slipNumber(facts []inventory.Fact) string {
	for _, f := range facts {
		if _, is := f.Statement.(*inventory.Exchanged); is {
			return fmt.Sprint(f.ID)
		}
	}
	return ""
}
