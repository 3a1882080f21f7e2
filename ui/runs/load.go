package runs

import (
	"fmt"
	"strconv"

	"lungwort/delivery"
	"lungwort/delivery/route"
	"lungwort/labels/scene"
)

// Loads is what is on board along the round that holds the stop in hand, as it
// stands on the board.
func (m *Model) Loads() scene.LoadsData {
	d := scene.LoadsData{InHand: -1}
	round, at, on := m.where(m.table.hand)
	if !on {
		return d
	}
	r := m.table.times[round]
	d.InHand = at + 1
	loads := []route.Load{r.Loaded}
	d.Steps = append(d.Steps, "leaves")
	for _, s := range r.Stops {
		d.Steps = append(d.Steps, strconv.Itoa(s.Number))
		loads = append(loads, s.After)
	}
	if r.Begun > 0 { // what is on board at the stop under way is what goes on
		loads[1] = r.Loaded
	}
	for dimension, name := range [...]string{route.Pieces: "pieces", route.Kg: "kg of cylinders", route.Bulk: "litres", route.Dirty: "used things"} {
		line := scene.LoadLine{Name: name, Limit: r.Room[dimension]}
		if line.Limit >= route.Unlimited {
			line.Limit = 0
		}
		for _, l := range loads {
			line.Values = append(line.Values, l[dimension])
		}
		d.Lines = append(d.Lines, line)
	}
	return d
}

// Papers says what the run of the stop in hand weighs by the book, and what is
// asked of its vehicle for that.
func (m *Model) Papers() []string {
	round, _, on := m.where(m.table.hand)
	if !on {
		return []string{"No stop is in hand."}
	}
	r := m.table.times[round]
	loading, booked := m.book.loadings[r.Run]
	if !booked {
		return []string{r.Name + ": accept the run, and what is asked of its vehicle stands here."}
	}
	a := loading.Answer()
	words := []string{fmt.Sprintf("%s: %s", a.Verdict, a.Title)}
	return append(append(words, a.Do...), a.Facts...)
}

// Rests are the breaks of a round in words.
func rests(all []delivery.Rest) string {
	words := ""
	for _, r := range all {
		words += " · break " + r.From.Format("15:04") + " to " + r.Until.Format("15:04")
	}
	return words
}
