package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// AnswerID names one answer that was kept.
type AnswerID string

// SheetAnswer is what somebody answered about a list. It serves the same file
// for good, and later lists from the same source where the question is about
// how that source writes.
type SheetAnswer struct {
	ID       AnswerID
	List     string // sign of the source: how its files are named and headed
	File     string // sign of the very content
	Question string
	Asks     string // as it was asked
	Answer   string
}

// AnswerSheet keeps answers. A later answer to the same question counts.
type AnswerSheet struct {
	Answers []SheetAnswer
}

// Decide keeps each answer.
func (a AnswerSheet) Decide(v View) (Change, error) {
	var c Change
	for _, answer := range a.Answers {
		if answer.Answer == "" || answer.Question == "" {
			return Change{}, refusal.New(refusal.Invalid, "An answer needs its question and some words.", "Answer again.")
		}
		var err error
		if answer.ID, err = v.NewAnswer(); err != nil {
			return Change{}, err
		}
		c.Answers = append(c.Answers, answer)
		c.Facts = append(c.Facts, inventory.Fact{Statement: &Answered{Answer: answer.ID}})
	}
	c.Says = fmt.Sprintf("Kept: %s.", count(len(a.Answers), "answer"))
	return c, nil
}
