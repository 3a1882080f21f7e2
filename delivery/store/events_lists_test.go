package store_test

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/stocking"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

var update = flag.Bool("update", false, "write the golden file of events and lists anew")

// list says what one list of the program tells of the person of the scene.
type list func(ctx context.Context, s *scene, who inventory.PersonID) (string, error)

// deskLists are the readings of a desk by the name of their method.
var deskLists = map[string]list{
	"Watch": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		rows, err := s.Watch(ctx, s.now)
		return told(rows, func(w delivery.Watch) string {
			return about(w.Person.ID, who, fmt.Sprint(w.Verdict, ", ", w.Situation, ", ", w.Next))
		}), err
	},
	"WatchOne": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		w, err := s.WatchOne(ctx, who, s.now)
		return fmt.Sprint(w.Care.Phase, ", ", w.Next), err
	},
	"Calls": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		due, tell, err := s.Calls(ctx, s.now.Add(36*time.Hour))
		line := func(sort string) func(delivery.CheckIn) string {
			return func(c delivery.CheckIn) string { return about(c.Person.ID, who, sort) }
		}
		return told(due, line("a call is due")) + told(tell, line("the clinician is told")), err
	},
	"Tasks": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		open, err := s.Tasks(ctx, s.now)
		return told(open, func(e delivery.Errand) string {
			return about(e.Person.ID, who, told(e.Care.Tasks, func(t delivery.OpenTask) string { return string(t.Tasked.Task) + ": " + t.Why }))
		}), err
	},
	"Runs": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		runs, err := s.Runs(ctx, "")
		return told(runs, func(r delivery.Run) string {
			_, stops := r.Visit(who)
			return about(stops, true, r.Vehicle+" stops there")
		}), err
	},
	"Propose": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		plan, err := s.Propose(ctx, s.now, 50, nil, nil)
		return told(plan.Runs, func(r delivery.Planned) string {
			return told(r.Stops, func(p delivery.PlannedStop) string {
				return about(slices.Contains(p.Persons, who), true, fmt.Sprintf("%s for %d tasks", r.Vehicle, len(p.Tasks)))
			})
		}), err
	},
	"Board": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		b, err := s.Board(ctx, s.now)
		stop, on := b.StopOf(who)
		return fmt.Sprintf("on it: %v, waits for a round: %v", on, on && b.Waits(stop)), err
	},
	"Waiting": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		found, err := s.Waiting(ctx)
		return told(found, func(f store.Found) string { return about(f.Person.ID, who, "waits for discharge") }), err
	},
	"Homes": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		found, err := s.Homes(ctx, "bridge", 9)
		return told(found, func(f store.Found) string { return about(f.Person.ID, who, string(f.Care.Phase)+", "+f.Address.Street) }), err
	},
	"Page": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		p, err := s.Page(ctx, who, s.now)
		kit := told(p.Kit, func(i inventory.Item) string { return i.Label() + " " + string(i.State) })
		return kit + " | set aside: " + told(p.Reserved, inventory.Item.Label) + " | " + p.Address.Street, err
	},
	"Items": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		found, _, err := s.Items(ctx, items.Filter{Text: "E-bridge"})
		return told(found, func(i inventory.Item) string { return i.Label() + " " + string(i.State) + ", " + i.Place.InWords() }), err
	},
	"Tallies": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		all, err := s.Tallies(ctx)
		return told(all, func(t items.Tally) string { return fmt.Sprint(t.Count, " ", t.Kind, t.Size, " ", t.State) }), err
	},
	"PlaceTallies": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		all, err := s.PlaceTallies(ctx)
		return told(all, func(t items.PlaceTally) string {
			return about(t.Place == "address", true, fmt.Sprint(t.Count, " ", t.Kind, t.Size, " ", t.State))
		}), err
	},
	"Hidden": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		all, err := s.Hidden(ctx, s.now)
		return told(all, func(h delivery.Hidden) string { return about(h.Person.ID, who, h.Labels()+": "+h.Step) }), err
	},
	"Questions": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		open, err := s.Questions(ctx, false)
		return told(open, func(q delivery.Inquiry) string { return q.Title() + ", " + string(q.Owner()) }), err
	},
	"OpenQuestions": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		n, err := s.OpenQuestions(ctx)
		return fmt.Sprint(n), err
	},
	"Supplies": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		stock, err := s.Supplies(ctx)
		return told(stock, func(x inventory.SupplyStock) string { return fmt.Sprint(x.Count, " ", x.Supply) }), err
	},
	"Outlook": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		o, err := s.Outlook(ctx, s.now)
		return told(o.Lines(stocking.WhatIf{}), func(l stocking.Line) string {
			return fmt.Sprintf("%s: %d ready, %d needed, %d idle, %d coming", l.What, l.Ready, l.Needed, l.Idle, l.Coming)
		}), err
	},
	"Measures": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		all, err := s.Measures(ctx, s.now)
		var of []string
		for _, m := range all {
			cases, open := 0, 0
			for _, c := range m.Cases {
				if c.Person == who {
					cases++
					if c.Open {
						open++
					}
				}
			}
			if cases > 0 {
				of = append(of, fmt.Sprintf("%s %d, %d open", m.Name, cases, open))
			}
		}
		return strings.Join(of, "; "), err
	},
	"Rentals": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		all, err := s.Rentals(ctx, "Gas works", "")
		return told(all, func(r delivery.Rental) string {
			return fmt.Sprintf("%s %s, with us: %v", r.Item.Label(), r.Item.State, r.With(s.now))
		}), err
	},
	"Recalls": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		notices, err := s.Recalls(ctx)
		return strings.Join(notices, ", "), err
	},
	"RecallFile": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		units, err := s.RecallFile(ctx, "Q-9", s.now)
		return told(units, func(u delivery.RecallUnit) string { return about(u.Person, who, u.Item.Label()) }), err
	},
	"StockAnswer": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		a, err := s.StockAnswer(ctx, delivery.Wanted{Kind: inventory.Concentrator, Rated: 5, Count: 5}, s.now)
		return a.Title, err
	},
	"Outage": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		plan, err := s.Outage(ctx, delivery.PowerCut{By: delivery.Everywhere}, 4*time.Hour, s.now)
		return told(plan.Homes, func(h delivery.OutageHome) string {
			return about(h.Person.ID, who, fmt.Sprint("in it, no backup: ", h.NoBackup))
		}), err
	},
	"Since": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		news, err := s.Since(ctx, booktest.Start.Add(time.Minute), s.now)
		return told(news, func(n delivery.News) string { return about(n.Person, who, strings.Join(n.Says, ", ")) }), err
	},
	"ItemPage": func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		page, err := s.ItemPage(ctx, s.thing["CN-held"])
		return string(page.Item.State), err
	},
	"Facts": func(ctx context.Context, s *scene, who inventory.PersonID) (string, error) {
		facts, err := s.Facts(ctx, items.About{Person: who})
		return facts[len(facts)-1].Statement.Says(), err
	},
}

// noLists are the methods of a desk that read and tell of nobody's state, or
// tell what a list above tells, each with the reason.
var noLists = map[string]string{
	"Access": "who works in the book", "Addresses": "the map", "Streets": "the map", "Gazetteer": "the map", "PlacesFor": "the map", "Outline": "the map", "Names": "names alone", "Catalogue": "products",
	"Labels": "labels alone", "Lists": "lists taken in", "LastRecorded": "a time", "Programme": "settings", "Book": "the book", "On": "the same book",
	"Unveiled": "the same desk", "User": "who is at the desk", "PowerCuts": "zones", "Cautions": "of the book", "Back": "vehicles", "Withdrawn": "vehicles", "Planner": "of the day",
	"Loading": "of a run", "RunPages": "pages of a run", "LastPack": "printing", "PackNews": "what Since tells, since the print", "Past": "the book as it was",
	"Audit": "of the book", "Item": "one item", "Near": "serials", "Person": "finds an id", "Alternative": "one item", "FindRecalled": "by serial",
	"Exchanges": "signed papers", "Stocktakes": "signed papers", "Differences": "of a count", "WeighExchange": "of a slip", "FillSources": "of plants",
	"LowFillAnswer": "of a fill", "Alarm": "an answer on one call", "NightCall": "an answer on one call", "OrderChange": "an answer on one order", "ReadLists": "of a file",
	"Ask": "for acts to look", "Do": "writes", "DoAll": "writes", "HandOver": "writes", "PlanDay": "writes", "TakeIn": "writes", "KeepCopy": "writes a copy",
	"SignIn": "who is at the desk", "SignOut": "who is at the desk",
}

// told joins what is said of each of a list.
func told[T any](of []T, says func(T) string) string {
	var all []string
	for _, one := range of {
		if text := says(one); text != "" {
			all = append(all, text)
		}
	}
	return strings.Join(all, "; ")
}

// about is what a line says where it is about the one looked for.
func about[T comparable](is, who T, says string) string {
	if is != who {
		return ""
	}
	return says
}

// sheets are what every sheet of the clerk says in rows that name the person or
// a thing of the kit.
func sheets(t *testing.T, s *scene) map[string]list {
	t.Helper()
	clerk, err := paperwork.NewClerk(context.Background(), s.Desk, s.now)
	require.NoError(t, err)
	made := make(map[string]list)
	v := reflect.ValueOf(clerk)
	for i := range v.NumMethod() {
		method, ok := v.Method(i).Interface().(func(context.Context) (sheet.Out, error))
		if !ok {
			continue
		}
		made["sheet "+v.Type().Method(i).Name] = func(ctx context.Context, _ *scene, _ inventory.PersonID) (string, error) {
			out, err := method(ctx)
			rows := 0
			for _, row := range out.Rows {
				if text := fmt.Sprint(row...); strings.Contains(text, "Bridge") || strings.Contains(text, "E-bridge") || strings.Contains(text, "E-rented") {
					rows++
				}
			}
			return fmt.Sprintf("%d rows", rows), err
		}
	}
	made["paper night pack"] = func(ctx context.Context, s *scene, _ inventory.PersonID) (string, error) {
		pack, _, err := clerk.Night(ctx)
		in := 0
		for _, h := range pack.Households {
			if strings.Contains(h.Name, "Bridge") {
				in++
			}
		}
		return fmt.Sprintf("%d households", in), err
	}
	return made
}

// TestEachEventIsToldByEveryList holds what every list of the program says of
// one person after each event against a file that was read line by line. A list
// that is new has to be named here.
func TestEachEventIsToldByEveryList(t *testing.T) {
	desk := reflect.TypeFor[*store.Desk]()
	for i := range desk.NumMethod() {
		name := desk.Method(i).Name
		_, lists := deskLists[name]
		assert.True(t, lists != (noLists[name] != ""), "%s is in deskLists: %v; it has to be in one of the two", name, lists)
	}
	var got strings.Builder
	var usual map[string]string
	for _, event := range eventsOfLife() {
		clock := booktest.NewClock()
		s := newSceneAt(t, clock)
		rented := s.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-rented", Owner: "Gas works"}, 2000)
		s.do(delivery.Visit{Person: s.who["Bridge"], Left: []delivery.Piece{{Item: rented, Gauge: new(gas.PSI(2000))}}})
		s.do(delivery.ReceiveSupply{Supply: "cannula", Count: 10, Lot: "C77", To: "depot:harbour"})
		s.do(delivery.GiveSupply{Person: s.who["Bridge"], Supplies: "1 cannula lot C77", From: "depot:harbour"})
		s.do(delivery.Call{Person: s.who["Bridge"], Answered: true, SpO2: new(95.0), Flow: new(gas.Flow(4))})
		s.now = s.now.Add(time.Minute)
		clock.Advance(time.Hour)
		if event.act != nil {
			s.do(event.act(s))
		}
		lists := maps.Clone(deskLists)
		maps.Copy(lists, sheets(t, s))
		fmt.Fprintf(&got, "%s\n", event.name)
		said, same := make(map[string]string), []string{}
		for _, name := range slices.Sorted(maps.Keys(lists)) {
			text, err := lists[name](context.Background(), s, s.who["Bridge"])
			require.NoError(t, err, "%s: %s", event.name, name)
			said[name] = text
			if usual != nil && usual[name] == text {
				same = append(same, name)
				continue
			}
			fmt.Fprintf(&got, "  %s: %s\n", name, text)
		}
		if usual == nil {
			usual = said
		} else {
			fmt.Fprintf(&got, "  as before: %s\n", strings.Join(same, ", "))
		}
		s.clean()
	}
	path := filepath.Join("testdata", "events.txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got.String()), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got.String(), "read the difference, then -update")
}

// eventsOfLife are the events that reach every list; the first is none.
func eventsOfLife() []struct {
	name string
	act  func(*scene) delivery.Act
} {
	day := func(s *scene, days int) time.Time { return s.now.AddDate(0, 0, days) }
	return []struct {
		name string
		act  func(*scene) delivery.Act
	}{
		{"nothing", nil},
		{"stop", func(s *scene) delivery.Act {
			return delivery.StopOxygen{Person: s.who["Bridge"], Reason: "recovered", OrderedBy: "clinic"}
		}},
		{"death", func(s *scene) delivery.Act {
			return delivery.Die{Person: s.who["Bridge"], ToldBy: "ward 6B", Contact: "Ben", Phone: "555-0177", NotBefore: day(s, 7)}
		}},
		{"readmission", func(s *scene) delivery.Act {
			return delivery.Readmit{Person: s.who["Bridge"], Ward: "6B", Until: day(s, 3), Portable: []inventory.ItemID{s.thing["E-bridge"]}}
		}},
		{"move", func(s *scene) delivery.Act {
			return delivery.Relocate{Person: s.who["Bridge"], Address: delivery.Address{Street: "Rope Walk 3", Mains: delivery.MainsYes}}
		}},
		{"refusal", func(s *scene) delivery.Act {
			return delivery.Refuse{Person: s.who["Bridge"], What: delivery.TheBackup, Why: "no room", Again: day(s, 3)}
		}},
		{"recall", func(s *scene) delivery.Act {
			return delivery.Recall{Notice: "Q-9", Items: []inventory.ItemID{s.thing["E-bridge"], s.thing["CN-held"]}}
		}},
		{"missed delivery", func(s *scene) delivery.Act {
			return delivery.Visit{Run: s.run, Person: s.who["Bridge"], Failed: "nobody in", Next: s.now.Add(time.Hour)}
		}},
	}
}
