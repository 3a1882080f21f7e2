package store

import (
	"bytes"
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
)

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
