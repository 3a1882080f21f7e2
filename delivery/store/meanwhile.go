package store

import (
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// recent is how long ago somebody else may have been at a thing for an act on
// it to have lost a race: longer than a form stays open.
const recent = 15 * time.Minute

// looked is what an act looked at while it was decided.
type looked struct{ about []items.About }

func (l *looked) at(about items.About) {
	if len(l.about) == 0 || l.about[len(l.about)-1] != about {
		l.about = append(l.about, about)
	}
}

// meanwhile adds to a refusal who was at the thing just before, what they did
// and when: two desks wanted the same, and the other was first.
func (v *view) meanwhile(hand Hand, err error) error {
	var no *refusal.Error
	if !errors.As(err, &no) || no.Kind != refusal.Conflict && no.Kind != refusal.Unready {
		return err
	}
	var last inventory.Fact
	for _, about := range v.looked.about {
		about.Since = v.tx.Now.Add(-recent)
		facts, err := items.Facts(v.tx, v.words, about)
		if err != nil {
			return err
		}
		if n := len(facts); n > 0 && facts[n-1].ID > last.ID {
			last = facts[n-1]
		}
	}
	if last.ID == 0 || last.By == hand.By {
		return err
	}
	told := *no
	told.Next = fmt.Sprintf("%s was first, at %s: %s. %s", last.By, last.Happened.Format("15:04"), delivery.Sentence(last), no.Next)
	return &told
}
