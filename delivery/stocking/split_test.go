package stocking_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/stocking"
	"lungwort/inventory"
)

// The days of Freireich's trial of 1963 (6-MP, Blood 21): as the loans of one
// ward they give the published product-limit estimate, those of the other ward
// the plain shares of the placebo group, which was followed to the end.
func TestSplitsAreTheProductLimitOfEachGroup(t *testing.T) {
	ended := []float64{6, 6, 6, 7, 10, 13, 16, 22, 23}
	open := []float64{6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35}
	placebo := []float64{1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23}
	homes := stocking.Homes{}
	now := on(40)
	var cycles []stocking.Cycle
	lend := func(ward string, days float64, over bool) {
		who := inventory.PersonID(ward + string(rune('a'+len(cycles))))
		c := stocking.Cycle{Item: "i", Person: who, Lent: on(40 - days)}
		if over {
			c.Lent, c.Back = on(1), on(1+days)
		}
		homes[who] = []stocking.Home{{From: c.Lent, Ward: ward, Flow: 2}}
		cycles = append(cycles, c)
	}
	for _, d := range ended {
		lend("6-MP", d, true)
	}
	for _, d := range open {
		lend("6-MP", d, false)
	}
	for _, d := range placebo {
		lend("placebo", d, true)
	}
	o := stocking.Outlook{Now: now, Homes: homes, Shelves: []stocking.Shelf{{Kind: inventory.Concentrator, Cycles: cycles}}}
	splits := o.Splits(o.Loans())
	require.Len(t, splits, 4, "one band of flow, two wards, one kit: %v", splits)
	assert.Equal(t, []string{"flow", "ward", "ward", "kit"}, []string{splits[0].By, splits[1].By, splits[2].By, splits[3].By})
	assert.Equal(t, "to 2 L/min", splits[0].Of)
	assert.Equal(t, "concentrator alone", splits[3].Of)
	mp, other := splits[1], splits[2]
	assert.Equal(t, []int{21, 12}, []int{mp.Loans, mp.Open})
	assert.InDelta(t, 23, float64(mp.Median), 1e-9)
	assert.InDelta(t, 0.690, mp.Past, 0.0005, "S(13), which holds until 16")
	assert.Less(t, mp.PastLow, mp.Past)
	assert.Greater(t, mp.PastHigh, mp.Past)
	assert.Equal(t, []int{21, 0}, []int{other.Loans, other.Open})
	assert.InDelta(t, 8, float64(other.Median), 1e-9)
	assert.InDelta(t, 4.0/21, other.Past, 1e-9)
}

// A loan of a second time at home counts for the ward and the flow of that time.
func TestALoanBelongsToItsTimeAtHome(t *testing.T) {
	homes := stocking.Homes{"p": {{From: on(0), Ward: "3", Flow: 1}, {From: on(20), Ward: "6B", Flow: 5}}}
	o := stocking.Outlook{Now: on(40), Homes: homes, Shelves: []stocking.Shelf{
		{Kind: inventory.Cylinder, Cycles: []stocking.Cycle{{Person: "p", Lent: on(1), Back: on(8)}, {Person: "p", Lent: on(20)}}},
		{Kind: inventory.Concentrator, Cycles: []stocking.Cycle{{Person: "p", Lent: on(20)}, {Person: "q", Lent: on(2)}}},
	}}
	count := map[string]int{}
	for _, s := range o.Splits(o.Loans()) {
		count[s.By+": "+s.Of] = s.Loans
	}
	assert.Equal(t, map[string]int{
		"flow: to 2 L/min": 1, "flow: 4 L/min or more": 2, "flow: not known": 1,
		"ward: 3": 1, "ward: 6B": 2, "ward: not known": 1,
		"kit: cylinder alone": 1, "kit: concentrator and cylinder": 2, "kit: concentrator alone": 1,
	}, count)
}
