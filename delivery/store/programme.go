package store

import (
	"bytes"
	"database/sql"
	"errors"
	"slices"
	"sync"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// ruling is what the programme decided, as it was read last: every act asks for
// it and few change it. It holds for the facts under one seal. Nobody changes
// what it gives out.
type ruling struct {
	mu    sync.Mutex
	seal  []byte
	ruled ruled
}

// ruled is the settings in force, the defaults where none were decided, and the
// rides of the file taken in last.
type ruled struct {
	programme delivery.Programme
	rides     *delivery.RidesListed
}

// programme returns the settings in force, with the rides.
func (d *Desk) programme(tx *book.Tx) (delivery.Programme, error) {
	r, err := d.ruling.in(tx, d.words)
	if err != nil || r.rides == nil {
		return r.programme, err
	}
	homes, err := addressesByID(tx)
	return r.programme.WithRides(*r.rides, func(id inventory.AddressID) delivery.Point { return homes[id].Point }), err
}

// in returns what is decided in the book as it stands.
func (r *ruling) in(tx *book.Tx, words inventory.Vocabulary) (ruled, error) {
	seal, err := sealOfRules(tx)
	if err != nil {
		return ruled{}, err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if seal != nil && bytes.Equal(seal, r.seal) {
		return r.ruled, nil
	}
	now := ruled{programme: delivery.NewProgramme()}
	if decided, err := newest[*delivery.Decided](tx, words); err != nil {
		return ruled{}, err
	} else if decided != nil {
		now.programme = decided.Programme
	}
	if now.rides, err = newest[*delivery.RidesListed](tx, words); err != nil {
		return ruled{}, err
	}
	r.seal, r.ruled = seal, now
	return now, nil
}

// sealOfRules returns the seal of the last fact that decides settings or rides,
// or takes such a fact back. It is made over every seal before it, so that as
// long as it is the same, so are they. There is none in a new book.
func sealOfRules(tx *book.Tx) (seal []byte, err error) {
	err = tx.QueryRow(`
		SELECT seal FROM fact_seal WHERE fact_id = (
		    SELECT max(id) FROM fact
		    WHERE item_id IS NULL AND person_id IS NULL AND run_id IS NULL AND says IN ($1, $2, 'retracted'))`,
		new(delivery.Decided).Says(), new(delivery.RidesListed).Says()).Scan(&seal)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return seal, err
}

// newest returns the last statement of a sort about the whole programme that
// stands; none where nothing was said.
func newest[S inventory.Statement](tx *book.Tx, words inventory.Vocabulary) (said S, err error) {
	facts, err := items.Facts(tx, words, items.About{Says: said.Says()})
	for _, f := range slices.Backward(inventory.Standing(facts)) {
		if s, is := f.Statement.(S); is {
			return s, err
		}
	}
	return said, err
}
