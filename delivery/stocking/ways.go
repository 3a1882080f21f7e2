package stocking

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

// Way is something that helps, with what is to be done.
type Way struct {
	outlook.Helped
	Do []string `json:"do"`
}

// ways compares what can be done about a line, the cheapest first. A line that
// holds needs none.
func (o Outlook) ways(s Shelf, stock outlook.Stock, coming []out, h outlook.Horizon, l Line, w WhatIf) []Way {
	lack := 0
	for _, d := range l.Days {
		lack = max(lack, d.ToBeSafe)
	}
	if lack == 0 {
		return nil
	}
	lead, all := o.Programme.Lead, []Way{o.collect(coming), o.hurry(coming)}
	if s.Kind == inventory.Cylinder && !w.Strike {
		all = append(all, o.exchange(coming))
	}
	all = append(all,
		o.join("hire", lack, lead.Hire),
		o.join("buy", lack, lead.Buy),
	)
	var reliefs []outlook.Relief
	var ways []Way
	for _, way := range all {
		if len(way.Ready)+way.Units > 0 {
			ways, reliefs = append(ways, way), append(reliefs, way.Relief)
		}
	}
	for i, helped := range stock.Compare(h, reliefs) {
		ways[i].Helped = helped
	}
	return ways
}

// collect fetches what is not needed in homes, nearest first; it goes over the
// bench before it is ready.
func (o Outlook) collect(coming []out) Way {
	at := make(map[inventory.ItemID]int)
	for i, c := range coming {
		if c.stage == Idle {
			at[c.item.ID] = i
		}
	}
	w := Way{Helped: relief("collect what is not needed", o.Now.Add(o.Programme.Lead.Bench+day))}
	for _, home := range o.Hidden {
		if home.Silent {
			continue
		}
		var labels []string
		for _, thing := range home.Things {
			if i, is := at[thing.Item]; is {
				w.Ready = append(w.Ready, i)
				labels = append(labels, coming[i].item.Label())
			}
		}
		if len(labels) > 0 {
			w.Do = append(w.Do, fmt.Sprintf("%s, %s: %s", home.Person.Name(), home.Away(), strings.Join(labels, ", ")))
		}
	}
	return w
}

// hurry brings what is on our own bench forward. An empty cylinder is not
// made ready there.
func (o Outlook) hurry(coming []out) Way {
	w := Way{Helped: relief("hurry the bench", o.Now.Add(o.Programme.Lead.Bench))}
	for i, c := range coming {
		full := c.item.Spec.Kind != inventory.Cylinder || c.item.State == inventory.OnBench
		if full && (c.item.State == inventory.Dirty || c.item.State == inventory.OnBench) {
			w.Ready = append(w.Ready, i)
			w.Do = append(w.Do, fmt.Sprintf("%s, %s at %s", c.item.Label(), c.item.State, c.item.Place.InWords()))
		}
	}
	return w
}

// exchange brings the empty cylinders to the plant and full ones back.
func (o Outlook) exchange(coming []out) Way {
	w := Way{Helped: relief("exchange at the plant", o.Now.Add(o.Programme.Lead.Exchange))}
	there, here := 0, 0
	for i, c := range coming {
		switch {
		case c.item.State == inventory.OutAtPlant:
			there++
		case c.stage == Turnaround && c.item.State == inventory.Dirty:
			here++
		default:
			continue
		}
		w.Ready = append(w.Ready, i)
	}
	w.Do = []string{fmt.Sprintf("%d empty with us, %d at the plant", here, there)}
	return w
}

// join has pieces join from outside.
func (o Outlook) join(name string, lack int, after time.Duration) Way {
	w := Way{Helped: relief(name, o.Now.Add(after))}
	w.Units, w.Do = lack, []string{fmt.Sprintf("%d, there %s", lack, delivery.Clock(w.On, o.Now))}
	return w
}

const day = 24 * time.Hour

func relief(name string, on time.Time) outlook.Helped {
	return outlook.Helped{Relief: outlook.Relief{Name: name, On: on}}
}

// assumptions says what an outlook takes for granted.
func assumptions(guessed []Stage, seen time.Duration) []string {
	var says []string
	if len(guessed) > 0 {
		names := make([]string, len(guessed))
		for i, s := range guessed {
			names[i] = string(s)
		}
		says = append(says, fmt.Sprintf("fewer than %d loans have come back from: %s; published lengths and common practice stand in", enough, strings.Join(names, ", ")))
	}
	if weeks := seen.Hours() / (7 * 24); weeks < 6 {
		says = append(says, fmt.Sprintf("the rhythm of hand-overs rests on %.0f weeks", weeks))
	}
	return says
}

// Says tells a way in one line: what it brings, from when on, and what it does
// to the highest chance of running short from then on.
func (w Way) Says(now time.Time) string {
	return fmt.Sprintf("%s: %d from %s on, short %s on the worst day then", w.Name, len(w.Ready)+w.Units, delivery.Clock(w.On, now), w.Instead())
}

// Instead tells what a way does to the chance of running short on the worst
// day from then on.
func (w Way) Instead() string {
	after, before := Chance(w.Worst), Chance(w.Before)
	if after == before {
		return "still " + after
	}
	return after + ", not " + before
}

// Chance writes a chance as people read it.
func Chance(p float64) string {
	switch {
	case p < 0.005:
		return "under 1 %"
	case p > 0.995:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}
