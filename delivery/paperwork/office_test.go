package paperwork_test

import (
	"context"
	"os"
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
	"lungwort/inventory/sheet"
)

// everySheet is every sheet the clerk gives out, by the name of its file.
var everySheet = map[string]func(paperwork.Clerk, context.Context) (sheet.Out, error){
	"watch": paperwork.Clerk.WatchList, "items": allItems, "loans": paperwork.Clerk.Loans, "people": paperwork.Clerk.People,
	"runs": paperwork.Clerk.Runs, "calls": paperwork.Clerk.Calls, "clinician": paperwork.Clerk.Clinician,
	"rental": paperwork.Clerk.Rental, "exchange": paperwork.Clerk.Exchanges, "deliveries": paperwork.Clerk.Deliveries,
	"bench": paperwork.Clerk.Bench, "recalls": paperwork.Clerk.Recalls, "supplies": paperwork.Clerk.Supplies, "measures": paperwork.Clerk.Measures, "outlook": paperwork.Clerk.Outlook,
	"person": func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) { return c.Person(ctx, "0048213") },
	"item":   func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) { return c.Item(ctx, "=X-1") },
}

// busy adds what makes every sheet hold something.
func (o *office) busy() {
	o.t.Helper()
	ines, err := o.Person(o.t.Context(), "0048213")
	require.NoError(o.t, err)
	o.do(delivery.Prove{Person: ines, Signed: true, Name: "Ben Abara", Relationship: "son"})
	o.do(delivery.ReceiveSupply{Supply: "nasal cannula", Count: 20, Lot: "=C1", To: inventory.At(inventory.AtDepot, "harbour")})
	o.do(delivery.Call{Person: ines, Answered: true, Worse: true, Problem: "=breathless on the stairs"})
	o.do(delivery.Exchange{
		Plant: "works", Depot: "harbour", Driver: "Tam", Slip: "=SG-8841", Later: true, Accept: true,
		OutMore: []inventory.Counted{{Owner: "Skerry Gas", Size: "US-E", Count: 2}},
	})
	o.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
		Vehicle: "van 1", Day: "2025-04-02", Stops: []delivery.PlannedStop{{Address: o.home("0048213").Address.ID, Persons: []inventory.PersonID{ines}}},
	}}}})
	o.do(delivery.Recall{Notice: "RN-7", Items: []inventory.ItemID{o.item("CN00417").ID}})
	o.at = o.at.Add(time.Hour)
}

// A second program opens every sheet and sees in each cell what was written.
// What it saves comes back without an edit.
func TestSheetsInASecondProgram(t *testing.T) {
	office, err := exec.LookPath("soffice")
	require.NoError(t, err, "install LibreOffice Calc (Debian: apt-get install libreoffice-calc-nogui); make test does so")
	o := newOffice(t)
	o.busy()
	dir := t.TempDir()
	convert := func(to string, files ...string) {
		t.Helper()
		args := []string{"--headless", "--norestore", "-env:UserInstallation=file://" + dir + "/profile", "--convert-to", to, "--outdir", filepath.Join(dir, "seen")}
		ctx, stop := context.WithTimeout(t.Context(), 3*time.Minute)
		defer stop()
		said, err := exec.CommandContext(ctx, office, append(args, files...)...).CombinedOutput()
		require.NoError(t, err, string(said))
	}
	var files []string
	for name, make := range everySheet {
		path := filepath.Join(dir, name+".xlsx")
		written, err := os.ReadFile(o.given(name+".xlsx", make))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, written, 0o600))
		files = append(files, path)
	}
	convert("csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,true,false", files...)
	for name := range everySheet {
		ours, err := sheet.ReadFile(t.Context(), filepath.Join(dir, name+".xlsx"))
		require.NoError(t, err)
		theirs, err := sheet.ReadFile(t.Context(), filepath.Join(dir, "seen", name+".csv"))
		require.NoError(t, err, name)
		assert.Equal(t, cells(ours[0]), cells(theirs[0]), name)
	}
	convert("ods", filepath.Join(dir, "items.xlsx"), filepath.Join(dir, "people.xlsx"))
	for _, name := range []string{"items.ods", "people.ods"} {
		r := o.back(nil, filepath.Join(dir, "seen", name))
		assert.Empty(t, r.Acts(), name)
		assert.Empty(t, r.Questions, name)
		assert.Empty(t, r.Findings, name)
		assert.NotZero(t, r.Taken, name)
	}
}

// cells are the texts of a table, a line a row.
func cells(t sheet.Table) []string {
	var rows []string
	for _, r := range t.Rows {
		var texts []string
		for _, c := range r.Cells {
			texts = append(texts, c.Text)
		}
		rows = append(rows, strings.TrimRight(strings.Join(texts, "|"), "|"))
	}
	return rows
}

// Every sheet says when its facts were so, and has its headings and rows.
func TestEverySheetHoldsSomething(t *testing.T) {
	o := newOffice(t)
	o.busy()
	clerk, err := paperwork.NewClerk(t.Context(), o.Desk, o.at)
	require.NoError(t, err)
	clerk.Programme.Billing = delivery.HCPCS
	for name, make := range everySheet {
		out, err := make(clerk, t.Context())
		require.NoError(t, err, name)
		assert.False(t, out.AsOf.IsZero(), name)
		assert.NotEmpty(t, out.What, name)
		switch name {
		case "runs", "calls", "clinician", "exchange": // nothing of these happened here
		default:
			assert.NotEmpty(t, out.Rows, name)
		}
		for _, row := range out.Rows {
			assert.Len(t, row, len(out.Columns), name)
		}
	}
	out, err := clerk.Deliveries(t.Context())
	require.NoError(t, err)
	require.Len(t, out.Rows, 2)
	row := out.Rows[0]
	assert.Equal(t, []any{"Abara, Ines", "0048213", "Kelp Street 22, Great Quillet", "concentrator to 5 L/min", "Breeze 5", "CN00417", 1}, row[1:8])
	assert.Equal(t, []any{"Ben Abara", "son", "E1390"}, row[9:])
	assert.Nil(t, out.Rows[1][8], "no proof yet")
	assert.Equal(t, "E0431", out.Rows[1][11])
}
