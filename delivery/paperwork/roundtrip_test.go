package paperwork_test

import (
	"context"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
)

// What comes back as it went out says nothing, whatever is in its cells.
func TestUneditedSheetsSayNothing(t *testing.T) {
	o := newOffice(t)
	for _, ext := range []string{".xlsx", ".csv"} {
		for name, make := range map[string]func(paperwork.Clerk, context.Context) (sheet.Out, error){
			"items": allItems, "loans": paperwork.Clerk.Loans, "people": paperwork.Clerk.People,
		} {
			r := o.back(nil, o.given(name+ext, make))
			assert.Empty(t, r.Acts(), name+ext)
			assert.Empty(t, r.Questions, name+ext)
			assert.Empty(t, r.Refused, name+ext)
			assert.Empty(t, r.Findings, name+ext)
			assert.Equal(t, r.Rows, r.Taken, name+ext)
			assert.NotZero(t, r.Rows, name+ext)
		}
	}
}

func TestOnlyTheEditsOfAnItemSheetArrive(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{
		{"CN00417", "Model", "Breeze 5 plus"}, {"0503E000", "Owner", "Reef Rental"}, {"100E10", "Place", "vehicle:van 1"},
		{"=X-1", "State", "missing"}, {"E-00118", "State", "ready"},
	})
	r := o.back(nil, path)
	require.Empty(t, r.Questions)
	assert.Equal(t, 4, r.Changed)
	assert.Len(t, r.Changes, 4)
	assert.Len(t, r.Findings, 1, "what is lent comes back by an act")
	assert.Contains(t, r.Findings[0], "record its return")
	o.write(r)
	assert.Equal(t, "Breeze 5 plus", o.item("CN00417").Spec.Model)
	assert.Equal(t, "Reef Rental", o.item("0503E000").Spec.Owner)
	assert.Equal(t, inventory.At(inventory.AtVehicle, "van 1"), o.item("100E10").Place)
	assert.Equal(t, inventory.Missing, o.item("=X-1").State)
	audit, err := o.Audit(t.Context())
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)
	r = o.back(nil, path)
	assert.Empty(t, r.Acts(), "taking it in twice changes nothing")
}

func TestEditsOfWhatWasChangedSinceAreAsked(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{{"100E10", "Place", "vehicle:van 1"}, {"0503E000", "Owner", "Reef Rental"}})
	o.at = o.at.Add(time.Hour)
	o.do(delivery.Move{Item: o.item("100E10").ID, To: inventory.At(inventory.AtMissing, "")})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1)
	assert.Contains(t, r.Questions[0].Asks, "since it was given out")
	assert.Len(t, r.Changes, 1, "the other row is clear")
	r = o.back(intake.Answers{r.Questions[0].Key: "the book"}, path)
	assert.Empty(t, r.Questions)
	o.write(r)
	assert.Equal(t, inventory.Missing, o.item("100E10").State)
	assert.Equal(t, "Reef Rental", o.item("0503E000").Spec.Owner)
}

// Edge case 34: serials that look like numbers (100E10, 0503E000, 9.01E+09) stay text on the way out; what a spreadsheet program
// makes of them is never matched on the way in.
func TestEdge34SerialsThatLookLikeNumbers(t *testing.T) {
	o := newOffice(t)
	for _, ext := range []string{".xlsx", ".csv"} {
		tables, err := sheet.ReadFile(t.Context(), o.given("items"+ext, allItems))
		require.NoError(t, err)
		var seen []string
		for _, row := range tables[0].Rows[3:] {
			seen = append(seen, row.Cell(1).Text)
		}
		assert.Equal(t, []string{"E-00118", "100E10", "CN00417", "0503E000", "=X-1"}, seen)
	}
	path := o.given("items.csv", allItems)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	spoilt := strings.NewReplacer("100E10", "1.00E+12", "0503E000", "503E000").Replace(string(text))
	require.NoError(t, os.WriteFile(path, []byte(spoilt), 0o600))
	r := o.back(nil, path)
	assert.Empty(t, r.Acts())
	require.Len(t, r.Findings, 2)
	for _, says := range r.Findings {
		assert.Contains(t, says, "made a number by the spreadsheet program")
	}
}

func TestEmptiedCellsAreAsked(t *testing.T) {
	o := newOffice(t)
	path := o.given("items.xlsx", allItems)
	edit(t, path, [][3]string{{"100E10", "Owner", ""}})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1)
	assert.Equal(t, []string{"100E10: not set in the list, Skerry Gas in the book"}, r.Questions[0].Examples)
	o.write(o.back(intake.Answers{r.Questions[0].Key: "the list"}, path))
	assert.Empty(t, o.item("100E10").Spec.Owner)
}
