// Package history is the facts of a page as its timeline shows them, newest
// first, and the form that takes one back. The pages of persons and items
// share it.
package history

import (
	"fmt"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// Row is one fact as the timeline shows it, its words ready.
type Row struct {
	ID        string // number of the fact
	When      string
	Age       string
	Words     string
	By        string
	Detail    string // by whom, from what source, recorded when
	Corrected bool
	Fact      inventory.Fact
}

// Rows returns the facts newest first. about names what a fact is about where
// the page does not say it already; it may return nothing.
func Rows(facts []inventory.Fact, now time.Time, about func(inventory.Fact) string) []Row {
	entries := delivery.Timeline(facts)
	rows := make([]Row, len(entries))
	for i, e := range entries {
		rows[i] = Row{
			ID:   strconv.FormatInt(int64(e.ID), 10),
			When: delivery.Clock(e.Happened, now), Age: delivery.Ago(e.Happened, now),
			Words: e.Words, By: by(e.Fact), Detail: detail(e.Fact, now), Corrected: e.Corrected != "", Fact: e.Fact,
		}
		if what := about(e.Fact); what != "" {
			rows[i].Words = what + ": " + e.Words
		}
		if e.Corrected != "" {
			rows[i].Detail = e.Corrected + " · " + rows[i].Detail
		}
	}
	return rows
}

// MayGo reports whether the fact can be taken back: it still stands, and the
// page does not rest on it.
func (r Row) MayGo() bool {
	switch r.Fact.Statement.(type) {
	case *delivery.Registered, *inventory.Enrolled:
		return false
	}
	return !r.Corrected
}

// late is how far recording may trail happening before it is worth a word.
const late = 5 * time.Minute

func by(f inventory.Fact) string {
	if f.Source == inventory.Program {
		return "the program"
	}
	return f.By
}

func detail(f inventory.Fact, now time.Time) string {
	words := fmt.Sprintf("fact %d by %s", f.ID, by(f))
	if f.Source != inventory.Program {
		words += ", " + string(f.Source)
	}
	if f.Recorded.Sub(f.Happened) > late {
		words += ", recorded " + delivery.Clock(f.Recorded, now)
	}
	return words
}

// TakeBack returns the form that takes a fact back; done is called when it
// was. A fact is never deleted: it stays, shown as taken back.
func TakeBack(w *work.Work, r Row, done func()) ask.Form {
	return ask.Form{
		Title: "Take back a fact", Button: "Take back", Danger: true,
		Before: r.When + ": " + r.Words + ". It stays on the timeline, marked; what rests on it is worked out anew. Record what is right afterwards.",
		Fields: []ask.Field{{Key: "why", Label: "Why", Hint: "wrong home, slip of the pen, heard wrong"}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			read := ask.Read(a)
			why := read.Need("why", "write the reason: it stays with the fact")
			if len(read.Wrong()) > 0 {
				return read.Wrong()
			}
			act := delivery.Retract{Fact: r.Fact.ID, Why: why}
			w.Try("take back", w.Hand(inventory.Keyed), act, func(_ store.Outcome, err error) {
				closed(err)
				if err == nil {
					done()
				}
			})
			return nil
		},
	}
}
