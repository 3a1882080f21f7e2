package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
)

// In the days of an amnesty whoever is asked is told of it; after a death nobody
// is, and outside its days neither.
func TestAmnestyIsOfferedInItsDays(t *testing.T) {
	p := delivery.NewProgramme()
	p.Amnesty = delivery.Amnesty{From: "2030-03-04", Until: "2030-03-10", Where: "the quay"}
	since := time.Date(2030, 3, 1, 9, 0, 0, 0, time.UTC)
	care := delivery.Care{Phase: delivery.Over, Since: since, Kit: []delivery.Holding{{Item: "i1", Role: inventory.NotNeeded, Since: since}}}
	died := care
	died.Died = &delivery.Death{NotBefore: since}
	for _, c := range []struct {
		day   int
		care  delivery.Care
		offer bool
	}{{3, care, false}, {4, care, true}, {10, care, true}, {11, care, false}, {5, died, false}} {
		now := time.Date(2030, 3, c.day, 12, 0, 0, 0, time.UTC)
		hidden, any := delivery.HiddenIn(p, delivery.Person{}, delivery.Home{Care: c.care}, now)
		require.True(t, any)
		const words = "until Sun 10 Mar it can be left at the quay, no questions asked"
		if c.offer {
			assert.Contains(t, hidden.Step, words, "day %d", c.day)
		} else {
			assert.NotContains(t, hidden.Step, "no questions", "day %d", c.day)
		}
	}
	for _, wrong := range []delivery.Amnesty{{From: "soon", Until: "2030-03-10"}, {From: "2030-03-10", Until: "2030-03-04"}, {From: "2030-03-10"}} {
		p.Amnesty = wrong
		assert.Error(t, p.Check(), "%+v", wrong)
	}
}
