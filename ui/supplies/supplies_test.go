package supplies_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/needs"
	"lungwort/ui/supplies"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// stocked is a desk with two lots of cannulas and a level for them.
func stocked(t *testing.T) *uitest.Desk {
	t.Helper()
	d := uitest.New(t)
	p := uitest.Programme()
	p.Supplies = []delivery.SupplyLevel{{Supply: "cannula", Reorder: 40}, {Supply: "seal washer", Reorder: 10}}
	d.Act(delivery.Settings{Programme: p})
	d.Act(delivery.ReceiveSupply{Supply: "cannula", Count: 30, Lot: "C78", To: "depot:harbour", Expires: "2031-01-31"})
	d.Act(delivery.ReceiveSupply{Supply: "cannula", Count: 8, Lot: "C70", To: "ward:6B", Expires: "2030-03-01"})
	d.Act(delivery.ReceiveSupply{Supply: "extension tubing", Count: 25, Lot: "X1", To: "depot:harbour"})
	return d
}

func TestLotsWithWhatIsToBeOrdered(t *testing.T) {
	d := stocked(t)
	m := supplies.NewModel(d.Work)
	m.Load()
	var got [][]string
	for _, r := range m.Rows {
		got = append(got, []string{r.Supply, r.All, r.Level, r.Place, r.Lot, r.Count, r.Note})
	}
	assert.Equal(t, [][]string{
		{"cannula", "30", "40", "depot harbour", "C78", "30", "expires 2031-01-31"},
		{"", "", "", "ward 6B", "C70", "8", "expired 2030-03-01"},
		{"extension tubing", "25", "", "depot harbour", "X1", "25", ""},
		{"seal washer", "0", "10", "", "", "", "none is in the book"},
	}, got)
	assert.Equal(t, "To order: cannula 30 of 40, seal washer 0 of 10", m.Low)

	first := needs.NewModel(d.Work)
	first.Load()
	assert.Contains(t, first.Stock, "low: cannula 30 of 40  ·  low: seal washer 0 of 10")
	d.Clean()
}

// Taken in, counted and moved by keys alone; the last step can be undone.
func TestSuppliesByKeys(t *testing.T) {
	d := stocked(t)
	v := supplies.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Supplies})
	win.Canvas().Focus(v.Keyboard())
	uitest.Shoot(t, win, "supplies")
	uitest.Press(win, fyne.KeyDown, fyne.KeyDown) // extension tubing
	uitest.Type(win, "1")
	require.NotNil(t, win.Canvas().Overlays().Top(), "it asks what comes in")
	uitest.Press(win, fyne.KeyReturn) // extension tubing
	uitest.Type(win, "20")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "X2")
	uitest.Shoot(t, win, "supplies-take-in")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, 45, count(t, d, "extension tubing"))

	require.NotNil(t, d.Offered)
	d.Offered()
	assert.Equal(t, 25, count(t, d, "extension tubing"))
	d.Clean()
}

// The lot leads to who was given it: for sure, and where nobody can tell.
func TestWhoHasTheLot(t *testing.T) {
	d := stocked(t)
	v := supplies.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Supplies})
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "5")
	assert.Equal(t, []work.Target{{Room: work.Recall, Text: "C78"}}, d.Opened)

	found, err := d.Desk.FindRecalled(t.Context(), delivery.RecallNotice{Lot: "C77"})
	require.NoError(t, err)
	require.NotEmpty(t, found.Given, "every kit of the story holds cannulas of lot C77")
	for _, g := range found.Given {
		assert.True(t, g.Sure)
	}
}

func TestFormsSayWhatLacks(t *testing.T) {
	d := stocked(t)
	m := supplies.NewModel(d.Work)
	m.Load()
	in, ok := m.InHand("0")
	require.True(t, ok)
	form := m.ReceiveForm(in)
	wrong := form.Submit(form.Answered().With(map[string]string{"expires": "soon"}), func(error) { t.Fatal("nothing is done") })
	assert.Contains(t, wrong["lot"].Error(), "recall is found by it")
	assert.Contains(t, wrong["expires"].Error(), "2031-01-31")
	assert.Contains(t, wrong["count"].Error(), "how many")
	move := m.MoveForm(in)
	wrong = move.Submit(move.Answered().With(map[string]string{"count": "3", "to": "retired"}), func(error) { t.Fatal("nothing is done") })
	assert.Contains(t, wrong["why"].Error(), "thrown away")
	recall := m.RecallForm(in)
	require.Empty(t, recall.Submit(recall.Answered().With(map[string]string{"notice": "Q-9"}), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, "recall Q-9: give to nobody", m.Rows[0].Note)
	counted := m.CountForm(in)
	require.Empty(t, counted.Submit(counted.Answered().With(map[string]string{"lots": "none"}), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, 8, count(t, d, "cannula"))
	d.Clean()
}

func TestNothingCountedYet(t *testing.T) {
	d := uitest.NewEmpty(t)
	v := supplies.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Supplies})
	uitest.Shoot(t, win, "supplies-empty")
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "3")
	assert.Nil(t, win.Canvas().Overlays().Top(), "there is nothing to move")
}

func count(t *testing.T, d *uitest.Desk, supply string) (n int) {
	t.Helper()
	stock, err := d.Desk.Supplies(t.Context())
	require.NoError(t, err)
	for _, s := range stock {
		if inventory.SupplyKey(s.Supply) == supply {
			n += s.Count
		}
	}
	return n
}
