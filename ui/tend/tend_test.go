package tend_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
	"lungwort/ui/tend"
	"lungwort/ui/uitest"
)

func tender(d *uitest.Desk, serial string) tend.Tender {
	return tend.Tender{Work: d.Work, Item: d.Thing(serial), Programme: uitest.Programme(), Done: func() {}}
}

func submit(f ask.Form, a ask.Answers) (wrong ask.Wrong, refused error, done bool) {
	wrong = f.Submit(f.Answered().With(a), func(err error) { refused, done = err, err == nil })
	return wrong, refused, done
}

func TestMoveFindsThePlaceByItsFirstLetters(t *testing.T) {
	for _, tc := range []struct {
		kind, name string
		want       inventory.Place
		wrong      string
	}{
		{"depot", "nes", "depot:ness", ""},
		{"depot", "", "", "which one: harbour, ness?"},
		{"depot", "mill", "", "no depot goes by that name: harbour, ness"},
		{"ward", "", "ward:6B", ""},
		{"vehicle", "van", "", "which one: van 1, van 2?"},
		{"vehicle", "VAN 2", "vehicle:van 2", ""},
		{"plant", "", "plant:works", ""},
		{"workshop", "", "workshop", ""},
		{"retired", "", "retired", ""},
	} {
		d := uitest.New(t)
		wrong, refused, done := submit(tender(d, "E-20112").Move(), ask.Answers{"kind": tc.kind, "name": tc.name})
		require.NoError(t, refused, "%+v", tc)
		if tc.wrong != "" {
			assert.EqualError(t, wrong["name"], tc.wrong, "%+v", tc)
			continue
		}
		require.Empty(t, wrong, "%+v", tc)
		assert.True(t, done)
		assert.Equal(t, tc.want, d.Thing("E-20112").Place, "%+v", tc)
	}
}

func TestRefillNeedsLotAndGauge(t *testing.T) {
	d := uitest.New(t)
	wrong, _, _ := submit(tender(d, "E-20113").Refill(), ask.Answers{})
	assert.ErrorContains(t, wrong["lot"], "recall")
	assert.ErrorContains(t, wrong["gauge"], "no cylinder is called full without it")
	assert.ErrorContains(t, wrong["depot"], "choose where it is")
	_, refused, done := submit(tender(d, "E-20113").Refill(), ask.Answers{"lot": "L1", "gauge": "4000", "depot": "harbour"})
	assert.False(t, done)
	assert.ErrorContains(t, refused, "not possible on E-20113")
	_, _, done = submit(tender(d, "E-20113").Refill(), ask.Answers{"lot": "L1", "gauge": "2000", "depot": "harbour"})
	assert.True(t, done)
	assert.Equal(t, tend.ReleaseIt, tend.Next(d.Thing("E-20113")), "back from the plant and filled")
}

func TestRecalledItemIsNeverReleased(t *testing.T) {
	d := uitest.New(t)
	_, refused, done := submit(tender(d, "RG-3303").Release(), ask.Answers{})
	assert.False(t, done)
	assert.ErrorContains(t, refused, "named by recall 2030-07")
}

func TestKeepBackInAHomeSaysSo(t *testing.T) {
	d := uitest.New(t)
	form := tender(d, "CN00401").Quarantine()
	assert.Contains(t, form.Before, "It is in a home")
	_, _, done := submit(form, ask.Answers{"why": "hums"})
	require.True(t, done)
	item := d.Thing("CN00401")
	assert.Equal(t, inventory.AtWork, item.State, "it stays lent until it is swapped")
	assert.Equal(t, "hums", item.Why)
}

func TestMissingEndsTheLoan(t *testing.T) {
	d := uitest.New(t)
	form := tender(d, "E-20101").Missing()
	assert.True(t, form.Danger)
	assert.Contains(t, form.Before, "the loan ends")
	_, _, done := submit(form, nil)
	require.True(t, done)
	assert.Equal(t, inventory.Missing, d.Thing("E-20101").State)
	for _, h := range d.Page("Jory").Care.Kit {
		assert.NotEqual(t, "E-20101", h.Spec.Serial)
	}
	d.Clean()
}

// What one cylinder is marked with is entered, shown again, and refused where it
// can't be.
func TestMarks(t *testing.T) {
	d := uitest.New(t)
	_, refused, _ := submit(tender(d, "E-20113").Plate(), ask.Answers{"full": "4000"})
	assert.ErrorContains(t, refused, "far above the usual 2,015 psi")
	_, refused, done := submit(tender(d, "E-20113").Plate(), ask.Answers{"contents": "660 L", "full": "1900"})
	require.NoError(t, refused)
	assert.True(t, done)
	assert.Equal(t, gas.Litres(660), d.Thing("E-20113").Spec.Marked.Contents)
	again := tender(d, "E-20113").Plate()
	assert.Equal(t, "660 L", again.Answered().Text("contents"))
	assert.Equal(t, "1900", again.Answered().Text("full"))
}
