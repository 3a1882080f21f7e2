package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/depletion"
)

// CallsAnswer says which calls are due and what the clinician is to hear, in
// the form of every answer.
func CallsAnswer(due, tell []CheckIn, now time.Time) Answer {
	a := Answer{Verdict: depletion.Holds, Title: "no call is due", Help: "nobody waits", Do: []string{}, Assumed: []string{NoFlowAdvice}, Facts: []string{}}
	late := 0
	for _, c := range due {
		if c.Call.Late(now) {
			late++
		}
		a.Do = append(a.Do, c.line(now))
	}
	for _, c := range tell {
		for _, x := range c.Concerns {
			a.Facts = append(a.Facts, fmt.Sprintf("tell the clinician of %s: %s", c.Person.Name(), x.Says))
		}
	}
	if len(due) > 0 {
		a.Verdict = due[0].Verdict
		a.Title = fmt.Sprintf("%s due, %d overdue", count(len(due), "call"), late)
		a.Help = "the first: " + due[0].Person.Name()
	}
	return a
}

// line says whom to call, on which number and why.
func (c CheckIn) line(now time.Time) string {
	number := "no number in the book"
	if c.Call.Contact < len(c.Person.Phones) {
		phone := c.Person.Phones[c.Call.Contact]
		number = strings.TrimSpace(phone.Whose + " " + phone.Number)
	}
	if c.Call.Welfare {
		return fmt.Sprintf("%s: %s", c.Person.Name(), c.Call.Why)
	}
	line := fmt.Sprintf("Call %s, %s: %s", c.Person.Name(), number, c.Call.Why)
	if c.Call.Late(now) {
		line += ", overdue since " + Clock(c.Call.By, now)
	}
	for _, ask := range c.Asks {
		if ask != c.Call.Why {
			line += "; ask for " + ask
		}
	}
	return line
}
