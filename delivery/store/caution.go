package store

import (
	"context"
	"fmt"
	"time"
)

// setBack is how far a machine's clock may lie behind the newest fact before
// it is told: desks that share a book differ by seconds, a clock that lost its
// battery by years. Common practice, no source.
const setBack = 10 * time.Minute

// Cautions returns what whoever works with the book must know of the machine:
// that the book lies where it can be damaged, or that the clock, at now, was
// set back. They never keep anybody from acting.
func (d *Desk) Cautions(ctx context.Context, now time.Time) ([]string, error) {
	var says []string
	if c := d.book.Caution(); c != "" {
		says = append(says, c)
	}
	last, err := d.LastRecorded(ctx)
	if err != nil {
		return nil, err
	}
	if last.Sub(now) > setBack {
		const form = "Monday 2 January 2006 15:04"
		says = append(says, fmt.Sprintf(
			"This machine's clock says %s, but the book was last written %s. Set the clock right first: until then \"now\" is written down wrong.",
			now.Format(form), last.In(now.Location()).Format(form)))
	}
	return says, nil
}
