package paperwork

import (
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// RunSheet returns the sheet a driver works from. Pages hold everything about
// each person of the run.
func (d Desk) RunSheet(loading delivery.Loading, pages map[inventory.PersonID]store.PersonPage) (paper.RunSheet, error) {
	run := loading.Run
	code, err := tag.PaperCode(tag.PaperRun, string(run.ID))
	if err != nil {
		return paper.RunSheet{}, err
	}
	sheet := paper.RunSheet{
		Head: d.head(code), Run: "Run " + string(run.ID), Vehicle: run.Vehicle, Driver: run.Driver,
		Depart: run.Departs, Back: run.Back, FireDistance: d.fireDistance(),
	}
	if v, ok := d.Programme.Vehicle(run.Vehicle); ok {
		if site, ok := d.Programme.Site(v.Depot); ok {
			sheet.Depot = site.Title
		}
	}
	for _, r := range run.Rests {
		sheet.Breaks = append(sheet.Breaks, r.From.Format("15:04")+"–"+r.Until.Format("15:04"))
	}
	number := 0
	for _, stop := range run.Stops {
		if !stop.Closed.IsZero() {
			continue
		}
		for _, who := range stop.Persons {
			number++
			sheet.Stops = append(sheet.Stops, d.stop(number, stop, pages[who]))
		}
	}
	sheet.Load = d.load(loading, pages)
	return sheet, nil
}

func (d Desk) stop(number int, s delivery.Stop, page store.PersonPage) paper.Stop {
	a := page.Address
	stop := paper.Stop{
		Number: number, Planned: s.Arrive, ActBy: s.ActBy, Allowed: s.Leave.Sub(s.Arrive),
		Name: page.Person.Name(), Identifiers: identifiers(page.Person),
		Address: nonEmpty(a.Street, strings.TrimSpace(a.Town+" "+a.Postcode)), Place: a.Street, Phones: phones(page.Person),
		Order: order(page.Care), Language: page.Person.Language,
		Access: access(a), Pets: a.Pets, Smoker: a.Smoker, Note: a.PlaceSays(),
	}
	for _, t := range page.Care.Tasks {
		stop.Tasks = append(stop.Tasks, tasks(t, page)...)
		if !t.From.IsZero() || !t.Until.IsZero() {
			stop.PromisedFrom, stop.PromisedTo = t.From, t.Until
		}
	}
	for _, other := range page.House {
		for _, h := range other.Care.Kit {
			stop.DoNotTouch = append(stop.DoNotTouch, paper.OtherItem{
				Item: paper.Item{What: h.Spec.What(), Serial: h.Spec.Serial},
				Why:  fmt.Sprintf("lent to %s, %s", other.Person.Short(), h.Role),
			})
		}
	}
	for _, i := range page.Theirs {
		stop.DoNotTouch = append(stop.DoNotTouch, paper.OtherItem{Item: thing(i), Why: "belongs to " + i.Spec.Owner})
	}
	return stop
}

func identifiers(p delivery.Person) []string {
	var list []string
	if p.Born != "" {
		list = append(list, "born "+p.Born)
	}
	if p.Record != "" {
		list = append(list, "record no. "+p.Record)
	}
	return list
}

func access(a delivery.Address) string {
	parts := []string{a.Access}
	if a.Stairs > 0 {
		parts = append(parts, fmt.Sprintf("%d floors by stairs", a.Stairs))
	}
	return strings.Trim(strings.Join(parts, " · "), " ·")
}

// tasks returns what is left and taken for one open task, line by line.
func tasks(t delivery.OpenTask, page store.PersonPage) []paper.Task {
	switch t.Tasked.Task {
	case delivery.Collect:
		list := make([]paper.Task, len(page.Kit))
		for i, item := range page.Kit {
			list[i] = paper.Task{Work: paper.Collect, Take: thing(item)}
		}
		return list
	case delivery.Swap:
		return parts(t, leaves(t, page, paper.Swap))
	}
	return parts(t, leaves(t, page, paper.Drop))
}

// parts adds what has no serial: cannula, key, filter.
func parts(t delivery.OpenTask, list []paper.Task) []paper.Task {
	if t.Parts == "" {
		return list
	}
	return append(list, paper.Task{Work: paper.Drop, Leave: paper.Item{What: t.Parts}})
}

// leaves returns what is brought: the items set aside, else what is wanted.
func leaves(t delivery.OpenTask, page store.PersonPage, work paper.Work) []paper.Task {
	var list []paper.Task
	used := make(map[inventory.ItemID]bool)
	for _, w := range t.Bring {
		for range w.Count {
			task := paper.Task{Work: work, Leave: paper.Item{What: wanted(w)}}
			for _, item := range page.Reserved {
				if item.Spec.Kind == w.Kind && !used[item.ID] {
					used[item.ID] = true
					task.Leave = thing(item)
					break
				}
			}
			if work == paper.Swap {
				task.Take = taken(w, page)
			}
			list = append(list, task)
		}
	}
	return list
}

// taken returns what a swap takes back: the person's own thing of that kind.
func taken(w delivery.Wanted, page store.PersonPage) paper.Item {
	for _, item := range page.Kit {
		if item.Spec.Kind == w.Kind {
			return thing(item)
		}
	}
	return paper.Item{What: wanted(w) + ", used"}
}

// load tells what the vehicle leaves with and brings home, and what is asked of
// it for that.
func (d Desk) load(loading delivery.Loading, pages map[inventory.PersonID]store.PersonPage) paper.Load {
	out, back := make(map[gas.SizeCode]int), make(map[gas.SizeCode]int)
	for _, stop := range loading.Run.Open() {
		for _, who := range stop.Persons {
			count(pages[who], out, back)
		}
	}
	load := paper.Load{Weighs: loading.Weighs(), Papers: loading.Asked(), Rules: loading.Sources()}
	if excess := loading.Excess(); excess != "" {
		load.Wrong = append(load.Wrong, excess+" more than the vehicle has room for")
	}
	for _, m := range loading.Missing() {
		load.Wrong = append(load.Wrong, "missing: "+m)
	}
	for _, part := range d.Programme.VanParts {
		load.Spares = append(load.Spares, paper.Spare{Name: part.Supply, Quantity: part.Count})
	}
	for _, size := range d.Programme.Sizes.All() {
		if full, used := out[size.Code], back[size.Code]; full+used > 0 {
			load.Cylinders = append(load.Cylinders, paper.CylinderCount{Size: string(size.Code), FullOut: full, BackOld: used})
		}
	}
	return load
}

// count adds the cylinders a person's open tasks move.
func count(page store.PersonPage, out, back map[gas.SizeCode]int) {
	for _, t := range page.Care.Tasks {
		for _, w := range t.Bring {
			if w.Kind != inventory.Cylinder {
				continue
			}
			out[w.Size] += w.Count
			if t.Tasked.Task == delivery.Swap {
				back[w.Size] += w.Count
			}
		}
		if t.Tasked.Task == delivery.Collect {
			for _, h := range page.Care.Kit {
				if h.Spec.Kind == inventory.Cylinder {
					back[h.Spec.Size]++
				}
			}
		}
	}
}
