package paperwork

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
)

// outageAsked is how long a power cut is reckoned with whose end nobody knows,
// and one that may come in the night. Common practice, no source.
const outageAsked = 8 * time.Hour

// hotDay is what a hot day is reckoned with before one is forecast. Common practice,
// no source.
const hotDay gas.Celsius = 35

// nightCards are the answers about all homes together: who leaves a ward, the calls, the power cuts
// that are on or announced, one that may come, what is used against what is ordered,
// a new order, the facts that clash, the electricity and the heat.
func (c Clerk) nightCards(ctx context.Context, rows []delivery.Watch, ready []inventory.Item) ([]paper.AnswerCard, error) {
	due, tell, err := c.book.Calls(ctx, c.Now)
	if err != nil {
		return nil, err
	}
	full := delivery.ReadyGas(ready)
	cards := []paper.AnswerCard{
		card("May they leave the ward?", c.Programme.LeavingAnswer(rows, full, c.Now)),
		card("Calls", delivery.CallsAnswer(due, tell, c.Now)),
		card("Ordered against observed", delivery.UseAnswer(tell)),
		card("Somebody orders another flow", delivery.NewOrderAnswer(rows, ready)),
	}
	cuts, err := c.book.PowerCuts(ctx, c.Now)
	if err != nil {
		return nil, err
	}
	for _, cut := range cuts {
		plan := delivery.PlanOutage(c.Programme, cut, outageAsked, rows, full, c.Now)
		cards = append(cards, card("Power cut "+cut.Zone().InWords(), plan.Answer(c.Programme)))
	}
	everywhere := delivery.PlanOutage(c.Programme, delivery.PowerCut{By: delivery.Everywhere, From: c.Now}, outageAsked, rows, full, c.Now)
	cards = append(cards, card(fmt.Sprintf("If power failed everywhere for %s", delivery.Spell(outageAsked)), everywhere.Answer(c.Programme)))
	open, err := c.book.Questions(ctx, false)
	if err != nil {
		return nil, err
	}
	return append(cards,
		card("Facts that clash", delivery.QuestionsAnswer(open, c.Now)),
		card("Somebody asks about the electricity", c.Programme.MainsAnswer(rows)),
		card("If a day is hot", c.Programme.HeatAnswer(rows, hotDay)),
	), nil
}

// card is an answer as it is printed.
func card(about string, a delivery.Answer) paper.AnswerCard {
	return paper.AnswerCard{
		About: about, Verdict: string(a.Verdict), Says: a.Title, Low: a.Low, High: a.High, Help: a.Help, Do: a.Do, Assumed: a.Assumed, Facts: a.Facts,
	}
}
