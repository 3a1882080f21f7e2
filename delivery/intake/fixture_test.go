package intake_test

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// The ledger is one that was kept by hand: twelve rows, six people, and most
// of the mistakes such ledgers have. What is expected of each row is written
// beside it in these tests; it is the note that came with the ledger.

// ledger returns the ledger as a text file and as a workbook.
func ledger(t *testing.T) map[string]sheet.Table {
	t.Helper()
	ctx := context.Background()
	text, err := sheet.ReadFile(ctx, filepath.Join("testdata", "ledger_as_it_is.csv"))
	require.NoError(t, err)
	out := sheet.Out{Name: "Equipment out", Columns: make([]sheet.Column, 14)}
	for i, c := range text[0].Rows[0].Cells {
		out.Columns[i].Heading = c.Raw
	}
	for _, row := range text[0].Rows[1:] {
		values := make([]any, len(row.Cells))
		for i, c := range row.Cells {
			values[i] = c.Raw
		}
		out.Rows = append(out.Rows, values)
	}
	path := filepath.Join(t.TempDir(), "ledger_as_it_is.xlsx")
	require.NoError(t, sheet.Write(path, []sheet.Out{out}))
	book, err := sheet.ReadFile(ctx, path)
	require.NoError(t, err)
	return map[string]sheet.Table{"csv": text[0], "xlsx": book[0]}
}

func eachLedger(t *testing.T, test func(t *testing.T, d *desk, list sheet.Table)) {
	for kind, list := range ledger(t) {
		t.Run(kind, func(t *testing.T) { test(t, newDesk(t), list) })
	}
}

// answered answers every question of the ledger.
func answered(list sheet.Table) intake.Answers {
	name := list.File
	if list.Name == "Equipment out" {
		name += ", " + list.Name
	}
	return intake.Answers{
		"days:" + list.File:     "day first with points, month first with slashes",
		"year:" + list.File:     "2025",
		"no date:" + name:       "as the row above",
		"flow:" + name + ":2-4": "4 L/min",
		"serial:CN417":          "CN00417",
		"lot:12409A":            "L2409A",
		"size:E":                "US-E",
		"size:D":                "US-D",
		"name:0052008":          "Diaz-Lopez, Ana",
		"deceased:0051777":      "stopped",
	}
}

func question(t *testing.T, r intake.Reading, key string) intake.Question {
	t.Helper()
	i := slices.IndexFunc(r.Questions, func(q intake.Question) bool { return strings.HasPrefix(q.Key, key) })
	require.GreaterOrEqual(t, i, 0, "a question %s…", key)
	return r.Questions[i]
}

func asked(r intake.Reading, key string) (n int) {
	for _, q := range r.Questions {
		if strings.HasPrefix(q.Key, key) {
			n++
		}
	}
	return n
}

func why(t *testing.T, r intake.Reading, row int) string {
	t.Helper()
	i := slices.IndexFunc(r.Refused, func(no intake.Refusal) bool { return no.Row == row })
	require.GreaterOrEqual(t, i, 0, "row %d is refused", row)
	return r.Refused[i].Why
}

func finds(list []string, parts ...string) bool {
	return slices.ContainsFunc(list, func(s string) bool {
		return !slices.ContainsFunc(parts, func(part string) bool { return !strings.Contains(s, part) })
	})
}

func TestLedgerTwelveRowsAreSixPeople(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		r := d.read(nil, list)
		dump(r)
		assert.Equal(t, 12, r.Rows)
		type who struct {
			name, record string
			rows         []int
		}
		var people []who
		for _, p := range r.People {
			people = append(people, who{p.Name, p.Record, p.Rows})
		}
		assert.Equal(t, []who{
			{"Abara, Ines", "0048213", []int{2, 3}},
			{"Okoro, T", "0051990", []int{4, 5}},
			{"Diaz-Lopez, M", "0052007", []int{6, 7}},
			{"^ same house: wife", "0052008", []int{8}},
			{"Quist, P", "0052011", []int{9, 10}},
			{"Rao", "0051777", []int{12}},
		}, people)
		assert.True(t, finds(r.Notices, "row 11", "test row"), "the test row is dropped with a notice: %v", r.Notices)
		assert.True(t, finds(r.Findings, "48213", "0048213"), "the lost zeros are told of: %v", r.Findings)
	})
}

func TestLedgerAsksOnceForTheFile(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		r := d.read(nil, list)
		assert.Equal(t, 1, asked(r, "days:"), "the order of day and month, once for the file")
		days := question(t, r, "days:")
		assert.Equal(t, []int{2, 3, 7, 8}, days.Rows, "row 8 hangs on row 7")
		assert.Contains(t, days.Asks, "17/3/25", "the evidence against month first")
		assert.Contains(t, days.Asks, "3/14/25", "the evidence against day first")
		assert.Equal(t, []string{"3/4/25", "04.03.2025", "3/10/25"}, days.Examples)

		assert.Equal(t, 1, asked(r, "serial:"), "near serials are one candidate")
		near := question(t, r, "serial:")
		assert.Equal(t, "serial:CN417", near.Key)
		var offered []string
		for _, c := range near.Choices {
			offered = append(offered, c.Value)
		}
		assert.Equal(t, []string{"CN0O417", "CNOO417", "CN00417", "different"}, offered)
		assert.Equal(t, []int{2, 3}, near.Rows)

		assert.Equal(t, 1, asked(r, "lot:"))
		assert.Equal(t, []int{4}, question(t, r, "flow:").Rows)
		assert.Less(t, len(r.Questions), 20)
	})
}

func TestLedgerRefusesWithTheReason(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		for name, answers := range map[string]intake.Answers{"unanswered": nil, "answered": answered(list)} {
			r := d.read(answers, list)
			require.Len(t, r.Refused, 2, name)
			assert.Contains(t, why(t, r, 5), "letter O", name)
			destroyed := why(t, r, 6)
			assert.Contains(t, destroyed, "9.01E+09", name)
			assert.Contains(t, destroyed, "shortened", name)
			assert.Contains(t, destroyed, "PRN", name)
			assert.NotContains(t, destroyed, "9010000417", "a destroyed serial is never matched")
		}
	})
}

func TestLedgerTakesTheClearRowAtOnce(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		r := d.take(nil, list)
		assert.Equal(t, 1, r.Taken, "the loan to the ward")
		d.audit()
		loaned := d.item("CN00412")
		assert.Equal(t, inventory.At(inventory.AtWard, "6B"), loaned.Place, "a ward is a place, not a person")
		assert.Empty(t, loaned.Person)
		assert.Empty(t, d.people())
	})
}

func TestLedgerAnsweredGoesIn(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		r := d.take(answered(list), list)
		dump(r)
		assert.Empty(t, r.Questions)
		assert.Equal(t, 9, r.Taken)
		assert.Equal(t, 1, r.LeftOut)
		d.audit()
		assert.Equal(t, []string{"Abara, Ines", "Diaz-Lopez, Ana", "Diaz-Lopez, M", "Okoro, T", "Quist, P", "Rao"}, d.people())

		assert.True(t, finds(r.Findings, "row 7", "before it went out"), "in before out is a finding: %v", r.Findings)
		assert.True(t, finds(r.Findings, "row 10", "CN00419", "18099", "3033"), "hours went down is a finding: %v", r.Findings)

		abara := d.page("Abara")
		assert.Equal(t, "0048213", abara.Person.Record)
		assert.Equal(t, []string{"E-20118"}, labels(abara.Kit), "machine and one cylinder came back on 17 March")
		machine := d.item("CN00417")
		assert.Equal(t, inventory.Dirty, machine.State)
		assert.Equal(t, 1611.0, machine.Hours.Value)
		assert.Equal(t, time.Date(2025, 3, 17, 0, 0, 0, 0, d.at.Location()).Unix(), machine.Hours.At.Unix())
		assert.Equal(t, "L2409A", d.item("E-20118").Fill.Lot)
		assert.InDelta(t, 1900, d.item("E-20118").Gauge.Value.PSI(), 0.01, "the second reading is the second cylinder's")

		okoro := d.page("Okoro")
		assert.Contains(t, okoro.Person.Phones, delivery.Phone{Number: "555-0177", Whose: "son Ben"})
		assert.Equal(t, "4 on stairs, sleep 2", okoro.Person.Note)
		assert.Equal(t, gas.Flow(4), okoro.Care.Order.Rest)
		assert.InDelta(t, 2030, d.item("E 20119").Gauge.Value.PSI(), 1, "140 bar")

		assert.Equal(t, 88.0, d.item("9010000417").Hours.Value)
		assert.Equal(t, gas.Flow(0.125), d.page("0052007").Care.Order.Rest)
		wife := d.page("0052008")
		assert.Contains(t, wife.Person.Note, "same house as Diaz-Lopez, M")
		assert.InDelta(t, 1800, d.item("D-312").Gauge.Value.PSI(), 0.01)

		quist := d.page("Quist")
		assert.Len(t, quist.Kit, 3)
		assert.InDelta(t, 2001, d.item("E-20122").Gauge.Value.PSI(), 1, "13800 kPa")
		assert.NotEmpty(t, d.item("CN00419").Doubts, "the meter that went down stays a doubt on the machine")

		rao := d.page("Rao")
		assert.Equal(t, delivery.Over, rao.Care.Phase)
		assert.True(t, rao.Care.Has(delivery.Collect), "a collection opens for what the daughter has")
		assert.Nil(t, d.item("E-20105").Gauge, "a question mark is no reading")
	})
}

func TestLedgerNeverSaysAHomeHolds(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		d.take(answered(list), list)
		rows, err := d.Watch(context.Background(), d.at)
		require.NoError(t, err)
		assert.Len(t, rows, 5, "all but the one whose oxygen was stopped")
		for _, w := range rows {
			assert.Equal(t, depletion.Unknown, w.Verdict, "%s: nobody said what they breathe from", w.Person.Name())
		}
	})
}

func TestLedgerTwiceChangesNothing(t *testing.T) {
	eachLedger(t, func(t *testing.T, d *desk, list sheet.Table) {
		d.take(nil, list)
		d.take(answered(list), list)
		before := d.facts()
		d.at = d.at.Add(72 * time.Hour)
		again := d.take(answered(list), list)
		dump(again)
		assert.Equal(t, before, d.facts())
		assert.Empty(t, again.Acts())
		assert.Equal(t, intake.Added{}, again.Added)
		assert.Equal(t, 9, again.Taken)
		assert.True(t, finds(again.Notices, "new to the book"))
	})
}

// In the row with a comma too many, the tail belongs to the notes and no
// column shifts.
func TestLedgerKeepsTheTailInTheNotes(t *testing.T) {
	list := ledger(t)["csv"]
	for i, c := range list.Rows[4].Cells {
		if c.Text == "O" {
			list.Rows[4].Cells[i].Text, list.Rows[4].Cells[i].Raw = "2", "2"
		}
	}
	d := newDesk(t)
	d.take(answered(list), list)
	okoro := d.page("Okoro")
	assert.Contains(t, okoro.Person.Note, "called, gauge 1/4")
	assert.InDelta(t, 2015.0/4, d.item("E-20119").Gauge.Value.PSI(), 1, "a quarter of a full E")
}

func (d *desk) item(serial string) inventory.Item {
	d.t.Helper()
	item, err := d.Item(context.Background(), serial, 0)
	require.NoError(d.t, err)
	return item
}

func (d *desk) page(text string) pageOf {
	d.t.Helper()
	id, err := d.Person(context.Background(), text)
	require.NoError(d.t, err)
	page, err := d.Page(context.Background(), id, d.at)
	require.NoError(d.t, err)
	return page
}

func (d *desk) people() (names []string) {
	d.t.Helper()
	found, err := d.Homes(context.Background(), "", 1000)
	require.NoError(d.t, err)
	for _, f := range found {
		names = append(names, f.Person.Name())
	}
	slices.Sort(names)
	return names
}

func (d *desk) stock() (all []inventory.Item) {
	d.t.Helper()
	all, _, err := d.Items(context.Background(), items.Filter{})
	require.NoError(d.t, err)
	return all
}

func labels(kit []inventory.Item) (all []string) {
	for _, i := range kit {
		all = append(all, i.Label())
	}
	return all
}
