package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// TestSinceTellsDifferencesOnly: what was written since, whenever it happened,
// folded into what stands otherwise; a day on which nothing was written has no
// news.
func TestSinceTellsDifferencesOnly(t *testing.T) {
	d := newDesk(t)
	who := promisedAt(d, d.now.Add(time.Hour))
	since := func(from time.Time) map[string][]string {
		news, err := d.Since(context.Background(), from, d.now)
		require.NoError(t, err)
		says := map[string][]string{}
		for _, n := range news {
			says[n.Name] = n.Says
		}
		return says
	}
	all := since(d.now.Add(-time.Hour)) // the book's own clock stands still at the start
	page := d.watchPage(who)
	assert.Contains(t, all[page.Person.Name()], "open: deliver (discharged)")
	assert.Empty(t, since(d.now.Add(time.Hour)), "nothing was recorded after that")

	then := page.Care
	d.do(delivery.Call{Person: who, Answered: true, Flow: new(gas.Flow(2)), Gauge: new(gas.PSI(900))})
	says := d.watchPage(who).Care.News(then, d.now)
	require.Len(t, says, 2)
	assert.Contains(t, says[0], "900 psi told")
	assert.Contains(t, says[1], "call: flow 2 L/min")
	d.clean()
}
