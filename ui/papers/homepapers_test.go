package papers

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tongue"
	"lungwort/ui/uitest"
)

func clerkOf(t *testing.T, d *uitest.Desk) paperwork.Clerk {
	t.Helper()
	c, err := paperwork.NewClerk(context.Background(), d.Desk, d.Now())
	require.NoError(t, err)
	return c
}

func homePaper(t *testing.T, d *uitest.Desk, id, given string) (paperwork.Printable, error) {
	t.Helper()
	return clerkOf(t, d).HomePaper(context.Background(), id, paperwork.Asked{Person: d.Persons[given], By: "desk", Tongue: tongue.Spanish()})
}

func TestProofOfDeliveryNamesWhoSigned(t *testing.T) {
	d := uitest.New(t)
	made, err := homePaper(t, d, "delivery-proof", "Jory")
	require.NoError(t, err)
	proof := made.(paper.DeliveryProof)
	require.Len(t, proof.Things, 2)
	assert.True(t, proof.Things[0].Signed.IsZero(), "nobody signed yet")
	assert.Contains(t, proof.Things[0].What, "cilindro", "in the household's language")
	d.Act(delivery.Prove{Person: d.Persons["Jory"], Signed: true, Name: "Bo Vale", Relationship: "son"})
	made, err = homePaper(t, d, "delivery-proof", "Jory")
	require.NoError(t, err)
	for _, thing := range made.(paper.DeliveryProof).Things {
		assert.Equal(t, "Bo Vale, son", thing.SignedBy)
	}
	_, err = homePaper(t, d, "delivery-proof", "Nia")
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "nothing was brought to her yet")
}

func TestReturnReceiptHoldsTheLastDayOnWhichAnythingCame(t *testing.T) {
	d := uitest.New(t)
	made, err := homePaper(t, d, paperwork.ReturnReceipt, "Mira")
	require.NoError(t, err)
	receipt := made.(paper.ReturnReceipt)
	require.Len(t, receipt.Returned, 1)
	assert.Equal(t, "E-20110", receipt.Returned[0].Serial)
	assert.Equal(t, "700 psi", receipt.Returned[0].Gauge)
	assert.Len(t, receipt.Missing, 2, "cylinder and machine are still with her")
	_, err = homePaper(t, d, paperwork.ReturnReceipt, "Nia")
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err))
}

// TestNoLetterAfterADeath: nothing is asked by letter of a home where somebody
// died; the one person named is rung, once.
func TestNoLetterAfterADeath(t *testing.T) {
	d := uitest.New(t)
	made, err := homePaper(t, d, "collect-letter", "Mira")
	require.NoError(t, err)
	assert.Len(t, made.(paper.HomeLetter).Things, 2)
	assert.False(t, made.(paper.HomeLetter).Valued)
	made, err = homePaper(t, d, "value-letter", "Mira")
	require.NoError(t, err)
	assert.True(t, made.(paper.HomeLetter).Valued, "room for what each is worth")
	made, err = homePaper(t, d, paperwork.RecallLetter, "Rhea")
	require.NoError(t, err)
	assert.Contains(t, made.(paper.HomeLetter).Before[0], "2030-07")
	_, err = homePaper(t, d, "collect-letter", "Jory")
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err), "what is in use is not asked for")

	for _, given := range []string{"Mira", "Rhea"} {
		d.Act(delivery.Die{Person: d.Persons[given], ToldBy: "ward", Contact: "daughter", Phone: "555-0177", NotBefore: d.Now().AddDate(0, 0, 14)})
	}
	for paper, given := range map[string]string{"collect-letter": "Mira", "value-letter": "Mira", paperwork.RecallLetter: "Rhea"} {
		_, err := homePaper(t, d, paper, given)
		assert.Equal(t, refusal.Conflict, refusal.KindOf(err), paper)
		assert.ErrorContains(t, err, "died", paper)
	}
}

func TestTagsSayWhyAThingIsHeld(t *testing.T) {
	d := uitest.New(t)
	c := clerkOf(t, d)
	d.Act(delivery.Return{Item: d.Things["CN00404"], Depot: "harbour", Hours: new(d.Thing("CN00404").Hours.Value), Soiled: true})
	page := func(serial string) store.ItemPage { return store.ItemPage{Item: d.Thing(serial)} }
	for serial, why := range map[string][2]string{
		"CN00409": {"quarantine: smells of smoke", "en cuarentena: smells of smoke"},
		"RG-3303": {"recall 2030-07", "retirada 2030-07"},
		"ZX 9981": {"not ours: Other supplier", "no es nuestro: Other supplier"},
		"CN00404": {"soiled: bagged, apart", "sucio: en bolsa, aparte"},
	} {
		for i, spoken := range []tongue.Tongue{tongue.English(), tongue.Spanish()} {
			tag, err := c.HoldTag(page(serial), spoken)
			require.NoError(t, err, serial)
			assert.Equal(t, why[i], tag.Facts[0].Value, serial)
			assert.True(t, tag.Held)
		}
	}
	_, err := c.HoldTag(page("CN00401"), tongue.English())
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err), "in use at home: nothing holds it")
	bench, err := c.BenchTag(page("CN00410"), tongue.English())
	require.NoError(t, err)
	assert.Contains(t, bench.Steps, "alarms with power failure")
	_, err = c.BenchTag(page("CN00401"), tongue.English())
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err))
}

// TestTagsSpeakAsTheDepotDoes: the settings say the language; a name nobody has a
// file for is refused with those there are.
func TestTagsSpeakAsTheDepotDoes(t *testing.T) {
	d := uitest.New(t)
	c := clerkOf(t, d)
	spoken, note, err := c.DepotTongue("", "")
	require.NoError(t, err)
	assert.True(t, spoken.Original())
	assert.Empty(t, note)
	c.Programme.DepotLanguage = "Español"
	spoken, note, err = c.DepotTongue("", "")
	require.NoError(t, err)
	assert.Equal(t, tongue.Spanish().Name, spoken.Name)
	assert.Contains(t, note, "Nobody has approved")
	spoken, _, err = c.DepotTongue("en", "")
	require.NoError(t, err)
	assert.True(t, spoken.Original(), "named, it goes before the settings")
	c.Programme.DepotLanguage = "Wolof"
	_, _, err = c.DepotTongue("", "")
	assert.ErrorContains(t, err, "no papers in Wolof")
}

func TestExchangeSlipHoldsWhatWasSigned(t *testing.T) {
	d := uitest.New(t)
	_, err := clerkOf(t, d).ExchangeSlip(context.Background(), 0, tongue.English())
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err))
	d.Act(delivery.Exchange{
		Plant: "works", Depot: "harbour", Driver: "Tam", Slip: "SG-8841",
		OutMore: []inventory.Counted{{Owner: "Gas works", Size: "US-D", Count: 1}}, Later: true, Accept: true,
	})
	slip, err := clerkOf(t, d).ExchangeSlip(context.Background(), 0, tongue.English())
	require.NoError(t, err)
	assert.Equal(t, []paper.SlipLine{{Owner: "Gas works", Size: "US-D", Out: 1}}, slip.Lines)
	assert.Equal(t, "SG-8841", slip.Theirs)
}

// TestPapersSayHowOldTheirFactsAre: that is when the last fact was recorded, not
// when the paper is printed.
func TestPapersSayHowOldTheirFactsAre(t *testing.T) {
	d := uitest.New(t)
	last := d.Now()
	d.Act(delivery.Call{Person: d.Persons["Jory"], Answered: true})
	d.At(last.Add(3 * time.Hour))
	made, err := homePaper(t, d, "hand-over", "Jory")
	require.NoError(t, err)
	head := made.(paper.HandOver).Head
	assert.Equal(t, d.Now(), head.Printed)
	assert.True(t, last.Equal(head.FactsAsOf), head.FactsAsOf)
}
