package paperwork

import (
	"context"
	"strings"

	"lungwort/delivery"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// CallList returns the calls due now on paper, in the order in which to make
// them.
func (c Clerk) CallList(ctx context.Context) (paper.CallList, error) {
	due, _, err := c.book.Calls(ctx, c.Now)
	list := c.callList("Calls due", due)
	for _, key := range []string{"worse", "spo2", "gauge", "problem"} {
		list.Asks = append(list.Asks, delivery.Script[key])
	}
	return list, err
}

// HotList returns whom to call on a hot day on paper.
func (c Clerk) HotList(ctx context.Context) (paper.CallList, error) {
	rows, err := c.book.Watch(ctx, c.Now)
	list := c.callList("Calls on a hot day", c.Programme.HotCalls(rows, c.Now))
	list.Asks = []string{delivery.HeatScript + ".", delivery.Script["worse"]}
	return list, err
}

func (c Clerk) callList(name string, calls []delivery.CheckIn) paper.CallList {
	list := paper.CallList{Head: c.head(c.code(tag.PaperCalls, c.Now.Format("20060102"))), Name: name, Bands: c.Programme.Bands.InWords()}
	for _, call := range calls {
		numbers := phones(call.Person)
		if first := call.Call.Contact; first > 0 && first < len(numbers) {
			numbers = append(append([]paper.Phone{numbers[first]}, numbers[:first]...), numbers[first+1:]...)
		}
		list.Calls = append(list.Calls, paper.CallLine{
			Verdict: string(call.Verdict), Name: call.Person.Name(), Phones: numbers, Language: call.Person.Language,
			Why: call.Call.Why, By: call.Call.By, Ask: strings.Join(call.Asks, "; "), Ordered: order(call.Care),
		})
	}
	return list
}

// ConcernList returns what the clinician has not heard of yet on paper.
func (c Clerk) ConcernList(ctx context.Context) (paper.ConcernList, error) {
	_, tell, err := c.book.Calls(ctx, c.Now)
	list := paper.ConcernList{Head: c.head(c.code(tag.PaperCalls, c.Now.Format("20060102")))}
	for _, who := range c.Programme.Clinician {
		list.Clinicians = append(list.Clinicians, paper.Phone{Whose: strings.TrimSpace(who.Name + " " + who.Role), Number: who.Phone})
	}
	for _, person := range tell {
		for _, x := range person.Concerns {
			list.Concerns = append(list.Concerns, paper.ConcernLine{
				Name: person.Person.Name(), Ordered: order(person.Care), Says: x.Says, Facts: strings.Join(x.Facts, "; "), Since: x.Since, Now: x.Now,
			})
		}
	}
	return list, err
}
