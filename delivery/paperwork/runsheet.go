package paperwork

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// RunSheet returns the sheet a driver works from. Pages hold everything about
// each person of the run, house the things lent to others where they live.
func (d Desk) RunSheet(loading delivery.Loading, pages map[inventory.PersonID]store.PersonPage, house map[inventory.ItemID]inventory.Item) (paper.RunSheet, error) {
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
	for i, stop := range run.Stops {
		for _, who := range stop.Persons {
			if stop.Waits(who) {
				sheet.Stops = append(sheet.Stops, d.stop(i+1, stop, pages[who], run.Vehicle, house))
			}
		}
	}
	sheet.Load = d.load(loading, pages)
	return sheet, nil
}

func (d Desk) stop(number int, s delivery.Stop, page store.PersonPage, vehicle string, house map[inventory.ItemID]inventory.Item) paper.Stop {
	a := page.Address
	stop := paper.Stop{
		Number: number, Planned: s.Arrive, ActBy: s.ActBy, Allowed: s.Leave.Sub(s.Arrive),
		Name: page.Person.Name(), Identifiers: identifiers(page.Person),
		Address: nonEmpty(a.Street, strings.TrimSpace(a.Town+" "+a.Postcode)), Place: a.Street, Phones: phones(page.Person),
		Order: order(page.Care), Language: d.language(page.Person, vehicle),
		Access: access(a), Pets: a.Pets, Smoker: flames(a),
	}
	var notes []string
	used := make(planned)
	for _, t := range page.Care.Tasks {
		if !slices.Contains(s.Tasks, t.ID) {
			continue // opened since, for a later run
		}
		stop.Tasks = append(stop.Tasks, used.tasks(t, page)...)
		if t.Why != "" {
			notes = append(notes, string(t.Tasked.Task)+": "+t.Why)
		}
		if !t.From.IsZero() || !t.Until.IsZero() {
			stop.PromisedFrom, stop.PromisedTo = t.From, t.Until
		}
	}
	stop.Note = strings.Join(nonEmpty(append(notes, a.PlaceSays())...), " · ")
	for _, other := range page.House {
		for _, h := range other.Care.Kit {
			item := paper.Item{What: h.Spec.What(), Serial: h.Spec.Serial}
			if known, is := house[h.Item]; is {
				item = thing(known)
			}
			stop.DoNotTouch = append(stop.DoNotTouch, paper.OtherItem{
				Item: item, Why: fmt.Sprintf("lent to %s, %s", other.Person.Short(), h.Role),
			})
		}
	}
	for _, i := range page.Theirs {
		stop.DoNotTouch = append(stop.DoNotTouch, paper.OtherItem{Item: thing(i), Why: "belongs to " + i.Spec.Owner})
	}
	return stop
}

// language says what is spoken, and what to do where nobody on the vehicle
// speaks it.
func (d Desk) language(p delivery.Person, vehicle string) string {
	v, _ := d.Programme.Vehicle(vehicle)
	if p.Language == "" || slices.Contains(v.Languages, p.Language) {
		return p.Language
	}
	return p.Language + ": not spoken on this vehicle, ring the interpreter before teaching"
}

// flames says whether somebody smokes and what else burns in the home, and when
// that was asked.
func flames(a delivery.Address) string {
	parts := []string{a.Smoker, a.Heater}
	switch a.Smoker {
	case "yes":
		parts[0] = "SMOKER in the home"
	case "no":
		parts[0] = "nobody smokes"
	}
	if parts = nonEmpty(parts...); len(parts) > 0 && !a.Checked.IsZero() {
		parts = append(parts, "asked "+a.Checked.Format("2 Jan 2006"))
	}
	return strings.Join(parts, " · ")
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

// planned are the things a stop's tasks name already: each is left or taken once.
type planned map[inventory.ItemID]bool

// tasks returns what is left and taken for one open task, line by line.
func (p planned) tasks(t delivery.OpenTask, page store.PersonPage) []paper.Task {
	switch t.Tasked.Task {
	case delivery.Collect:
		var list []paper.Task
		for _, item := range page.Kit {
			if !p[item.ID] {
				p[item.ID] = true
				list = append(list, paper.Task{Work: paper.Collect, Take: thing(item)})
			}
		}
		return list
	case delivery.Swap:
		return parts(t, p.leaves(t, page, paper.Swap))
	}
	return parts(t, p.leaves(t, page, paper.Drop))
}

// parts adds what has no serial: cannula, key, filter.
func parts(t delivery.OpenTask, list []paper.Task) []paper.Task {
	if t.Parts == "" {
		return list
	}
	return append(list, paper.Task{Work: paper.Drop, Leave: paper.Item{What: t.Parts}})
}

// leaves returns what is brought: the items set aside, else what is wanted.
func (p planned) leaves(t delivery.OpenTask, page store.PersonPage, work paper.Work) []paper.Task {
	var list []paper.Task
	for _, w := range t.Bring {
		for range w.Count {
			task := paper.Task{Work: work, Leave: p.pick(w, page.Reserved, wanted(w))}
			if work == paper.Swap { // the person's own thing of that kind comes back
				task.Take = p.pick(w, page.Kit, wanted(w)+", used")
			}
			list = append(list, task)
		}
	}
	return list
}

// pick returns the next thing of a kind that no line names yet, else words for
// one.
func (p planned) pick(w delivery.Wanted, from []inventory.Item, words string) paper.Item {
	for _, item := range from {
		if item.Spec.Kind == w.Kind && !p[item.ID] {
			p[item.ID] = true
			return thing(item)
		}
	}
	return paper.Item{What: words}
}

// load tells what the vehicle leaves with and brings home, and what is asked of
// it for that.
func (d Desk) load(loading delivery.Loading, pages map[inventory.PersonID]store.PersonPage) paper.Load {
	out, back := make(map[gas.SizeCode]int), make(map[gas.SizeCode]int)
	for _, stop := range loading.Run.Open() {
		for _, who := range stop.Persons {
			if stop.Waits(who) {
				count(stop, pages[who], out, back)
			}
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

// count adds the cylinders a stop's tasks for a person move.
func count(stop delivery.Stop, page store.PersonPage, out, back map[gas.SizeCode]int) {
	for _, t := range page.Care.Tasks {
		if !slices.Contains(stop.Tasks, t.ID) {
			continue
		}
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
