package storetest

import (
	"context"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

func (d *desk) serials(f items.Filter) (serials []string, total int) {
	d.t.Helper()
	found, total, err := d.Items(context.Background(), f)
	require.NoError(d.t, err)
	for _, i := range found {
		serials = append(serials, i.Spec.Serial)
	}
	return serials, total
}

func itemsAreFiltered(d *desk) {
	who, _ := d.discharged("Abara", "E-1")
	second, first := d.cylinder("E-2"), d.concentrator("CN-1")
	d.do(delivery.Quarantine{Item: d.concentrator("CN-2"), Why: "alarm"})
	d.cylinder("E_3")
	d.cylinder(`E'4"%!`)
	labels := d.do(delivery.Label{Items: []inventory.ItemID{second, first}})
	d.do(delivery.Retract{Fact: labels.Facts[1].ID, Why: "jammed"})
	for name, c := range map[string]struct {
		filter items.Filter
		want   []string
	}{
		"all, by tag":      {items.Filter{}, []string{"E-1", "E-2", "CN-1", "CN-2", "E_3", `E'4"%!`}},
		"by kind":          {items.Filter{Kind: inventory.Concentrator}, []string{"CN-1", "CN-2"}},
		"by size":          {items.Filter{Size: "US-E"}, []string{"E-1", "E-2", "E_3", `E'4"%!`}},
		"by state":         {items.Filter{States: []inventory.State{inventory.InQuarantine, inventory.HandedOver}}, []string{"E-1", "CN-2"}},
		"by place":         {items.Filter{Place: "depot:harbour", Kind: inventory.Concentrator}, []string{"CN-1", "CN-2"}},
		"by person":        {items.Filter{Person: who}, []string{"E-1"}},
		"by text":          {items.Filter{Text: "cn"}, []string{"CN-1", "CN-2"}},
		"by two words":     {items.Filter{Text: "still QUARANTINE"}, []string{"CN-2"}},
		"unlabelled":       {items.Filter{Unlabelled: true, Kind: inventory.Cylinder}, []string{"E-1", "E_3", `E'4"%!`}},
		"label taken back": {items.Filter{Unlabelled: true, Text: "cn"}, []string{"CN-1", "CN-2"}},
		"new since":        {items.Filter{Since: d.now, Text: "cn"}, []string{"CN-1", "CN-2"}},
		"none so new":      {items.Filter{Since: d.now.Add(time.Second)}, nil},
		"nothing":          {items.Filter{Text: "nowhere"}, nil},
		"a sign of LIKE _": {items.Filter{Text: "E_3"}, []string{"E_3"}},
		"a sign of LIKE %": {items.Filter{Text: "%"}, []string{`E'4"%!`}},
		"quotes":           {items.Filter{Text: `'4"`}, []string{`E'4"%!`}},
		"exclamation":      {items.Filter{Text: "!"}, []string{`E'4"%!`}},
	} {
		got, total := d.serials(c.filter)
		assert.Equal(d.t, c.want, got, name)
		assert.Equal(d.t, len(c.want), total, name)
	}
	require.NoError(d.t, d.Book().Read(context.Background(), func(tx *book.Tx) error {
		for state, want := range map[inventory.State]map[gas.SizeCode]int{
			inventory.Ready: {"US-E": 3}, inventory.HandedOver: {"US-E": 1}, inventory.InQuarantine: {},
		} {
			got, err := items.CountBySize(tx, state)
			require.NoError(d.t, err)
			assert.Equal(d.t, want, got, state)
		}
		return nil
	}))
	few, total := d.serials(items.Filter{Limit: 2})
	assert.Equal(d.t, []string{"E-1", "E-2"}, few)
	assert.Equal(d.t, 6, total, "a limit does not change how many there are")

	tallies, err := d.Tallies(context.Background())
	require.NoError(d.t, err)
	assert.Equal(d.t, []items.Tally{
		{Kind: inventory.Concentrator, State: inventory.InQuarantine, Count: 1},
		{Kind: inventory.Concentrator, State: inventory.Ready, Count: 1},
		{Kind: inventory.Cylinder, Size: "US-E", State: inventory.HandedOver, Count: 1},
		{Kind: inventory.Cylinder, Size: "US-E", State: inventory.Ready, Count: 3},
	}, tallies)
}

func itemsAreFound(d *desk) {
	ctx := context.Background()
	id := d.cylinder("E-2011O")
	for _, name := range []string{"E-2011O", "e2011o", " E 2011-O ", string(id)} {
		item, err := d.Item(ctx, name, 0)
		require.NoError(d.t, err, name)
		assert.Equal(d.t, id, item.ID, name)
	}
	byTag, err := d.Item(ctx, "", d.item(id).Tag)
	require.NoError(d.t, err)
	assert.Equal(d.t, id, byTag.ID)

	near, err := d.Near(ctx, "E20110")
	require.NoError(d.t, err)
	require.Len(d.t, near, 1)
	same, err := d.Near(ctx, "E-2011O")
	require.NoError(d.t, err)
	assert.Empty(d.t, same, "the same is not near")
	for _, name := range []string{"E20110", "E9", "", "'; DROP TABLE fact; --"} {
		_, err = d.Item(ctx, name, 0)
		assert.Error(d.t, err, "%q", name)
	}
	require.NoError(d.t, d.Book().Read(ctx, func(tx *book.Tx) error {
		blank, err := items.BySerial(tx, " - ")
		assert.Empty(d.t, blank, "no serial is not a serial")
		return err
	}))
}

func personsAreSearched(d *desk) {
	d.person("Đà Nẵng", "Thị", "Rue de l'Église 3", "555-0101")
	d.person("O'Neill", "Bríd", "Kelp Street 22", "(555) 0102")
	d.person("Sørensen", "Åse", "Straße 7", "555.0103")
	d.person("100% Ash", "Ludo", "Rope_Walk 3", "")
	for text, want := range map[string][]string{
		"da nang":      {"Đà Nẵng, Thị"},
		"ĐÀ":           {"Đà Nẵng, Thị"},
		"l'eglise":     {"Đà Nẵng, Thị"},
		"brid o'neill": {"O'Neill, Bríd"},
		"5550102":      {"O'Neill, Bríd"},
		"sorensen":     {"Sørensen, Åse"},
		"strasse 7":    {"Sørensen, Åse"},
		"0103 aase":    nil,
		"100%":         {"100% Ash, Ludo"},
		"rope_walk":    {"100% Ash, Ludo"},
		"kelp":         {"O'Neill, Bríd"},
		"k%p":          nil,
		"' or '1'='1":  nil,
	} {
		found, err := d.Homes(context.Background(), text, 10)
		require.NoError(d.t, err, text)
		var names []string
		for _, f := range found {
			names = append(names, f.Person.Name())
		}
		assert.Equal(d.t, want, names, text)
	}
	all, err := d.Homes(context.Background(), "", 3)
	require.NoError(d.t, err)
	assert.Len(d.t, all, 3)
}
