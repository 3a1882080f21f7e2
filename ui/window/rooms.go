package window

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/alarm"
	"lungwort/ui/atlas"
	"lungwort/ui/bench"
	"lungwort/ui/calls"
	"lungwort/ui/chase"
	"lungwort/ui/discharge"
	"lungwort/ui/homes"
	"lungwort/ui/item"
	"lungwort/ui/items"
	"lungwort/ui/labels"
	"lungwort/ui/measures"
	"lungwort/ui/needs"
	"lungwort/ui/news"
	"lungwort/ui/nightcall"
	"lungwort/ui/nightlog"
	"lungwort/ui/outage"
	"lungwort/ui/outlook"
	"lungwort/ui/papers"
	"lungwort/ui/person"
	"lungwort/ui/places"
	"lungwort/ui/plant"
	"lungwort/ui/questions"
	"lungwort/ui/recall"
	"lungwort/ui/receive"
	"lungwort/ui/returns"
	"lungwort/ui/runs"
	"lungwort/ui/settings"
	"lungwort/ui/stocktake"
	"lungwort/ui/supplies"
	"lungwort/ui/takein"
	"lungwort/ui/visit"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// rooms makes every screen of the window.
func rooms(w *work.Work) map[work.Room]room {
	return map[work.Room]room{
		work.Needs:     needs.New(w),
		work.News:      news.New(w),
		work.Alarm:     alarm.New(w),
		work.Night:     nightcall.New(w),
		work.NightLog:  nightlog.New(w),
		work.Discharge: discharge.New(w),
		work.Calls:     calls.New(w),
		work.Runs:      runs.New(w),
		work.Map:       atlas.New(w),
		work.Visit:     visit.New(w),
		work.Return:    returns.New(w),
		work.Receive:   receive.New(w),
		work.Papers:    papers.New(w),
		work.Intake:    takein.New(w),
		work.Labels:    labels.New(w),
		work.Outage:    outage.New(w),
		work.Outlook:   outlook.New(w),
		work.Measures:  measures.New(w),
		work.Settings:  settings.New(w),
		work.Homes:     homes.New(w),
		work.Person:    person.New(w),
		work.Items:     items.New(w),
		work.Item:      item.New(w),
		work.Places:    places.New(w),
		work.Chase:     chase.New(w),
		work.Bench:     bench.New(w),
		work.Supplies:  supplies.New(w),
		work.Questions: questions.New(w),
		work.Plant:     plant.New(w),
		work.Recall:    recall.New(w),
		work.Stocktake: stocktake.New(w),
	}
}

// names are the screens of the side bar in their order, with the words they go
// by: what the coordinator watches, what the depot does, what the desk needs
// beside.
var names = []struct {
	room  work.Room
	name  string
	apart bool // begins a group
}{
	{room: work.Needs, name: "Needs you"},
	{room: work.Discharge, name: "Discharge"},
	{room: work.Calls, name: "Calls"},
	{room: work.Night, name: "Gas ending"},
	{room: work.Homes, name: "Homes"},
	{room: work.Runs, name: "Runs"},
	{room: work.Map, name: "Map"},
	{room: work.Outage, name: "Outage"},
	{room: work.Questions, name: "Questions"},

	{room: work.Items, name: "Items", apart: true},
	{room: work.Places, name: "Places"},
	{room: work.Chase, name: "Chase"},
	{room: work.Return, name: "Return"},
	{room: work.Bench, name: "Bench"},
	{room: work.Receive, name: "Receive"},
	{room: work.Supplies, name: "Supplies"},
	{room: work.Plant, name: "Plant"},
	{room: work.Recall, name: "Recall"},
	{room: work.Stocktake, name: "Stocktake"},
	{room: work.Outlook, name: "Outlook"},
	{room: work.Measures, name: "Measures"},

	{room: work.Labels, name: "Labels", apart: true},
	{room: work.Papers, name: "Papers"},
	{room: work.Intake, name: "Take in"},
	{room: work.Settings, name: "Settings"},
}

func (f *Frame) entries(counts map[work.Room]int) []widgets.SideEntry {
	var list []widgets.SideEntry
	for _, n := range names {
		if f.work.Has(n.room) {
			list = append(list, widgets.SideEntry{ID: string(n.room), Name: n.name, Count: counts[n.room], Apart: n.apart})
		}
	}
	return list
}

// countRooms returns what waits on each screen.
func countRooms(ctx context.Context, desk *store.Desk, now time.Time) (map[work.Room]int, error) {
	counts := make(map[work.Room]int)
	rows, err := desk.Watch(ctx, now)
	if err != nil {
		return nil, err
	}
	counts[work.Homes] = len(rows)
	for _, r := range rows {
		if r.Needs() {
			counts[work.Needs]++
		}
	}
	p, err := desk.Programme(ctx)
	if err != nil {
		return nil, err
	}
	counts[work.Calls] = len(delivery.DueCalls(p, rows, now))
	waiting, err := desk.Waiting(ctx)
	if err != nil {
		return nil, err
	}
	counts[work.Discharge] = len(waiting)
	cuts, err := desk.PowerCuts(ctx, now)
	if err != nil {
		return nil, err
	}
	counts[work.Outage] = len(cuts)
	runs, err := desk.Runs(ctx, "")
	if err != nil {
		return nil, err
	}
	counts[work.Runs] = len(runs)
	if counts[work.Questions], err = desk.OpenQuestions(ctx); err != nil {
		return nil, err
	}
	stock, err := desk.Supplies(ctx)
	if err != nil {
		return nil, err
	}
	counts[work.Supplies] = len(p.Low(stock, now))
	tallies, err := desk.Tallies(ctx)
	if err != nil {
		return nil, err
	}
	for _, t := range tallies {
		counts[work.Items] += t.Count
		switch t.State {
		case inventory.WithDriver:
			counts[work.Return] += t.Count
		case inventory.Dirty, inventory.OnBench, inventory.InQuarantine:
			counts[work.Bench] += t.Count
		}
	}
	return counts, nil
}

// Rooms returns the screens of the side bar in their order.
func Rooms() []work.Room {
	list := make([]work.Room, len(names))
	for i, n := range names {
		list[i] = n.room
	}
	return list
}
