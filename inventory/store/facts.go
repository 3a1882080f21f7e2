package store

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
)

// About chooses facts: those about one item, person or run; those about a
// person and about every item the person ever had; or, with Says, those of a
// kind that are about the whole programme, with what takes any back. The zero
// value chooses every fact.
type About struct {
	Item   inventory.ItemID
	Person inventory.PersonID
	Around inventory.PersonID
	Run    inventory.RunID
	Says   string
	Things bool // about any item
	// Supplies chooses what is told of counted supplies, with every correction.
	Supplies bool
	// Courses chooses the orders and discharges of persons, with every
	// correction.
	Courses bool
	Known   time.Time // recorded by then; zero: all
	Since   time.Time // recorded after then; zero: all
	First   inventory.FactID
	Last    inventory.FactID // zero: all from First on
}

// Facts returns the chosen facts in the order of recording.
func Facts(tx *book.Tx, words inventory.Vocabulary, about About) ([]inventory.Fact, error) {
	where, args := about.where()
	return book.List(tx, func(row book.Row) (inventory.Fact, error) { return scanFact(row, words) }, `
		SELECT id, says, happened, happened_offset, recorded, by_whom, source,
		       corrects, item_id, person_id, run_id, body
		FROM fact
		WHERE `+where+`
		ORDER BY id`, args...)
}

func (a About) where() (string, []any) {
	terms, args := []string{"1 = 1"}, []any{}
	add := func(term string, arg any) {
		args = append(args, arg)
		terms = append(terms, fmt.Sprintf(term, len(args)))
	}
	if a.Item != "" {
		add("item_id = $%d", string(a.Item))
	}
	if a.Person != "" {
		add("person_id = $%d", string(a.Person))
	}
	if a.Around != "" {
		// Two ways in, each by its own index: an OR would read every fact.
		add(`id IN (
			SELECT id FROM fact WHERE person_id = $%[1]d
			UNION
			SELECT id FROM fact WHERE item_id IN (SELECT item_id FROM fact WHERE person_id = $%[1]d AND item_id IS NOT NULL))`, string(a.Around))
	}
	if a.Run != "" {
		add("run_id = $%d", string(a.Run))
	}
	if a.Says != "" {
		add("item_id IS NULL AND person_id IS NULL AND run_id IS NULL AND says IN ($%d, 'retracted')", a.Says)
	}
	if a.Supplies {
		terms = append(terms, `id IN (SELECT id FROM fact WHERE says IN ('supplied', 'supply counted', 'supply moved', 'supply recalled', 'given', 'discharged')
			UNION SELECT id FROM fact WHERE corrects IS NOT NULL)`)
	}
	if a.Courses {
		terms = append(terms, `id IN (SELECT id FROM fact WHERE says IN ('ordered', 'discharged') UNION SELECT id FROM fact WHERE corrects IS NOT NULL)`)
	}
	if a.Things {
		terms = append(terms, "item_id IS NOT NULL")
	}
	if !a.Known.IsZero() {
		add("recorded <= $%d", book.Instant(a.Known))
	}
	if !a.Since.IsZero() {
		add("recorded > $%d", book.Instant(a.Since))
	}
	if a.First != 0 {
		add("id >= $%d", int64(a.First))
	}
	if a.Last != 0 {
		add("id <= $%d", int64(a.Last))
	}
	return strings.Join(terms, " AND "), args
}

// Count returns how many facts the book holds.
func Count(tx *book.Tx) (int, error) {
	var n int
	err := tx.QueryRow(`SELECT count(*) FROM fact`).Scan(&n)
	return n, err
}

func scanFact(row book.Row, words inventory.Vocabulary) (inventory.Fact, error) {
	var (
		f                 inventory.Fact
		happened          book.Stamp
		recorded          int64
		says, body        string
		corrects          sql.Null[int64]
		item, person, run sql.Null[string]
	)
	err := row.Scan(&f.ID, &says, &happened.Millis, &happened.Offset, &recorded, &f.By, &f.Source,
		&corrects, &item, &person, &run, &body)
	if err != nil {
		return f, err
	}
	f.Happened, f.Recorded = happened.Time(), book.FromInstant(recorded)
	f.Corrects = inventory.FactID(corrects.V)
	f.Item, f.Person, f.Run = inventory.ItemID(item.V), inventory.PersonID(person.V), inventory.RunID(run.V)
	f.Statement, err = words.Read(says, []byte(body))
	if err != nil {
		return f, fmt.Errorf("fact %d: %w", f.ID, err)
	}
	return f, nil
}

// Fact returns one fact by its number.
func Fact(tx *book.Tx, words inventory.Vocabulary, id inventory.FactID) (inventory.Fact, error) {
	f, err := scanFact(tx.QueryRow(`
		SELECT id, says, happened, happened_offset, recorded, by_whom, source,
		       corrects, item_id, person_id, run_id, body
		FROM fact
		WHERE id = $1`, int64(id)), words)
	if errors.Is(err, sql.ErrNoRows) {
		return f, refusal.New(refusal.NotFound, fmt.Sprintf("There is no fact %d.", id), "Look the number up on the timeline.")
	}
	return f, err
}

// Borrowers returns the persons whose part in an item's story a fact at a time
// may change: who had it then, and everybody it speaks of from then on. A loan
// that was taken back is looked through.
func Borrowers(tx *book.Tx, item inventory.ItemID, from time.Time) ([]inventory.PersonID, error) {
	return book.List(tx, func(row book.Row) (inventory.PersonID, error) {
		var id inventory.PersonID
		return id, row.Scan(&id)
	}, `
		SELECT person_id FROM (
		    SELECT person_id FROM fact
		    WHERE item_id = $1 AND person_id IS NOT NULL AND happened >= $2
		    UNION
		    SELECT person_id FROM (
		        SELECT person_id FROM fact
		        WHERE item_id = $1 AND says = 'lent' AND happened < $2
		          AND id NOT IN (
		              SELECT taken.corrects FROM fact AS taken
		              WHERE taken.item_id = $1 AND taken.corrects IS NOT NULL AND taken.id NOT IN (
		                  SELECT again.corrects FROM fact AS again
		                  WHERE again.item_id = $1 AND again.corrects IS NOT NULL))
		        ORDER BY happened DESC, id DESC
		        LIMIT 1
		    ) AS holder
		) AS borrower
		ORDER BY person_id`, string(item), book.Instant(from))
}
