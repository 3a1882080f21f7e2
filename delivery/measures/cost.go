package measures

import (
	"lungwort/delivery/stocking"
	"lungwort/inventory"
)

// cost adds up what one time at home cost once everything lent for it is back
// or lost. Without prices in the settings there is nothing to add.
func (b Book) cost() Measure {
	m := Measure{
		Name: "Cost of a completed loan", Sort: Sums,
		Definition: "Visits, fills and rental days at the programme's prices, and what was lost, for each time at home that has ended with everything back or lost. Staff and purchase are not in it.",
	}
	prices := b.Programme.Prices
	if prices.Visit == 0 && prices.Fill == 0 && prices.RentalDay == 0 {
		m.Definition += " No prices are set yet: see Settings, Stock."
		return m
	}
	spent := make(map[inventory.PersonID]map[int]*Case)
	byPerson := make(map[inventory.PersonID][]Episode)
	for _, e := range b.Episodes {
		byPerson[e.Person] = append(byPerson[e.Person], e)
	}
	for id, episodes := range byPerson {
		spent[id] = make(map[int]*Case)
		for n, e := range episodes {
			if !e.Ended.IsZero() {
				spent[id][n] = &Case{Person: id, At: e.Ended, Amount: float64(b.visits(episodes, n)) * prices.Visit}
			}
		}
	}
	b.loans(func(item inventory.Item, c stocking.Cycle) {
		n := nth(byPerson[c.Person], c)
		of := spent[c.Person][n]
		if of == nil {
			return
		}
		if c.Back.IsZero() && c.Lost.IsZero() {
			delete(spent[c.Person], n) // not completed
			return
		}
		of.Amount += b.priceOf(item, c)
	})
	for _, cases := range spent {
		for _, c := range cases {
			m.Cases = append(m.Cases, *c)
		}
	}
	return oldestFirst(m)
}

// visits counts the trips to a person from one time at home until the next.
func (b Book) visits(episodes []Episode, n int) int {
	count := 0
	for _, t := range b.Trips[episodes[n].Person] {
		if !t.At.Before(episodes[n].Opened) && (n+1 == len(episodes) || t.At.Before(episodes[n+1].Opened)) {
			count++
		}
	}
	return count
}

// priceOf returns what one loan of one thing cost beside the visits.
func (b Book) priceOf(item inventory.Item, c stocking.Cycle) float64 {
	prices, sum := b.Programme.Prices, 0.0
	if item.Spec.Kind == inventory.Cylinder {
		sum += prices.Fill
		if item.Spec.Owner != "" && !c.Back.IsZero() {
			sum += prices.RentalDay * c.Back.Sub(c.Lent).Hours() / 24
		}
	}
	if !c.Lost.IsZero() && item.Loss != nil {
		sum += item.Loss.Worth
	}
	return sum
}
