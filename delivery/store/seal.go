package store

import (
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strconv"

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

// recordedCell is the cell that tells when the fact was recorded.
const recordedCell = 3

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

// sealer seals what one transaction records. It keeps what it looked up: the
// salts of persons, and the last seal about each subject.
type sealer struct {
	salts map[string]string
	last  map[string][]byte
}

func newSealer() *sealer {
	return &sealer{salts: map[string]string{}, last: map[string][]byte{}}
}

// sealedTogether is how many facts are read back, sealed and written at once.
const sealedTogether = 512

// seal seals facts just recorded, in the order of recording, without a gap.
// Each is read back, so that what is sealed is what stands in the book.
func (s *sealer) seal(tx *book.Tx, facts []inventory.Fact) error {
	for some := range slices.Chunk(facts, sealedTogether) {
		if err := s.sealBetween(tx, some[0].ID, some[len(some)-1].ID); err != nil {
			return err
		}
	}
	return nil
}

// sealBetween seals every fact from first to last that has no seal.
func (s *sealer) sealBetween(tx *book.Tx, first, last inventory.FactID) error {
	rows, err := book.List(tx, func(from book.Row) (r row, err error) { return r, from.Scan(r.into()...) },
		`SELECT `+rowColumns+` FROM fact
		 WHERE id BETWEEN $1 AND $2 AND NOT EXISTS (SELECT 1 FROM fact_seal WHERE fact_id = fact.id) ORDER BY id`, int64(first), int64(last))
	if err != nil {
		return err
	}
	seals := make([][]any, len(rows))
	for i, r := range rows {
		salt, err := s.salt(tx, r.person)
		if err != nil {
			return err
		}
		before, err := s.before(tx, r)
		if err != nil {
			return err
		}
		recorded, err := strconv.ParseInt(r.cells[recordedCell], 10, 64)
		if err != nil {
			return fmt.Errorf("fact %d: %w", r.id, err)
		}
		digest := r.digest(salt)
		seal := sealOf(digest, before)
		s.last[r.subject()] = seal
		seals[i] = []any{int64(r.id), recorded, digest, seal}
	}
	return tx.InsertAll(`fact_seal (fact_id, recorded, digest, seal)`, seals)
}

func (s *sealer) salt(tx *book.Tx, person string) (salt string, err error) {
	salt, held := s.salts[person]
	if person == "" || held {
		return salt, nil
	}
	err = tx.QueryRow(`SELECT salt FROM identity WHERE id = $1`, person).Scan(&salt)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	s.salts[person] = salt
	return salt, err
}

// before returns the seal of the fact recorded before r about the same subject.
func (s *sealer) before(tx *book.Tx, r row) (seal []byte, err error) {
	if seal, held := s.last[r.subject()]; held {
		return seal, nil
	}
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
		WHERE fact_id = (SELECT max(id) FROM fact WHERE id < $1 AND `+where+`)`, args...).Scan(&seal)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return seal, err
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
	s := newSealer()
	for some := range slices.Chunk(open, sealedTogether) {
		if err := s.sealBetween(tx, some[0], some[len(some)-1]); err != nil {
			return err
		}
	}
	return nil
}
