// Package discharge is the screen on which a person leaves the ward with a
// kit: who, where they sleep tonight, what is ordered, what goes along, and
// whether the gas lasts until the concentrator runs.
package discharge

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/delivery/store"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/ui/work"
)

// Waiting is one person with an order and no oxygen yet.
type Waiting struct {
	ID         inventory.PersonID
	Name, Home string
	Order, By  string
	Since      string // the order
}

// Model is what the discharge screen shows.
type Model struct {
	work  *work.Work
	draft draft

	Waiting  []Waiting
	Choosing bool // among those who wait; else the fields are open
	Kits     []string

	texts    map[Field]string
	times    map[Field]time.Time
	badTimes map[Field]error
	touched  map[Field]bool // by a person: a proposal does not replace it
	back     map[string]time.Time
	spots    []delivery.Address // on the map, in the street written
	tried    bool               // to hand over: what lacks is shown
	busy     bool

	KitName  string
	Pieces   []Piece
	supplies []inventory.Handful // of the kit list
	store    inventory.Place     // where they are taken from
	Troubles map[string]Trouble  // by the ID of the piece
	Wrong    map[Field]string
	Bridge   delivery.Bridge
	Answer   delivery.BridgeAnswer
	Reach    delivery.Reach
	Slot     delivery.Slot // the soonest that harms nobody else, or what is promised
	Later    delivery.Slot // one with less time on the road, somewhat later; zero for none
	Quoted   bool          // there is such a slot
	Taken    bool          // one is promised

	slotRests string // what the slot was worked out from

	Changed func()                                      // the view draws itself anew
	Focus   func(f Field, piece string)                 // the keyboard goes there
	Confirm func(title, text, button string, do func()) // asks before a risky step
}

// NewModel returns an empty discharge.
func NewModel(w *work.Work) *Model {
	m := &Model{work: w, Changed: func() {}, Focus: func(Field, string) {}, Confirm: func(_, _, _ string, do func()) { do() }}
	m.clear()
	return m
}

func (m *Model) clear() {
	m.texts, m.times, m.badTimes, m.touched = map[Field]string{}, map[Field]time.Time{}, map[Field]error{}, map[Field]bool{}
	m.Pieces, m.supplies, m.KitName, m.spots, m.tried = nil, nil, "", nil, false
	m.draft.page, m.draft.kit = store.PersonPage{}, nil
	m.Slot, m.Later, m.Quoted, m.Taken, m.slotRests = delivery.Slot{}, delivery.Slot{}, false, false, ""
	m.Wrong, m.Troubles = map[Field]string{}, map[string]Trouble{}
}

// loaded is one reading of the book.
type loaded struct {
	waiting   []store.Found
	ready     []inventory.Item
	programme delivery.Programme
	back      map[string]time.Time
	board     delivery.Board
	stock     []inventory.SupplyStock
	places    gazetteer.Gazetteer
	page      store.PersonPage
	kit       map[inventory.ItemID]inventory.Item
}

// Load reads the book anew for a person, or for whoever is chosen next.
func (m *Model) Load(who inventory.PersonID) {
	now := m.work.Now()
	work.Ask(m.work, "discharge", func(ctx context.Context) (loaded, error) {
		return m.read(ctx, who, now)
	}, func(l loaded) { m.show(l, who, now) })
}

func (m *Model) read(ctx context.Context, who inventory.PersonID, now time.Time) (l loaded, err error) {
	desk := m.work.Desk
	if l.waiting, err = desk.Waiting(ctx); err != nil {
		return l, err
	}
	if l.ready, _, err = desk.Items(ctx, items.Filter{States: []inventory.State{inventory.Ready}}); err != nil {
		return l, err
	}
	if l.programme, err = desk.Programme(ctx); err != nil {
		return l, err
	}
	if l.board, err = desk.Board(ctx, now); err != nil {
		return l, err
	}
	if l.stock, err = desk.Supplies(ctx); err != nil {
		return l, err
	}
	if l.places, err = desk.Gazetteer(ctx); err != nil {
		return l, err
	}
	if l.back, err = desk.Back(ctx); err != nil || who == "" {
		return l, err
	}
	l.page, err = desk.Page(ctx, who, now)
	return l, err
}

func (m *Model) show(l loaded, who inventory.PersonID, now time.Time) {
	m.clear()
	m.draft = draft{now: now, programme: l.programme, ready: l.ready, page: l.page, board: l.board, stock: l.stock, places: l.places}
	m.back = l.back
	m.Waiting, m.Kits = m.Waiting[:0:0], nil
	for _, f := range l.waiting {
		m.Waiting = append(m.Waiting, waiting(f, now))
	}
	for _, k := range l.programme.Kits {
		m.Kits = append(m.Kits, k.Name)
	}
	m.fill(l.page.Person, l.page.Address, l.page.Care)
	m.times[Leaves] = now.Add(l.programme.WardDelay).Round(5 * time.Minute)
	m.Choosing = who == "" && len(m.Waiting) > 0
	m.begin()
}

// begin brings the keyboard to where the work begins: to those who wait, or
// to the fields, with the first kit list proposed.
func (m *Model) begin() {
	switch {
	case m.Choosing:
		m.recompute()
		m.Focus(Who, "")
		return
	default:
		if kit, any := m.draft.programme.KitFor(m.order().Highest()); any {
			m.SetKit(kit.Name)
		} else {
			m.recompute()
		}
	}
	m.Focus(Family, "")
}

func waiting(f store.Found, now time.Time) Waiting {
	w := Waiting{
		ID: f.Person.ID, Name: f.Person.Name(), Home: f.Address.Where(),
		Order: f.Care.Order.InWords(), By: f.Care.Order.Prescriber, Since: delivery.Ago(f.Care.OrderedAt, now),
	}
	if w.Home == "" {
		w.Home = "no address yet"
	}
	return w
}

// Choose opens the fields for a person who waits; with no ID for somebody new.
func (m *Model) Choose(id inventory.PersonID) {
	if id != "" {
		m.Load(id)
		return
	}
	m.Choosing = false
	m.begin()
}

// Known reports whether the person was in the book before.
func (m *Model) Known() bool { return m.draft.page.Person.ID != "" }

// Text is what stands in a field.
func (m *Model) Text(f Field) string { return m.texts[f] }

// Time is the time in a field; zero for none.
func (m *Model) Time(f Field) time.Time { return m.times[f] }

// Set takes what was written into a field.
func (m *Model) Set(f Field, text string) {
	if m.texts[f] == text {
		return
	}
	m.texts[f], m.touched[f] = text, true
	if f == Street {
		m.findStreet(text)
	}
	m.recompute()
}

// SetTime takes a time written into a field, or why it can't be read.
func (m *Model) SetTime(f Field, t time.Time, err error) {
	if err == nil && m.times[f].Equal(t) && m.badTimes[f] == nil {
		return
	}
	m.times[f], m.badTimes[f], m.touched[f] = t, err, true
	m.Taken = m.Taken && f != Arrives
	m.recompute()
}

// recompute works everything out anew from what stands on the screen. It
// reads nothing.
func (m *Model) recompute() {
	m.draft.now = m.work.Now()
	m.rekit()
	m.supply()
	m.Troubles = map[string]Trouble{}
	for _, p := range m.Pieces {
		if t, bad := m.judge(p); bad {
			m.Troubles[p.ID()] = t
		}
	}
	act, wrong := m.act()
	m.Wrong = wrong
	m.quote(act.Register.Address)
	m.proposeArrival(act.Register.Address.Point)
	act.Discharge.Arrives, act.Discharge.Until = m.times[Arrives], m.times[Arrives]
	m.answer(act)
	m.Changed()
}

// proposeArrival writes the soonest promise that harms nobody else into its
// field until somebody writes another; where there is no such slot, the
// earliest time a vehicle could be there, on the next quarter of an hour.
func (m *Model) proposeArrival(home delivery.Point) {
	m.Reach = m.draft.programme.Soonest(m.draft.now, m.back, home)
	if m.touched[Arrives] {
		return
	}
	m.times[Arrives] = time.Time{}
	if m.Quoted {
		m.times[Arrives] = m.Slot.Promise()
		return
	}
	if m.Reach.At.IsZero() || !m.brings() {
		return
	}
	const quarter = 15 * time.Minute
	at := m.Reach.At
	if ride := m.draft.programme.RideAt(m.draft.programme.Hospital.Point, home, m.times[Leaves]); m.times[Leaves].Add(ride.Takes).After(at) {
		at = m.times[Leaves].Add(ride.Takes) // nobody opens the door before
	}
	m.times[Arrives] = at.Add(quarter - 1).Truncate(quarter)
}

func (m *Model) brings() bool {
	for _, p := range m.Pieces {
		if p.Brought {
			return true
		}
	}
	return false
}
