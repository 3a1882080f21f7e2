package papers

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
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
	for serial, why := range map[string]string{
		"CN00409": "quarantine: smells of smoke", "RG-3303": "recall 2030-07", "ZX 9981": "not ours: Other supplier", "CN00404": "soiled: bagged, apart",
	} {
		tag, err := c.HoldTag(d.Thing(serial))
		require.NoError(t, err, serial)
		assert.Equal(t, why, tag.Facts[0].Value, serial)
		assert.True(t, tag.Held)
	}
	_, err := c.HoldTag(d.Thing("CN00401"))
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err), "in use at home: nothing holds it")
	bench, err := c.BenchTag(d.Thing("CN00410"))
	require.NoError(t, err)
	assert.Contains(t, bench.Steps, "alarms with power failure")
	_, err = c.BenchTag(d.Thing("CN00401"))
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err))
}

func TestExchangeSlipHoldsWhatWasSigned(t *testing.T) {
	d := uitest.New(t)
	_, err := clerkOf(t, d).ExchangeSlip(context.Background(), 0)
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err))
	d.Act(delivery.Exchange{
		Plant: "works", Depot: "harbour", Driver: "Tam", Slip: "SG-8841",
		OutMore: []inventory.Counted{{Owner: "Gas works", Size: "US-D", Count: 1}}, Later: true, Accept: true,
	})
	slip, err := clerkOf(t, d).ExchangeSlip(context.Background(), 0)
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
