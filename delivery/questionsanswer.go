package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/depletion"
)

// QuestionsAnswer says which facts clash, who settles what and by when, in the
// form of every answer. The questions come in the order of their due times.
func QuestionsAnswer(open []Inquiry, now time.Time) Answer {
	a := Answer{Verdict: depletion.Holds, Title: "no facts clash", Help: "nobody is asked", Do: []string{}, Assumed: []string{}, Facts: []string{}}
	late := 0
	for _, q := range open {
		words := fmt.Sprintf("%s, by %s: %s: %s", q.Owner(), Clock(q.Due(), now), q.About(), q.Says)
		if q.Due().Before(now) {
			late++
		}
		a.Do = append(a.Do, words)
	}
	if len(open) > 0 {
		a.Verdict = depletion.Unknown
		a.Title = fmt.Sprintf("%s open, %d overdue", count(len(open), "question"), late)
		a.Help = fmt.Sprintf("the first: the %s, by %s", open[0].Owner(), Clock(open[0].Due(), now))
	}
	return a
}
