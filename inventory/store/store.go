// Package store keeps the inventory in a book: facts as they come, and what
// is derived from them beside, written in the same transaction.
package store

import (
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/inventory/store/migration"
)

// Migrations is the inventory's part of the book.
func Migrations() book.Set {
	return book.Set{Name: "inventory", Files: migration.Files}
}

// Next returns the next number of a counter, from 1.
func Next(tx *book.Tx, counter string) (int64, error) {
	var n int64
	err := tx.QueryRow(`
		INSERT INTO counter (name, last) VALUES ($1, 1)
		ON CONFLICT (name) DO UPDATE SET last = counter.last + 1
		RETURNING last`, counter).Scan(&n)
	return n, err
}

// NewItem returns an id and a tag number no item has yet.
func NewItem(tx *book.Tx) (inventory.ItemID, uint32, error) {
	n, err := Next(tx, "item")
	return inventory.ItemID(fmt.Sprintf("i%06d", n)), uint32(n), err
}

// Append writes facts as they come, and returns them with their numbers and
// the time of recording, as they would be read back. Whoever appends brings
// what they touch up to date in the same transaction. There is one writer, and
// no fact is ever removed: the numbers go on after the last. The time of
// recording never goes back, whatever a machine's clock does: what was known at
// a moment is told by it.
func Append(tx *book.Tx, facts []inventory.Fact) ([]inventory.Fact, error) {
	last, newest, err := Newest(tx)
	if err != nil {
		return nil, err
	}
	recorded := tx.Now
	if newest.After(recorded) {
		recorded = newest
	}
	rows := make([][]any, len(facts))
	for i := range facts {
		f := &facts[i]
		body, err := json.Marshal(f.Statement)
		if err != nil {
			return nil, fmt.Errorf("write %s: %w", f.Statement.Says(), err)
		}
		happened := book.StampOf(f.Happened)
		f.ID, f.Recorded, f.Happened = last+inventory.FactID(i+1), recorded, happened.Time()
		rows[i] = []any{
			int64(f.ID), f.Statement.Says(), happened.Millis, happened.Offset, book.Instant(recorded), f.By, string(f.Source),
			orNull(int64(f.Corrects)), orNull(string(f.Item)), orNull(string(f.Person)), orNull(string(f.Run)), string(body),
		}
	}
	return facts, tx.InsertAll(`fact (id, says, happened, happened_offset, recorded, by_whom, source,
		corrects, item_id, person_id, run_id, body)`, rows)
}

// Newest returns the number of the newest fact and when it was recorded; zero
// in an empty book.
func Newest(tx *book.Tx) (inventory.FactID, time.Time, error) {
	var id, recorded int64
	err := tx.QueryRow(`SELECT id, recorded FROM fact ORDER BY id DESC LIMIT 1`).Scan(&id, &recorded)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return 0, time.Time{}, nil
	case err != nil:
		return 0, time.Time{}, err
	}
	return inventory.FactID(id), book.FromInstant(recorded), nil
}

func orNull[T comparable](v T) sql.Null[T] {
	var zero T
	return sql.Null[T]{V: v, Valid: v != zero}
}

// Refold derives one item anew from its facts and stores it. An item of which
// every fact was taken back was never in the book.
func Refold(tx *book.Tx, words inventory.Vocabulary, id inventory.ItemID) error {
	facts, err := Facts(tx, words, About{Item: id})
	if err != nil {
		return err
	}
	if len(inventory.Standing(facts)) == 0 {
		_, err := tx.Exec(`DELETE FROM item_now WHERE item_id = $1`, string(id))
		return err
	}
	return Put(tx, inventory.Fold(id, facts))
}

// Columns are the columns of item_now, its key first.
const Columns = "item_id, tag, serial_key, near_key, kind, size, owner, state, place, person_id, folded, asks, body"

// Row returns what item_now keeps of an item, in the order of Columns.
func Row(i inventory.Item) ([]any, error) {
	body, err := json.Marshal(i)
	return []any{
		string(i.ID), int64(i.Tag), inventory.SerialKey(i.Spec.Serial), inventory.NearKey(i.Spec.Serial),
		string(i.Spec.Kind), string(i.Spec.Size), i.Spec.Owner,
		string(i.State), string(i.Place), string(i.Person), searched(i), inventory.Open(i.Questions), string(body),
	}, err
}

// Put stores an item as it was derived from all its facts.
func Put(tx *book.Tx, i inventory.Item) error {
	row, err := Row(i)
	if err != nil {
		return err
	}
	_, err = tx.Exec(`
		INSERT INTO item_now (`+Columns+`)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)
		ON CONFLICT (item_id) DO UPDATE SET
		    tag = excluded.tag, serial_key = excluded.serial_key, near_key = excluded.near_key,
		    kind = excluded.kind, size = excluded.size, owner = excluded.owner,
		    state = excluded.state, place = excluded.place, person_id = excluded.person_id,
		    folded = excluded.folded, asks = excluded.asks, body = excluded.body`, row...)
	return err
}

// Item returns an item by its id.
func Item(tx *book.Tx, id inventory.ItemID) (inventory.Item, error) {
	item, err := scanItem(tx.QueryRow(`SELECT body FROM item_now WHERE item_id = $1`, string(id)))
	if errors.Is(err, sql.ErrNoRows) {
		return item, refusal.New(refusal.NotFound, fmt.Sprintf("No item %s is in the book.", id), "Scan its label or type its serial.")
	}
	return item, err
}

func scanItem(row book.Row) (inventory.Item, error) {
	var body string
	var item inventory.Item
	if err := row.Scan(&body); err != nil {
		return item, err
	}
	return item, json.Unmarshal([]byte(body), &item)
}
