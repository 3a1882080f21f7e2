package receive

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func newModel(t *testing.T, kind inventory.Kind) (*uitest.Desk, *Model) {
	t.Helper()
	d := uitest.New(t)
	m := NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	m.SetKind(kind)
	return d, m
}

func last(d *uitest.Desk) work.Scan { return d.Scans[len(d.Scans)-1] }

func TestScanScanScan(t *testing.T) {
	d, m := newModel(t, inventory.Cylinder)
	m.Size = "E"
	m.Coming.Owner = "Gas works"
	for n := range 5 {
		assert.True(t, m.Scan(fmt.Sprintf("E-301%02d\r\n", n)))
		assert.Equal(t, n+1, m.Count())
		assert.Equal(t, work.Scan{Verdict: scene.Holds, Title: fmt.Sprintf("%d  ·  E-301%02d", n+1, n), Detail: "oxygen cylinder US-E"}, last(d))
	}
	item := d.Thing("E-30104")
	assert.Equal(t, inventory.InQuarantine, item.State)
	assert.Equal(t, inventory.At(inventory.AtDepot, "harbour"), item.Place)
	assert.Equal(t, "Gas works", item.Spec.Owner)

	m.Scan("E-30102")
	assert.Equal(t, scene.Short, last(d).Verdict, "a second time is no second thing")
	assert.Contains(t, last(d).Detail, "E-30102 is in the book already")
	assert.Equal(t, 5, m.Count())

	assert.False(t, m.Scan("Kestrel"), "a name goes its ordinary way")
	assert.False(t, m.Scan("LWP.RUN.R00001.X"))
	d.Clean()
}

func TestWhatIsNotClearIsAskedAndStopsNobody(t *testing.T) {
	d, m := newModel(t, inventory.Concentrator)
	for _, serial := range []string{"CN77001", "CN77002", "CN77003"} {
		m.Scan(serial)
	}
	own := tag.Mint(d.Thing("CN00408").Tag).Payload()
	for _, c := range []struct {
		scan    string
		outcome Outcome
		why     string
	}{
		{"CN0O408", Asked, "Close to CN00408"},
		{"4006381333931", Asked, "number of the product"},
		{"X9", Asked, "Not like the other serials"},
		{own, Not, "our label on CN00408"},
		{own[:len(own)-2] + "00", Not, "meant as a label of ours"},
		{"9.01E+09", Not, "last digits are gone"},
		{"CN77004", Taken, ""},
	} {
		m.Scan(c.scan)
		assert.Equal(t, c.outcome, m.Entries[0].Outcome, c.scan)
		assert.Contains(t, m.Entries[0].Why, c.why, c.scan)
	}
	assert.Equal(t, 4, m.Count())
	assert.Equal(t, 3, m.Open())

	m.Scan("CN0O408") // the same plate once more: that is an answer
	assert.Equal(t, 5, m.Count())
	m.Take("X9")
	assert.Equal(t, 6, m.Count())
	m.Leave("4006381333931")
	assert.Zero(t, m.Open())
	d.Clean()
}

func TestNothingIsTakenBeforeItIsSaidWhatItIs(t *testing.T) {
	d, m := newModel(t, "")
	m.Scan("OX-9001")
	assert.Equal(t, Asked, m.Entries[0].Outcome)
	m.SetKind(inventory.Cylinder)
	m.Take("OX-9001")
	assert.Contains(t, m.Entries[0].Why, "size")
	m.Size = "Q7"
	m.Take("OX-9001")
	assert.Contains(t, m.Entries[0].Why, "no size of cylinder")
	m.SetKind(inventory.Oximeter)
	m.Take("OX-9001")
	assert.Equal(t, 1, m.Count())
	assert.Len(t, m.Entries, 1)
	assert.Equal(t, inventory.Oximeter, d.Thing("OX-9001").Spec.Kind)
}

// The codes are those of the GS1 General Specifications' form with GS1's own
// sample number; GS stands for the separator.
func TestAMakersCodeFillsEverything(t *testing.T) {
	const gs = "\x1d"
	d, m := newModel(t, inventory.Concentrator)
	m.Rated, m.Coming.Model = "5 L/min", "Still 5"
	m.Scan("]d2010952123454321311300115" + "10B7" + gs + "21CN99001")
	assert.Contains(t, last(d).Detail, "A new product number. Is it concentrator to 5 L/min Still 5?")
	m.Scan("]d2010952123454321311300115" + "10B7" + gs + "21CN99001") // yes, it is
	got := d.Thing("CN99001").Spec
	assert.Equal(t, inventory.Spec{
		Kind: inventory.Concentrator, Model: "Still 5", Rated: 5, Serial: "CN99001", GTIN: "09521234543213", Lot: "B7", Made: "2030-01-15",
	}, got)

	again := NewModel(d.Work) // another day: the product is known
	again.Load()
	again.SetKind(inventory.Oximeter)
	again.Scan("]d20109521234543213" + "21CN99002")
	got = d.Thing("CN99002").Spec
	assert.Equal(t, "Still 5", got.Model)
	assert.Equal(t, inventory.Concentrator, got.Kind, "what the code says counts")

	again.Scan("]E09521234543213") // the number of the product alone
	assert.Equal(t, "concentrator to 5 L/min Still 5", last(d).Title)
	assert.Equal(t, inventory.Concentrator, again.Coming.Kind)
	again.Scan("CN99003")
	assert.Equal(t, "09521234543213", d.Thing("CN99003").Spec.GTIN)
	assert.Equal(t, 2, again.Count())

	again.Scan("(01)00614141000012")
	assert.Equal(t, "New product", last(d).Title)
	d.Clean()
}

func TestTheLastIsUndone(t *testing.T) {
	d, m := newModel(t, inventory.Regulator)
	m.Scan("RG-5001")
	m.Scan("RG-5002")
	m.UndoLast()
	assert.Equal(t, 1, m.Count())
	assert.Equal(t, "RG-5002 is out again", last(d).Title)
	m.Scan("RG-5002")
	assert.Equal(t, 2, m.Count())
	m.Next()
	assert.Empty(t, m.Entries)
	m.UndoLast()
	assert.Empty(t, d.Refused)
	assert.Equal(t, "RG-5002", d.Thing("RG-5002").Spec.Serial)
	d.Clean()
}

func TestViewByKeys(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Receive})
	uitest.Type(win, "2") // cylinders
	require.Equal(t, inventory.Cylinder, v.model.Coming.Kind)
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "US-D")
	assert.Equal(t, "US-D", v.model.Size)
	for n := range 4 {
		v.Scan(fmt.Sprintf("D-88%02d", n))
	}
	v.Scan("D-8801")
	v.Scan("X1")
	assert.Equal(t, "4 received", v.count.Text)
	assert.Equal(t, "1 to look at", v.open.Text)
	uitest.Shoot(t, win, "receive")
	win.Canvas().Focus(v.rows.Keyboard())
	uitest.Press(win, fyne.KeyHome)
	uitest.Type(win, "1") // take it
	assert.Equal(t, 5, v.model.Count())
	uitest.Type(win, "3")
	assert.Equal(t, 4, v.model.Count())
	uitest.Type(win, "4")
	assert.Equal(t, work.Target{Room: work.Labels, Text: "bare"}, d.Opened[len(d.Opened)-1])
	d.Clean()
}
