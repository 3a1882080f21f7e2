// Package homes is every person in the book, on oxygen or not, with the home,
// what was ordered and what to do next.
package homes

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// most is how many persons the list shows; what is typed narrows it.
const most = 500

// Row is one person as the list shows it, its words ready.
type Row struct {
	ID      inventory.PersonID
	Verdict string // empty when the person has no oxygen of ours
	Name    string
	Detail  string // record number and birth date
	Street  string
	Phone   string
	Phase   string
	Since   string
	Order   string
	Gas     string
	Read    string // age of the gas reading
	Next    string
	Urgent  bool
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Text  string // narrows the list
	Rows  []Row
	Watch int       // of the rows, on oxygen
	AsOf  time.Time // of the facts shown
	Asked bool      // something was read; an empty list means nobody

	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

type loaded struct {
	found []store.Found
	watch map[inventory.PersonID]delivery.Watch
	now   time.Time
}

// Filter narrows the list to the persons whose name, record number, phone or
// street holds each word.
func (m *Model) Filter(text string) {
	m.Text = text
	m.Load()
}

// Load reads the list anew.
func (m *Model) Load() {
	now, text := m.work.Now(), m.Text
	work.Ask(m.work, "homes", func(ctx context.Context) (loaded, error) {
		found, err := m.work.Desk.Homes(ctx, text, most)
		if err != nil {
			return loaded{}, err
		}
		rows, err := m.work.Desk.Watch(ctx, now)
		watch := make(map[inventory.PersonID]delivery.Watch, len(rows))
		for _, w := range rows {
			watch[w.Person.ID] = w
		}
		return loaded{found, watch, now}, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	slices.SortStableFunc(l.found, byName)
	m.Rows, m.Watch, m.AsOf, m.Asked = m.Rows[:0:0], 0, l.now, true
	for _, f := range l.found {
		row := rowOf(f, l.now)
		if w, on := l.watch[f.Person.ID]; on {
			m.Watch++
			row.watched(w, l.now)
		}
		m.Rows = append(m.Rows, row)
	}
	m.Changed()
}

// byName puts persons on oxygen first, then by family name.
func byName(a, b store.Found) int {
	on := func(f store.Found) int {
		if f.Care.Watched() {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(on(a), on(b)), cmp.Compare(a.Person.Name(), b.Person.Name()), cmp.Compare(a.Person.ID, b.Person.ID))
}

func rowOf(f store.Found, now time.Time) Row {
	r := Row{
		ID: f.Person.ID, Name: f.Person.Name(), Detail: detail(f.Person), Street: f.Address.Where(),
		Phase: phase(f.Care.Phase), Order: "no order", Gas: "no oxygen of ours", Next: f.Care.Idle(),
	}
	if r.Street == "" {
		r.Street = "no address yet"
	}
	if len(f.Person.Phones) > 0 {
		r.Phone = f.Person.Phones[0].Number
	}
	if !f.Care.Since.IsZero() {
		r.Since = "since " + delivery.Clock(f.Care.Since, now)
	}
	if o := f.Care.Order; o != nil {
		r.Order = order(*o)
	}
	if len(f.Care.Kit) > 0 {
		r.Gas = fmt.Sprintf("%d things still there", len(f.Care.Kit))
	}
	return r
}

func phase(p delivery.Phase) string {
	if p == delivery.Known {
		return "not yet discharged"
	}
	return string(p)
}

func detail(p delivery.Person) string {
	switch {
	case p.Record == "":
		return p.Born
	case p.Born == "":
		return p.Record
	}
	return p.Record + ", born " + p.Born
}

// order is the flow alone: the list has no room for the rest.
func order(o delivery.Ordered) string {
	if o.Setting != "" {
		return "pulse " + o.Setting
	}
	if o.Exertion > o.Rest {
		return fmt.Sprintf("%g to %s", float64(o.Rest), o.Exertion)
	}
	return o.Rest.String()
}

func (r *Row) watched(w delivery.Watch, now time.Time) {
	r.Verdict, r.Next, r.Urgent = string(w.Verdict), w.Next, w.Urgent
	gas, seen := w.Care.Gas()
	r.Gas = gas
	if seen != nil {
		r.Read = seen.How() + " " + delivery.Ago(seen.At, now)
	}
}

// Title says how many persons are shown.
func (m *Model) Title() string {
	if !m.Asked {
		return ""
	}
	shown := fmt.Sprintf("%d persons", len(m.Rows))
	if len(m.Rows) == most {
		shown = fmt.Sprintf("the first %d persons: type to narrow", most)
	}
	return fmt.Sprintf("%s · %d on oxygen · facts as of %s", shown, m.Watch, m.AsOf.Format("15:04"))
}

// Empty says what to do when nobody is shown.
func (m *Model) Empty() string {
	if m.Text != "" {
		return "Nobody goes by “" + m.Text + "”. Type part of a name, a record number, a phone number or a street."
	}
	return "Nobody is in the book yet. Discharge somebody, or take in your lists."
}

// Open goes to the page of a row's person.
func (m *Model) Open(id inventory.PersonID) {
	m.work.Open(work.Target{Room: work.Person, Person: id})
}
