package store

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
)

// Filled returns the items that were filled since a time, each once.
func Filled(tx *book.Tx, since time.Time) ([]inventory.ItemID, error) {
	return book.List(tx, func(row book.Row) (inventory.ItemID, error) {
		var id inventory.ItemID
		return id, row.Scan(&id)
	}, `
		SELECT DISTINCT item_id FROM fact
		WHERE says = 'filled' AND item_id IS NOT NULL AND happened >= $1
		ORDER BY item_id`, book.Instant(since))
}
