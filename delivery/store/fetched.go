package store

import (
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory/book"
)

// sayWhere puts the homes from which things are fetched into the words of the
// tasks.
func sayWhere(tx *book.Tx, tasks []delivery.OpenTask) error {
	for i, t := range tasks {
		if t.Fetch == "" {
			continue
		}
		from, err := address(tx, t.Fetch)
		if err != nil {
			return err
		}
		tasks[i].Why = fmt.Sprintf("%s, %s", t.Why, from.Where())
	}
	return nil
}
