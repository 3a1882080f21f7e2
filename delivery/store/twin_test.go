package store_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

// A second record of a person is found by name or record number, also of one who
// was in the book before it kept by what they are compared; of somebody who was
// erased nothing is kept.
func TestTwinsAreFoundInAnOlderBook(t *testing.T) {
	path, who, _ := lived(t)
	b, err := book.Open(context.Background(), path, options())
	require.NoError(t, err)
	d := &desk{store.NewDesk(b), t, booktest.Start}
	page, err := d.Page(context.Background(), who, d.now)
	require.NoError(t, err)
	first := page.Person
	first.Record = "417"
	d.do(delivery.Register{Person: first, Address: page.Address})
	require.NoError(t, b.Close())
	behind(t, path,
		`DROP INDEX identity_name_key`, `DROP INDEX identity_record_key`,
		`ALTER TABLE identity DROP COLUMN name_key`, `ALTER TABLE identity DROP COLUMN record_key`,
		`DELETE FROM book_migration WHERE file LIKE '022_twins%'`)

	b, err = book.Open(context.Background(), path, options())
	require.NoError(t, err)
	defer b.Close()
	d = &desk{store.NewDesk(b), t, booktest.Start}
	again := first
	again.ID, again.Record = "", "000417"
	second := d.do(delivery.Register{Person: again, Address: delivery.Address{Street: "Kelp Street 22", Mains: delivery.MainsYes}}).Facts[0].Person
	twins := func() (found []inventory.PersonID) {
		require.NoError(t, d.Ask(context.Background(), d.now, func(v delivery.View) error {
			persons, err := v.Twins(second)
			for _, p := range persons {
				found = append(found, p.ID)
			}
			return err
		}))
		return found
	}
	assert.Equal(t, []inventory.PersonID{who}, twins())

	d.do(delivery.Erase{Person: who, Why: "asked for", Sooner: true})
	assert.Empty(t, twins())
	kept := 0
	require.NoError(t, b.Read(context.Background(), func(tx *book.Tx) error {
		return tx.QueryRow(`SELECT length(name_key) + length(record_key) FROM identity WHERE id = $1`, string(who)).Scan(&kept)
	}))
	assert.Zero(t, kept)
}
