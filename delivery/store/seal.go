package store

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
)

// Every fact is sealed when it is recorded. Its digest is a hash over the row as
// it stands in the book, salted where it is about a person; its seal is a hash
// over the digest and the seal of the fact recorded before it about the same
// subject. Whoever changes or removes a fact behind the program's back would
// have to make every later seal of the subject anew. Erasing a person takes the
// salt away: the digests then tell nothing, and the seals over them still hold.

// row is a fact as it stands in the book.
type row struct {
	id                inventory.FactID
	item, person, run string
	cells             [8]string // everything else, in a fixed order
}

const rowColumns = `
	fact.id, COALESCE(fact.item_id, ''), COALESCE(fact.person_id, ''), COALESCE(fact.run_id, ''),
	fact.says, fact.happened, fact.happened_offset, fact.recorded, fact.by_whom, fact.source, COALESCE(fact.corrects, 0), fact.body`

func (r *row) into() []any {
	into := []any{&r.id, &r.item, &r.person, &r.run}
	for i := range r.cells {
		into = append(into, &r.cells[i])
	}
	return into
}

// subject names what the fact is about: an item, else a person, else a run,
// else the programme.
func (r row) subject() string {
	switch {
	case r.item != "":
		return "item " + r.item
	case r.person != "":
		return "person " + r.person
	case r.run != "":
		return "run " + r.run
	}
	return "the programme"
}

// digest returns the salted hash of the row. Each part is written with its
// length before it, so that no two rows are written alike.
func (r row) digest(salt string) []byte {
	h := sha256.New()
	part := func(text string) {
		var size [8]byte
		binary.BigEndian.PutUint64(size[:], uint64(len(text)))
		h.Write(size[:])
		h.Write([]byte(text))
	}
	part(salt)
	part(fmt.Sprint(r.id))
	for _, text := range append([]string{r.item, r.person, r.run}, r.cells[:]...) {
		part(text)
	}
	return h.Sum(nil)
}

// sealOf returns the seal over a digest and the seal before it; nil for the
// first of a subject.
func sealOf(digest, before []byte) []byte {
	h := sha256.New()
	h.Write(digest)
	h.Write(before)
	return h.Sum(nil)
}

// seal seals a fact just recorded.
func seal(tx *book.Tx, id inventory.FactID) error {
	var r row
	if err := tx.QueryRow(`SELECT `+rowColumns+` FROM fact WHERE id = $1`, int64(id)).Scan(r.into()...); err != nil {
		return err
	}
	salt, err := saltOf(tx, r.person)
	if err != nil {
		return err
	}
	before, err := sealBefore(tx, r)
	if err != nil {
		return err
	}
	return keepSeal(tx, r, r.digest(salt), before)
}

func keepSeal(tx *book.Tx, r row, digest, before []byte) error {
	_, err := tx.Exec(`
		INSERT INTO fact_seal (fact_id, recorded, digest, seal)
		SELECT id, recorded, $2, $3 FROM fact WHERE id = $1`, int64(r.id), digest, sealOf(digest, before))
	return err
}

func saltOf(tx *book.Tx, person string) (salt string, err error) {
	if person == "" {
		return "", nil
	}
	err = tx.QueryRow(`SELECT salt FROM identity WHERE id = $1`, person).Scan(&salt)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return salt, err
}

// sealBefore returns the seal of the fact recorded before r about the same
// subject.
func sealBefore(tx *book.Tx, r row) (before []byte, err error) {
	where, args := `item_id = $2`, []any{int64(r.id), r.item}
	switch {
	case r.item != "":
	case r.person != "":
		where, args[1] = `item_id IS NULL AND person_id = $2`, r.person
	case r.run != "":
		where, args[1] = `item_id IS NULL AND person_id IS NULL AND run_id = $2`, r.run
	default:
		where, args = `item_id IS NULL AND person_id IS NULL AND run_id IS NULL`, args[:1]
	}
	err = tx.QueryRow(`
		SELECT seal FROM fact_seal
		WHERE fact_id = (SELECT max(id) FROM fact WHERE id < $1 AND `+where+`)`, args...).Scan(&before)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return before, err
}

// sealAll gives every person a salt and seals every fact that has no seal, in
// the order of recording.
func sealAll(tx *book.Tx) error {
	bare, err := book.List(tx, func(row book.Row) (id string, err error) { return id, row.Scan(&id) },
		`SELECT id FROM identity WHERE salt = '' AND id NOT IN (SELECT person_id FROM fact WHERE says = $1 AND person_id IS NOT NULL) ORDER BY id`,
		new(delivery.Erased).Says())
	if err != nil {
		return err
	}
	for _, id := range bare {
		if _, err := tx.Exec(`UPDATE identity SET salt = $2 WHERE id = $1`, id, rand.Text()); err != nil {
			return err
		}
	}
	open, err := book.List(tx, func(row book.Row) (id inventory.FactID, err error) { return id, row.Scan(&id) },
		`SELECT id FROM fact WHERE id NOT IN (SELECT fact_id FROM fact_seal) ORDER BY id`)
	if err != nil {
		return err
	}
	for _, id := range open {
		if err := seal(tx, id); err != nil {
			return err
		}
	}
	return nil
}

// broken lists where the seals do not hold.
func broken(tx *book.Tx) ([]string, error) {
	salts, err := saltsAndErasures(tx)
	if err != nil {
		return nil, err
	}
	gone, err := book.List(tx, func(row book.Row) (says string, err error) {
		var id inventory.FactID
		err = row.Scan(&id)
		return fmt.Sprintf("fact %d was sealed and is gone", id), err
	}, `SELECT fact_id FROM fact_seal WHERE fact_id NOT IN (SELECT id FROM fact) ORDER BY fact_id`)
	if err != nil {
		return nil, err
	}
	rows, err := tx.Query(`SELECT ` + rowColumns + `, fact_seal.digest, fact_seal.seal
		FROM fact LEFT JOIN fact_seal ON fact_seal.fact_id = fact.id
		ORDER BY fact.id`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	wrong, last := gone, make(map[string][]byte)
	for rows.Next() {
		var r row
		var digest, seal []byte
		if err := rows.Scan(append(r.into(), &digest, &seal)...); err != nil {
			return nil, err
		}
		switch {
		case seal == nil:
			wrong = append(wrong, fmt.Sprintf("fact %d has no seal: it did not come through the program", r.id))
		case !salts[r.person].fits(r, digest):
			wrong = append(wrong, fmt.Sprintf("fact %d was changed after it was recorded (%s)", r.id, r.subject()))
		case !bytes.Equal(seal, sealOf(digest, last[r.subject()])):
			wrong = append(wrong, fmt.Sprintf("the chain of %s breaks at fact %d: the fact before it is not the one it was sealed after", r.subject(), r.id))
		}
		last[r.subject()] = seal
	}
	return wrong, rows.Err()
}

// erasure is what is needed to check the digests of a person's facts.
type erasure struct {
	salt string
	at   inventory.FactID // that erased the person; zero for nobody erased
}

// fits reports whether a digest is the row's. Of what was recorded before the
// person was erased nobody can tell any more.
func (e erasure) fits(r row, digest []byte) bool {
	return e.at > r.id || bytes.Equal(digest, r.digest(e.salt))
}

func saltsAndErasures(tx *book.Tx) (map[string]erasure, error) {
	type salted struct {
		id string
		erasure
	}
	all, err := book.List(tx, func(row book.Row) (s salted, err error) {
		return s, row.Scan(&s.id, &s.salt, &s.at)
	}, `
		SELECT identity.id, identity.salt, COALESCE(max(fact.id), 0)
		FROM identity LEFT JOIN fact ON fact.person_id = identity.id AND fact.says = $1
		GROUP BY identity.id, identity.salt`, new(delivery.Erased).Says())
	by := make(map[string]erasure, len(all))
	for _, s := range all {
		by[s.id] = s.erasure
	}
	return by, err
}
