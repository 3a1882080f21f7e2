package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// Maintenance falls due by hours or by date, whichever comes first; a meter that
// counts anew counts from zero.
func TestUpkeepByHoursAndByDate(t *testing.T) {
	now := time.Date(2030, time.March, 5, 16, 20, 0, 0, time.FixedZone("", -3*3600))
	p := delivery.Programme{Upkeep: []delivery.UpkeepRule{
		{Kind: inventory.Concentrator, What: "inner filter", Hours: 5000},
		{Kind: inventory.Concentrator, Model: "Still 5", What: "service", Days: 1095},
	}}
	machine := inventory.Item{Spec: inventory.Spec{Kind: inventory.Concentrator, Model: "still-5"}, Entered: now.AddDate(0, 0, -100)}
	for _, tc := range []struct {
		name   string
		change func(*inventory.Item)
		want   []string
	}{
		{"new", func(*inventory.Item) {}, nil},
		{"hours under", func(i *inventory.Item) { i.Hours = &inventory.Seen[float64]{Value: 4999} }, nil},
		{"hours reached", func(i *inventory.Item) { i.Hours = &inventory.Seen[float64]{Value: 5000} }, []string{"inner filter: 5000 h since the last, due every 5000 h"}},
		{"done before", func(i *inventory.Item) {
			i.Hours, i.Upkeep = &inventory.Seen[float64]{Value: 9000}, map[string]inventory.Kept{"inner filter": {At: now, Hours: 4500}}
		}, nil},
		{"new meter", func(i *inventory.Item) {
			i.Hours, i.Upkeep = &inventory.Seen[float64]{Value: 200}, map[string]inventory.Kept{"inner filter": {At: now, Hours: 4500}}
		}, nil},
		{"old", func(i *inventory.Item) { i.Entered = now.AddDate(0, 0, -1095) }, []string{"service: due since Tue 5 Mar 2030, every 1095 days"}},
		{"another model", func(i *inventory.Item) { i.Entered, i.Spec.Model = now.AddDate(-9, 0, 0), "Still 10" }, nil},
		{"not ours", func(i *inventory.Item) { i.Entered, i.Spec.Foreign = now.AddDate(-9, 0, 0), true }, nil},
	} {
		i := machine
		tc.change(&i)
		var got []string
		for _, due := range p.DueUpkeep(i, now) {
			got = append(got, due.Says)
		}
		assert.Equal(t, tc.want, got, tc.name)
	}
}

// What discharges that wait lack is counted piece by piece, after what is ready
// was taken.
func TestTonightLacks(t *testing.T) {
	p := delivery.Programme{Kits: []delivery.Kit{{Name: "all", Items: []delivery.Wanted{
		{Kind: inventory.Concentrator, Count: 1}, {Kind: inventory.Cylinder, Size: "US-E", Count: 2},
	}}}}
	thing := func(id inventory.ItemID, kind inventory.Kind) inventory.Item {
		i := inventory.Item{ID: id, State: inventory.Ready, Spec: inventory.Spec{Kind: kind}}
		if kind == inventory.Cylinder {
			i.Spec.Size = "US-E"
		} else {
			i.Spec.Rated = 5
		}
		return i
	}
	ready := []inventory.Item{thing("a", inventory.Concentrator), thing("b", inventory.Cylinder), thing("c", inventory.Cylinder), thing("d", inventory.Cylinder)}
	orders := []delivery.Ordered{{Rest: 2}, {Rest: 2, Exertion: 6}}
	assert.Equal(t, []delivery.Wanted{
		{Kind: inventory.Concentrator, Rated: 6, Count: 1}, {Kind: inventory.Cylinder, Size: "US-E", Count: 1},
	}, p.Tonight(orders, ready))
	assert.Empty(t, p.Tonight(nil, ready))
}
