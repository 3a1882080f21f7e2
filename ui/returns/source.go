package returns

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	items "lungwort/inventory/store"
)

// Source is a vehicle or a person from whom things are expected back.
type Source struct {
	ID           string // of a place or a person
	Person       inventory.PersonID
	Name, Detail string
	Depot        string // where the vehicle is at home
	Expected     []inventory.Item
}

// amnesty is the source of what is left with no questions asked.
const amnesty = "amnesty"

// loaded is one reading of the book.
type loaded struct {
	sources   []Source
	programme delivery.Programme
}

func read(ctx context.Context, desk *store.Desk, who inventory.PersonID, now time.Time) (l loaded, err error) {
	if l.programme, err = desk.Programme(ctx); err != nil {
		return l, err
	}
	driven, _, err := desk.Items(ctx, items.Filter{States: []inventory.State{inventory.WithDriver}})
	if err != nil {
		return l, err
	}
	l.sources = vehicles(l.programme, driven)
	if a := l.programme.Amnesty; a.On(now) {
		l.sources = append(l.sources, Source{ID: amnesty, Name: "Amnesty", Detail: strings.Trim("no questions asked · "+a.Where, " ·")})
	}
	errands, err := desk.Tasks(ctx, now)
	if err != nil {
		return l, err
	}
	people := []inventory.PersonID{}
	for _, e := range errands {
		if e.Care.Has(delivery.Collect) {
			people = append(people, e.Care.Person)
		}
	}
	if who != "" && !slices.Contains(people, who) {
		people = append(people, who)
	}
	for _, id := range people {
		page, err := desk.Page(ctx, id, now)
		if err != nil {
			return l, err
		}
		if s := personSource(page); len(s.Expected) > 0 || id == who {
			l.sources = append(l.sources, s)
		}
	}
	return l, nil
}

// vehicles are those with things taken from homes on board.
func vehicles(p delivery.Programme, driven []inventory.Item) []Source {
	var all []Source
	for _, item := range driven {
		i := slices.IndexFunc(all, func(s Source) bool { return s.ID == string(item.Place) })
		if i < 0 {
			s := Source{ID: string(item.Place), Name: item.Place.Name()}
			if v, ok := p.Vehicle(s.Name); ok {
				s.Depot = v.Depot
			} else {
				s.Name = "a vehicle nobody named"
			}
			all, i = append(all, s), len(all)
		}
		all[i].Expected = append(all[i].Expected, item)
	}
	for i := range all {
		all[i].Detail = things(len(all[i].Expected)) + " taken from homes"
	}
	return all
}

func personSource(page store.PersonPage) Source {
	s := Source{
		ID: string(page.Person.ID), Person: page.Person.ID, Name: page.Person.Short(),
		Expected: slices.Concat(page.Kit, page.Last),
	}
	s.Detail = strings.Trim(things(len(s.Expected))+" · "+page.Address.Where(), " ·")
	return s
}

func things(n int) string {
	if n == 1 {
		return "1 thing"
	}
	return fmt.Sprintf("%d things", n)
}
