package settings

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
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

// day is a setting of a day, empty for none.
func day(key, label string, at func(*delivery.Programme) *string) value {
	return value{key, label,
		func(p delivery.Programme) string { return *at(&p) },
		func(p *delivery.Programme, text string) error {
			text = strings.TrimSpace(text)
			if _, err := time.Parse(time.DateOnly, text); text != "" && err != nil {
				return fmt.Errorf("“%s” is no day: write it as 2026-04-30", text)
			}
			*at(p) = text
			return nil
		}}
}

// heldDays is the setting of how long what came back is kept before it is lent
// again.
func heldDays(kind inventory.Kind) value {
	return value{"held." + string(kind), "Hold a " + string(kind) + " that came back",
		func(p delivery.Programme) string { return fmt.Sprintf("%d days", p.Held[kind]) },
		func(p *delivery.Programme, text string) error {
			days, err := amount(text, unit{"days", 1})
			if err != nil || days < 0 || days > 365 {
				return fmt.Errorf("“%s” is no number of days: write it as 7 days", text)
			}
			if n := int(math.Round(days)); n != p.Held[kind] {
				held := map[inventory.Kind]int{kind: n}
				for other, of := range p.Held {
					if other != kind {
						held[other] = of
					}
				}
				p.Held = held
			}
			return nil
		}}
}

// worthOf is the setting of what it costs to replace a thing of a kind.
func worthOf(kind inventory.Kind) value {
	return value{"worth." + string(kind), "To replace a " + string(kind),
		func(p delivery.Programme) string {
			if worth, known := p.Prices.Worth[kind]; known {
				return decimals(worth)
			}
			return ""
		},
		func(p *delivery.Programme, text string) error {
			worth := maps.Clone(p.Prices.Worth)
			if text = strings.TrimSpace(text); text == "" {
				delete(worth, kind)
				p.Prices.Worth = worth
				return nil
			}
			n, err := amount(text, unit{"", 1})
			if err != nil {
				return err
			}
			if worth == nil {
				worth = make(map[inventory.Kind]float64)
			}
			worth[kind] = n
			p.Prices.Worth = worth
			return nil
		}}
}

// readyTags is the setting whether a release prints a tag.
var readyTags = value{"ready_tags", "Print a tag on release",
	func(p delivery.Programme) string { return map[bool]string{true: "yes", false: "no"}[p.ReadyTags] },
	func(p *delivery.Programme, text string) error {
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "yes":
			p.ReadyTags = true
		case "no":
			p.ReadyTags = false
		default:
			return fmt.Errorf("“%s” is neither yes nor no", strings.TrimSpace(text))
		}
		return nil
	}}

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
