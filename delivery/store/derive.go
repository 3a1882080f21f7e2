package store

import (
	"crypto/rand"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// refoldPerson derives one person anew from the facts and stores it. A person
// of whom every fact was taken back was never in the book.
func refoldPerson(tx *book.Tx, words inventory.Vocabulary, id inventory.PersonID) error {
	facts, err := items.Facts(tx, words, items.About{Around: id})
	if err != nil {
		return err
	}
	if !speaksOf(id, inventory.Standing(facts)) {
		_, err := tx.Exec(`DELETE FROM person_now WHERE person_id = $1`, string(id))
		return err
	}
	return putPerson(tx, id, facts)
}

// putPerson stores a person as derived from all facts about the person and
// about every item the person ever had.
func putPerson(tx *book.Tx, id inventory.PersonID, facts []inventory.Fact) error {
	row, err := personRow(delivery.FoldCare(id, facts))
	if err != nil {
		return err
	}
	_, err = tx.Exec(`
		INSERT INTO person_now (`+personColumns+`)
		VALUES ($1, $2, $3, $4, $5, $6, $7)
		ON CONFLICT (person_id) DO UPDATE SET
		    phase = excluded.phase, watched = excluded.watched,
		    address_id = excluded.address_id, tasks = excluded.tasks, asks = excluded.asks, body = excluded.body`, row...)
	return err
}

// speaksOf reports whether any of the facts is about the person.
func speaksOf(id inventory.PersonID, facts []inventory.Fact) bool {
	return slices.ContainsFunc(facts, func(f inventory.Fact) bool { return f.Person == id })
}

const personColumns = "person_id, phase, watched, address_id, tasks, asks, body"

// personRow returns what person_now keeps of a person.
func personRow(c delivery.Care) ([]any, error) {
	body, err := json.Marshal(c)
	return []any{string(c.Person), string(c.Phase), flag(c.Watched()), string(c.Address), len(c.Tasks), inventory.Open(c.Questions), string(body)}, err
}

// flag returns a truth as the book keeps it.
func flag(is bool) int {
	if is {
		return 1
	}
	return 0
}

// refoldRun derives one run anew from the facts and stores it.
func refoldRun(tx *book.Tx, words inventory.Vocabulary, id inventory.RunID) error {
	facts, err := items.Facts(tx, words, items.About{Run: id})
	if err != nil {
		return err
	}
	row, err := runRow(delivery.FoldRun(id, facts))
	if err != nil {
		return err
	}
	_, err = tx.Exec(`
		INSERT INTO run_now (`+runColumns+`)
		VALUES ($1, $2, $3, $4, $5)
		ON CONFLICT (run_id) DO UPDATE SET
		    day = excluded.day, vehicle = excluded.vehicle, ended = excluded.ended, body = excluded.body`, row...)
	return err
}

const runColumns = "run_id, day, vehicle, ended, body"

// runRow returns what run_now keeps of a run.
func runRow(r delivery.Run) ([]any, error) {
	body, err := json.Marshal(r)
	return []any{string(r.ID), r.Day, r.Vehicle, flag(!r.Ended.IsZero()), string(body)}, err
}

// keepIdentities stores the persons and addresses of a change, and takes away
// those it erases.
func keepIdentities(tx *book.Tx, c delivery.Change) error {
	if err := c.Written(); err != nil {
		return err
	}
	for _, id := range c.Erases {
		if err := eraseIdentity(tx, id); err != nil {
			return err
		}
	}
	for _, p := range c.Persons {
		if p.Erased {
			if err := forgetAnswers(tx, p.ID); err != nil {
				return err
			}
		}
		if err := keep(tx, string(p.ID), "person", strings.TrimSpace(p.Record), foldPerson(p), p); err != nil {
			return err
		}
		if err := keepTwinKeys(tx, p); err != nil {
			return err
		}
	}
	for _, a := range c.Addresses {
		if err := keep(tx, string(a.ID), "address", "", items.Fold(a.Where()+" "+a.Point.Area+" "+a.Line), a); err != nil {
			return err
		}
	}
	for _, a := range c.Answers {
		if err := keepAnswer(tx, a); err != nil {
			return err
		}
	}
	return keepSecrets(tx, c.Secrets)
}

// eraseIdentity takes away who a person was, the salt of the facts about them,
// and the home unless somebody else lives there.
func eraseIdentity(tx *book.Tx, id inventory.PersonID) error {
	body, err := json.Marshal(delivery.Person{ID: id, Erased: true})
	if err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE identity SET record = '', folded = '', salt = '', name_key = '', record_key = '', body = $2 WHERE id = $1`, string(id), string(body)); err != nil {
		return err
	}
	c, err := care(tx, id)
	if err != nil || c.Address == "" {
		return err
	}
	empty, err := json.Marshal(delivery.Address{ID: c.Address})
	if err != nil {
		return err
	}
	_, err = tx.Exec(`
		UPDATE identity SET folded = '', body = $3
		WHERE id = $1 AND NOT EXISTS (SELECT 1 FROM person_now WHERE address_id = $1 AND person_id <> $2)`,
		string(c.Address), string(id), string(empty))
	return err
}

func keep(tx *book.Tx, id, sort, record, folded string, v any) error {
	body, err := json.Marshal(v)
	if err != nil {
		return err
	}
	_, err = tx.Exec(`
		INSERT INTO identity (id, sort, record, folded, body, salt)
		VALUES ($1, $2, $3, $4, $5, $6)
		ON CONFLICT (id) DO UPDATE SET
		    record = excluded.record, folded = excluded.folded, body = excluded.body`,
		id, sort, record, folded, string(body), rand.Text())
	return err
}

// keepTwinKeys stores by what another record of a person is found.
func keepTwinKeys(tx *book.Tx, p delivery.Person) error {
	_, err := tx.Exec(`UPDATE identity SET name_key = $2, record_key = $3 WHERE id = $1`,
		string(p.ID), delivery.NameKey(p.Family), delivery.RecordKey(p.Record))
	return err
}

// keepAllTwinKeys stores them for everybody, where a version before did not.
func keepAllTwinKeys(tx *book.Tx) error {
	persons, err := book.List(tx, derived[delivery.Person], `SELECT body FROM identity WHERE sort = 'person' AND name_key = '' AND record_key = '' ORDER BY id`)
	for _, p := range persons {
		err = errors.Join(err, keepTwinKeys(tx, p))
	}
	return err
}

// foldPerson returns what a search for the person looks in: names, record
// number, and phone numbers as digits alone.
func foldPerson(p delivery.Person) string {
	parts := []string{p.Given, p.Family, p.Record}
	for _, phone := range p.Phones {
		parts = append(parts, digits(phone.Number), phone.Number)
	}
	return items.Fold(strings.Join(parts, " "))
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, s)
}

// derived reads one derived body.
func derived[T any](row book.Row) (T, error) {
	var v T
	var body string
	if err := row.Scan(&body); err != nil {
		return v, err
	}
	return v, unmarshal(body, &v)
}

func unmarshal(body string, into any) error { return json.Unmarshal([]byte(body), into) }

func care(tx *book.Tx, id inventory.PersonID) (delivery.Care, error) {
	c, err := seenCare(tx)(tx.QueryRow(`SELECT body FROM person_now WHERE person_id = $1`, string(id)))
	if errors.Is(err, sql.ErrNoRows) {
		return c, refusal.New(refusal.NotFound, fmt.Sprintf("No person %s is in the book.", id), "Register the person first.")
	}
	return c, err
}

func person(tx *book.Tx, id inventory.PersonID) (delivery.Person, error) {
	p, err := seenPerson(tx)(tx.QueryRow(`SELECT body FROM identity WHERE id = $1 AND sort = 'person'`, string(id)))
	if errors.Is(err, sql.ErrNoRows) {
		return p, refusal.New(refusal.NotFound, fmt.Sprintf("No person %s is in the book.", id), "Register the person first.")
	}
	return p, err
}

func address(tx *book.Tx, id inventory.AddressID) (delivery.Address, error) {
	a, err := seenAddress(tx)(tx.QueryRow(`SELECT body FROM identity WHERE id = $1 AND sort = 'address'`, string(id)))
	if errors.Is(err, sql.ErrNoRows) {
		return a, refusal.New(refusal.NotFound, "There is no address.", "Enter where the person sleeps tonight.")
	}
	return a, err
}

func run(tx *book.Tx, id inventory.RunID) (delivery.Run, error) {
	r, err := derived[delivery.Run](tx.QueryRow(`SELECT body FROM run_now WHERE run_id = $1`, string(id)))
	if errors.Is(err, sql.ErrNoRows) {
		return r, refusal.New(refusal.NotFound, fmt.Sprintf("No run %s is in the book.", id), "Choose a run of the day.")
	}
	return r, err
}
