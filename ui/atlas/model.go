// Package atlas is the map: where homes, depots and today's runs are, drawn
// from coordinates without a network. From it a home is opened, the place of an
// address is set, and homes are chosen by drawing around them.
package atlas

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/delivery/outline"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Home is one home on the map, its words ready.
type Home struct {
	ID      inventory.PersonID
	Address delivery.Address
	Verdict string
	Name    string
	State   string
	Next    string
	Urgent  bool
	Run     string // which vehicle comes, and when
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Homes     []Home // with a place, most urgent first
	Lost      []Home // without one
	AsOf      time.Time
	InHand    inventory.PersonID
	Chosen    []inventory.PersonID // by an area drawn
	Area      []scene.Position
	Pin       *scene.Position // where a place is to be set
	ground    scene.MapData   // coast, roads, depots, runs
	outline   outline.Outline
	prog      delivery.Programme
	gazetteer gazetteer.Gazetteer
	Changed   func()
	Followed  func(scene.Position) // what came to hand lies there
}

// NewModel returns an empty map.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Changed: func() {}, Followed: func(scene.Position) {}}
}

// loaded is one reading of the book.
type loaded struct {
	now       time.Time
	programme delivery.Programme
	outline   outline.Outline
	gazetteer gazetteer.Gazetteer
	watch     []delivery.Watch
	places    map[inventory.AddressID]delivery.Address
	runs      []delivery.Run
}

// Load reads the book anew.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "map", func(ctx context.Context) (loaded, error) { return read(ctx, m.work.Desk, now) }, m.show)
}

func read(ctx context.Context, desk *store.Desk, now time.Time) (l loaded, err error) {
	l.now = now
	if l.programme, err = desk.Programme(ctx); err != nil {
		return l, err
	}
	if l.outline, err = desk.Outline(ctx); err != nil {
		return l, err
	}
	if l.gazetteer, err = desk.Gazetteer(ctx); err != nil {
		return l, err
	}
	if l.watch, err = desk.Watch(ctx, now); err != nil {
		return l, err
	}
	errands, err := desk.Tasks(ctx, now) // homes without oxygen that a run still goes to
	if err != nil {
		return l, err
	}
	on := make(map[inventory.PersonID]bool, len(l.watch))
	for _, w := range l.watch {
		on[w.Person.ID] = true
	}
	for _, e := range errands {
		if !on[e.Person.ID] {
			l.watch = append(l.watch, e.Watch)
		}
	}
	if l.places, err = desk.Addresses(ctx); err != nil {
		return l, err
	}
	l.runs, err = desk.Runs(ctx, "")
	return l, err
}

func (m *Model) show(l loaded) {
	m.AsOf, m.prog, m.outline, m.gazetteer = l.now, l.programme, l.outline, l.gazetteer
	m.Homes, m.Lost = m.Homes[:0:0], m.Lost[:0:0]
	coming := arrivals(l.runs, l.now)
	for _, w := range l.watch {
		h := homeOf(w)
		h.Run = coming[h.ID]
		if h.Address.Point.Known() {
			m.Homes = append(m.Homes, h)
		} else {
			m.Lost = append(m.Lost, h)
		}
	}
	m.ground = paperwork.Chart(l.programme, l.outline)
	for _, r := range l.runs {
		m.ground.Routes = append(m.ground.Routes, paperwork.ChartRoute(l.programme, r.Vehicle, stopsOf(r), l.places))
	}
	if _, found := m.Hand(); !found {
		m.InHand = ""
	}
	m.choose()
	m.Changed()
}

func stopsOf(r delivery.Run) []delivery.PlannedStop {
	stops := make([]delivery.PlannedStop, len(r.Stops))
	for i, s := range r.Stops {
		stops[i] = s.PlannedStop
	}
	return stops
}

// arrivals says which vehicle comes to whom, and when.
func arrivals(runs []delivery.Run, now time.Time) map[inventory.PersonID]string {
	coming := make(map[inventory.PersonID]string)
	for _, r := range runs {
		for _, s := range r.Stops {
			for _, who := range s.Persons {
				if s.Waits(who) {
					coming[who] = fmt.Sprintf("%s comes %s", r.Vehicle, delivery.Clock(s.Arrive, now))
				}
			}
		}
	}
	return coming
}

func homeOf(w delivery.Watch) Home {
	state := []string{w.Situation, w.Gas}
	if w.Flow > 0 {
		state = append(state, w.Flow.String())
	}
	h := Home{
		ID: w.Person.ID, Address: w.Address, Name: w.Person.Short(), Next: w.Next, Urgent: w.Urgent,
		State: strings.Trim(strings.Join(state, " · "), "· "),
	}
	if w.Care.Watched() {
		h.Verdict = string(w.Verdict)
	}
	return h
}

// Data is the map as it is to be drawn for a sight.
func (m *Model) Data(sight scene.Sight) scene.MapData {
	d := m.ground
	d.Sight, d.Area, d.Pin = sight, m.Area, m.Pin
	for _, h := range m.Homes {
		mark := scene.MapHome{
			At: at(h.Address.Point), Verdict: h.Verdict, Name: h.Name, Key: string(h.ID),
			InHand: h.ID == m.InHand, Chosen: slices.Contains(m.Chosen, h.ID),
			Rough: h.Address.Rough,
		}
		d.Homes = append(d.Homes, mark)
	}
	return d
}

func at(p delivery.Point) scene.Position { return scene.Position{Lat: p.Lat, Lon: p.Lon} }

// Whole lists what the map shows at first: the whole programme.
func (m *Model) Whole() []scene.Position { return m.Data(scene.Sight{}).Everything() }

// Hand is the home in hand.
func (m *Model) Hand() (Home, bool) {
	for _, h := range slices.Concat(m.Homes, m.Lost) {
		if h.ID == m.InHand && m.InHand != "" {
			return h, true
		}
	}
	return Home{}, false
}

// Take brings a home to hand; the map follows.
func (m *Model) Take(id inventory.PersonID) {
	m.InHand = id
	if h, found := m.Hand(); found && h.Address.Point.Known() {
		m.Followed(at(h.Address.Point))
	}
	m.Changed()
}

// Open goes to the page of a person.
func (m *Model) Open(id inventory.PersonID) {
	if id != "" {
		m.work.Open(work.Target{Room: work.Person, Person: id})
	}
}

// Title says how many homes are shown.
func (m *Model) Title() string {
	if m.AsOf.IsZero() {
		return ""
	}
	words := fmt.Sprintf("%d homes · facts as of %s", len(m.Homes), m.AsOf.Format("15:04"))
	if m.outline.Empty() {
		words += " · no outline yet: coast and roads come from a GeoJSON file (2)"
	}
	return words
}
