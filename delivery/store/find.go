package store

import (
	"context"
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// Found is a person with the home and where the person stands.
type Found struct {
	Person  delivery.Person
	Address delivery.Address
	Care    delivery.Care
}

// findPersons returns the persons whose identity or home holds each word.
func findPersons(tx *book.Tx, words []string, limit int) ([]Found, error) {
	if len(words) > 0 && !sightOf(tx).Persons {
		return nil, nil // a name that finds somebody is a name shown
	}
	where, args := []string{"person_now.phase <> $1"}, []any{string(delivery.Joined)}
	for _, word := range words {
		args = append(args, "%"+items.EscapeLike(word)+"%")
		where = append(where, fmt.Sprintf(
			`(who.folded LIKE $%[1]d ESCAPE '!' OR (home.folded IS NOT NULL AND home.folded LIKE $%[1]d ESCAPE '!'))`, len(args)))
	}
	args = append(args, limit)
	return book.List(tx, seenFound(tx), fmt.Sprintf(`
		SELECT who.body, COALESCE(home.body, ''), person_now.body
		FROM person_now
		JOIN identity who ON who.id = person_now.person_id
		LEFT JOIN identity home ON home.id = person_now.address_id
		WHERE %s
		ORDER BY person_now.watched DESC, who.folded, person_now.person_id
		LIMIT $%d`, strings.Join(where, " AND "), len(args)), args...)
}

// sought are the words of a text; a comma between them, as our sheets write
// names, is none.
func sought(text string) []string {
	return strings.Fields(strings.ReplaceAll(items.Fold(text), ",", " "))
}

// seenFound reads a person with home and care as the reading may show them.
func seenFound(tx *book.Tx) func(book.Row) (Found, error) {
	s := sightOf(tx)
	return func(row book.Row) (Found, error) {
		f, err := scanFound(row)
		return Found{Person: s.person(f.Person), Address: s.address(f.Address), Care: s.Care(f.Care)}, err
	}
}

func scanFound(row book.Row) (Found, error) {
	var f Found
	var who, home, care string
	if err := row.Scan(&who, &home, &care); err != nil {
		return f, err
	}
	for _, part := range []struct {
		body string
		into any
	}{{who, &f.Person}, {home, &f.Address}, {care, &f.Care}} {
		if part.body == "" {
			continue
		}
		if err := unmarshal(part.body, part.into); err != nil {
			return f, err
		}
	}
	return f, nil
}

// Person returns the one person a text names: an id, a record number, a number
// in the night pack, or words that only one person's name, phone or street holds.
func (d *Desk) Person(ctx context.Context, text string) (inventory.PersonID, error) {
	if number, is := delivery.PackNumber(text); is {
		return d.inPack(ctx, number)
	}
	var found []Found
	err := d.read(ctx, func(tx *book.Tx) (err error) {
		if p, err := person(tx, inventory.PersonID(text)); refusal.KindOf(err) != refusal.NotFound {
			found = []Found{{Person: p}}
			return err
		}
		ids, err := book.List(tx, func(row book.Row) (Found, error) {
			var f Found
			return f, row.Scan(&f.Person.ID)
		}, `SELECT id FROM identity WHERE record = $1 AND record <> '' ORDER BY id`, strings.TrimSpace(text))
		if err != nil || len(ids) > 0 {
			found = ids
			return err
		}
		found, err = findPersons(tx, sought(text), 3)
		return err
	})
	switch {
	case err != nil:
		return "", err
	case len(found) == 0 || strings.TrimSpace(text) == "":
		return "", refusal.New(refusal.NotFound, fmt.Sprintf("Nobody goes by %q.", text), "Give the record number or the name.")
	case len(found) > 1:
		return "", refusal.New(refusal.Ask, fmt.Sprintf("Several people go by %q.", text), "Give the record number.")
	}
	return found[0].Person.ID, nil
}

// Item returns the one item a serial, a tag number or an id names. A serial
// that is only near one in the book is asked about, never taken.
func (d *Desk) Item(ctx context.Context, serial string, tag uint32) (inventory.Item, error) {
	var found, near []inventory.Item
	err := d.read(ctx, func(tx *book.Tx) (err error) {
		if tag != 0 {
			found, err = items.ByTag(tx, tag)
			return err
		}
		if item, err := items.Item(tx, inventory.ItemID(serial)); refusal.KindOf(err) != refusal.NotFound {
			found = []inventory.Item{item}
			return err
		}
		if found, err = items.BySerial(tx, serial); err != nil || len(found) > 0 {
			return err
		}
		near, err = items.NearSerial(tx, serial)
		return err
	})
	name := serial
	if tag != 0 {
		name = fmt.Sprintf("label no. %d", tag)
	}
	switch {
	case err != nil:
		return inventory.Item{}, err
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return inventory.Item{}, refusal.New(refusal.Ask, fmt.Sprintf("%d items carry %s.", len(found), name), "Scan our label to choose.")
	case len(near) > 0:
		return inventory.Item{}, refusal.New(refusal.Ask, fmt.Sprintf("%s is not in the book, but %s is near.", name, labels(near)), "Read it again: O or 0, I or 1, a dropped zero?")
	}
	return inventory.Item{}, refusal.New(refusal.NotFound, fmt.Sprintf("%s is not in the book.", name), "Scan again, or book it as a stray.")
}

func labels(list []inventory.Item) string {
	names := make([]string, len(list))
	for i, item := range list {
		names[i] = item.Label()
	}
	return strings.Join(names, ", ")
}
