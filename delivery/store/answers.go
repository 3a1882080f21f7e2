package store

import (
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

func keepAnswer(tx *book.Tx, a delivery.SheetAnswer) error {
	_, err := tx.Exec(`
		INSERT INTO answer (id, list, file, question, asks, answer, folded)
		VALUES ($1, $2, $3, $4, $5, $6, $7)`,
		string(a.ID), a.List, a.File, a.Question, a.Asks, a.Answer, items.Fold(strings.Join([]string{a.Question, a.Asks, a.Answer}, " ")))
	return err
}

// decisions returns the answers that were kept, the last one first.
func decisions(tx *book.Tx, words inventory.Vocabulary) ([]intake.Decision, error) {
	all, err := book.List(tx, func(row book.Row) (a delivery.SheetAnswer, err error) {
		return a, row.Scan(&a.ID, &a.List, &a.File, &a.Question, &a.Asks, &a.Answer)
	}, `SELECT id, list, file, question, asks, answer FROM answer ORDER BY id`)
	if err != nil || len(all) == 0 {
		return nil, err
	}
	byID := make(map[delivery.AnswerID]delivery.SheetAnswer, len(all))
	for _, a := range all {
		byID[a.ID] = a
	}
	facts, err := items.Facts(tx, words, items.About{Says: new(delivery.Answered).Says()})
	if err != nil {
		return nil, err
	}
	corrected := inventory.Corrections(facts)
	var kept []intake.Decision
	for i := len(facts) - 1; i >= 0; i-- {
		said, is := facts[i].Statement.(*delivery.Answered)
		if _, gone := corrected[facts[i].ID]; !is || gone {
			continue
		}
		if a, there := byID[said.Answer]; there {
			kept = append(kept, intake.Decision{SheetAnswer: a, By: facts[i].By, At: facts[i].Happened})
		}
	}
	return kept, nil
}

// forgetAnswers erases the answers that name a person who is being erased.
func forgetAnswers(tx *book.Tx, id inventory.PersonID) error {
	p, err := person(tx, id)
	if refusal.KindOf(err) == refusal.NotFound {
		return nil
	}
	if err != nil {
		return err
	}
	for _, name := range []string{p.Record, p.Family} {
		if folded := items.Fold(name); folded != "" {
			if _, err := tx.Exec(`DELETE FROM answer WHERE folded LIKE $1 ESCAPE '!'`, "%"+items.EscapeLike(folded)+"%"); err != nil {
				return err
			}
		}
	}
	return nil
}
