package intake

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
)

// stoppedBy returns who ordered a stop.
func (r *reader) stoppedBy(l *line) string {
	if by := l.text("stopped by"); by != "" {
		return by
	}
	answer, _ := r.ask(l, Question{
		Key: "stopped by:" + l.list.name(), Asks: fmt.Sprintf("Who ordered that the oxygen was stopped, in %s? A stop names the clinician.", l.list.name()), once: true,
	}, "")
	return answer
}

// prescription reads the order. A list that has no hours a day leaves them
// open; for cover the whole day counts.
func (r *reader) prescription(l *line, e *entry) {
	rest := r.flow(l, "rest")
	o := delivery.Ordered{Device: l.text("device"), Setting: l.text("setting"), Prescriber: l.text("prescriber")}
	if flow := r.flow(l, "exertion"); flow != nil {
		o.Exertion = *flow
	}
	if flow := r.flow(l, "asleep"); flow != nil {
		o.Asleep = *flow
	}
	if l.exertion != nil && o.Exertion == 0 {
		o.Exertion = *l.exertion
	}
	if hours := r.number(l, "hours a day", 0, 24, "h", "hrs", "hours"); hours != nil {
		o.Hours = *hours
	}
	o.Review = r.anyDay(l, "review")
	if rest != nil {
		o.Rest = *rest
	}
	switch {
	case o.Rest > 0 || o.Setting != "":
		e.order = r.alike.order(o)
	case rest != nil && o.Exertion+o.Asleep > 0:
		e.order = r.alike.order(o)
	}
}

// The answers to when things without a date were handed over.
const (
	atHandOver = "at hand-over"
	asAbove    = "as the row above"
)

// handOver asks for the day of a hand-over that has none.
func (r *reader) handOver(l *line, e *entry) time.Time {
	for _, key := range []string{"date out", "out"} {
		if l.text(key) != "" {
			return time.Time{} // there is one, and it is asked about
		}
	}
	choices := []Choice{}
	above := r.above(l)
	if above != nil {
		choices = append(choices, Choice{asAbove, "the day was written once for several rows"})
	}
	answer, ok := r.ask(l, Question{
		Key:     "no date:" + l.list.name(),
		Asks:    fmt.Sprintf("Rows of %s lend things without a day. When were they handed over? Write a day as 2025-03-31.", l.list.name()),
		Choices: choices, free: true, once: true,
	}, e.name.shown())
	switch {
	case !ok:
		return time.Time{}
	case answer == asAbove && above != nil:
		r.share(l, above.line)
		return above.out
	}
	t, err := time.ParseInLocation(time.DateOnly, answer, r.at.Location())
	if err != nil || t.After(r.at) {
		l.refuse("“%s” is no day of a hand-over. Write it as 2025-03-31.", answer)
		return time.Time{}
	}
	return t
}

// above returns the entry of the row right above.
func (r *reader) above(l *line) *entry {
	if n := len(r.entries); n > 0 && r.entries[n-1].line.list == l.list {
		return r.entries[n-1]
	}
	return nil
}

// share makes a row wait for what another row waits for.
func (r *reader) share(l, with *line) {
	for _, q := range with.waits {
		if !slices.Contains(q.lines, l) {
			q.lines = append(q.lines, l)
			l.waits = append(l.waits, q)
		}
	}
}
