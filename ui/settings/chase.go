package settings

import (
	"fmt"
	"math"
	"slices"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// chaseSteps are the grades of asking for what is not needed any more.
var chaseSteps = rowsOf[delivery.ChaseStep]{
	id: "chase", what: "step",
	get: func(p delivery.Programme) []delivery.ChaseStep { return p.ChaseSteps() },
	set: func(p *delivery.Programme, rows []delivery.ChaseStep) {
		if !slices.Equal(rows, p.ChaseSteps()) { // else it stays as the program has it
			p.Chase = rows
		}
	},
	says: func(_ delivery.Programme, s delivery.ChaseStep) (string, string) { return chaseDay(s), s.Do },
	asks: func(_ delivery.Programme, s delivery.ChaseStep) []ask.Field {
		return []ask.Field{
			{Key: "after", Label: "After", Kind: ask.Number, Unit: "days", Value: fmt.Sprint(s.After), Hint: "since it is not needed"},
			{Key: "do", Label: "Do", Value: s.Do, Hint: "call, letter, stop there with a run"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, _ ask.Answers) delivery.ChaseStep {
		s := delivery.ChaseStep{Do: r.Need("do", "write what is done")}
		if n := r.Number("after", "days", 0, 3650); n != nil {
			s.After = int(math.Round(*n))
		}
		return s
	},
}

func chaseDay(s delivery.ChaseStep) string {
	if s.After == 0 {
		return "at once"
	}
	return fmt.Sprintf("after %d days", s.After)
}

func setLoanReview(p *delivery.Programme, text string) error {
	days, err := amount(text, unit{"days", 1})
	if err != nil || days < 1 || days > 3650 {
		return fmt.Errorf("“%s” is no number of days: write it as 180 days", text)
	}
	if n := int(math.Round(days)); n != p.LoanReviewDays() {
		p.LoanReview = n
	}
	return nil
}
