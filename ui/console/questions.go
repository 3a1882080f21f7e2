package console

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// openQuestion is a question as JSON gives it.
type openQuestion struct {
	Key      string             `json:"key"`
	About    string             `json:"about"`
	Says     string             `json:"says"`
	Owner    delivery.Owner     `json:"owner"`
	Opened   time.Time          `json:"opened"`
	Due      time.Time          `json:"due"`
	Evidence []inventory.FactID `json:"evidence"`
	Choices  []delivery.Choice  `json:"choices"`
	Answer   *inventory.Answer  `json:"answer,omitempty"`
}

// questions lists what the facts leave open, with the evidence and the choices.
func questions(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("answer questions")
	file := fs.String("book", "", "the book")
	all := fs.Bool("all", false, "those already answered too")
	asJSON := fs.Bool("json", false, "print JSON")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "show what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		list, err := desk.Questions(ctx, *all)
		if err != nil {
			return err
		}
		if *asJSON {
			lines := make([]openQuestion, len(list))
			for i, q := range list {
				lines[i] = openQuestion{q.Key, q.About(), q.Says, q.Owner(), q.Opened, q.Due(), q.Evidence, q.Choices(), q.Answer}
			}
			return p.print(lines)
		}
		if len(list) == 0 {
			fmt.Fprintln(p.Out, "No question is open.")
		}
		for _, q := range list {
			p.printQuestion(q, now)
		}
		return nil
	})
}

func (p *Program) printQuestion(q delivery.Inquiry, now time.Time) {
	fmt.Fprintf(p.Out, "%s: %s\n  %s\n", q.About(), q.Title(), q.Says)
	for _, f := range q.Facts {
		fmt.Fprintf(p.Out, "  fact %d  %s  %s, %s %s\n", f.ID, delivery.Clock(f.Happened, now), delivery.Sentence(f), f.Source, f.By)
	}
	if q.Answer != nil {
		fmt.Fprintf(p.Out, "  answered %s by %s: %s (%s)\n", delivery.Clock(q.Answer.At, now), q.Answer.By, q.Answer.Choice, q.Answer.Why)
		return
	}
	fmt.Fprintf(p.Out, "  owner    %s, due %s\n", q.Owner(), delivery.Clock(q.Due(), now))
	for _, c := range q.Choices() {
		fmt.Fprintf(p.Out, "  choice   %q: %s\n", c.Value, c.Next)
		if c.Because != "" {
			fmt.Fprintf(p.Out, "           %s\n", c.Because)
		}
	}
	fmt.Fprintf(p.Out, "  answer   act answer --question %s --choice … --why …\n", q.Key)
}
