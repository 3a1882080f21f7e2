package paperwork

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/tongue"
)

// A sentence that was signed stays as it was written; another language says its
// sort before it.
func TestExceptionsOfASlipAreSaidInEveryLanguage(t *testing.T) {
	for _, sort := range []string{
		inventory.ShortOf, inventory.OverCount, inventory.OwnMissing, inventory.WrongOne, inventory.Stranger, inventory.NotFull,
		inventory.WithoutLot, inventory.NotBagged, inventory.PastRequal, inventory.NotScanned, inventory.NotExpected,
	} {
		e := inventory.Exception{Sort: sort, Serial: "E-20117", Says: "E-20117 did not fit", Next: "Ask the plant."}
		own := noteIn(e, tongue.English())
		assert.Equal(t, e.Says, own.Says, sort)
		assert.Equal(t, e.Next, own.Next, sort)
		spoken := noteIn(e, tongue.Spanish())
		assert.NotEmpty(t, tongue.Spanish().Say("slip."+sort), sort)
		assert.Equal(t, tongue.Spanish().Say("slip."+sort)+": E-20117", spoken.Says, sort)
		assert.Equal(t, e.Says, spoken.Next, sort)
	}
}

// The steps that come with the program are said in every language, the
// programme's own as it wrote them.
func TestStepsOfTheBenchAreSaidInEveryLanguage(t *testing.T) {
	programme := delivery.NewProgramme()
	for _, kind := range inventory.Kinds() {
		steps := programme.BenchSteps(kind)
		assert.Equal(t, steps, stepsIn(steps, tongue.English()), kind)
		for i, said := range stepsIn(steps, tongue.Spanish()) {
			assert.NotEqual(t, steps[i], said, kind)
		}
	}
	assert.Equal(t, []string{"smell"}, stepsIn([]string{"smell"}, tongue.Spanish()))
}
