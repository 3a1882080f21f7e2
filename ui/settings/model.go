// Package settings is the screen of what a programme decides: whom to ring,
// where things stand, what drives, and the numbers everything is reckoned
// with. Changes are gathered and put in force together, in one act.
package settings

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/ui/work"
)

// Page is one group of settings as the list of groups shows it.
type Page struct {
	Name    string
	Changed int // not in force yet
	Own     int // differ from the default
}

// Entry is one line of a page: a value, or a row of a list.
type Entry struct {
	ID      string
	Name    string
	Says    string
	Before  string // what is in force, where it is something else
	Default string
	Source  string // where the default comes from
	Own     bool   // differs from the default
	Changed bool   // not in force yet
}

// Model is what the screen shows.
type Model struct {
	work     *work.Work
	groups   []group
	loaded   bool
	inForce  delivery.Programme
	draft    delivery.Programme
	defaults delivery.Programme
	access   delivery.Access

	Here int // the page that is open

	Changed func() // the view draws itself anew
}

// NewModel returns the screen before it has read the book.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, groups: groups(w.Now()), defaults: delivery.NewProgramme(), Changed: func() {}}
}

// Load reads the settings in force. Changes not yet in force stay as they are.
func (m *Model) Load() {
	m.readAccess()
	work.Ask(m.work, "settings", func(ctx context.Context) (delivery.Programme, error) {
		return m.work.Desk.Programme(ctx)
	}, func(p delivery.Programme) {
		dirty := m.loaded && m.Changes() > 0
		m.groups = groups(m.work.Now())
		m.inForce, m.loaded = p, true
		if !dirty {
			m.draft = p
		}
		m.Changed()
	})
}

// Pages are the groups of settings.
func (m *Model) Pages() []Page {
	pages := make([]Page, len(m.groups))
	for i, g := range m.groups {
		pages[i].Name = g.name
		for _, e := range m.entries(g) {
			if e.Own {
				pages[i].Own++
			}
		}
		pages[i].Changed = m.changes(g)
	}
	return pages
}

// Go opens a page.
func (m *Model) Go(page int) {
	if page >= 0 && page < len(m.groups) && page != m.Here {
		m.Here = page
		m.Changed()
	}
}

// About says what the open page is for.
func (m *Model) About() string { return m.groups[m.Here].about }

// Valued reports whether the open page has values, with their defaults.
func (m *Model) Valued() bool { return len(m.groups[m.Here].values) > 0 }

// Entries are the lines of the open page.
func (m *Model) Entries() []Entry { return m.entries(m.groups[m.Here]) }

func (m *Model) entries(g group) []Entry {
	var entries []Entry
	for _, key := range g.values {
		entries = append(entries, m.entry(valueOf(key)))
	}
	if g.users() {
		entries = append(entries, m.users()...)
	}
	for _, l := range g.lists {
		before := shown(l, m.inForce)
		for i := range l.size(m.draft) {
			name, says := l.show(m.draft, i)
			entries = append(entries, Entry{
				ID: l.key() + ":" + strconv.Itoa(i), Name: name, Says: says,
				Changed: !slices.Contains(before, name+"\n"+says),
			})
		}
	}
	return entries
}

func (m *Model) entry(v value) Entry {
	e := Entry{ID: v.key, Name: v.label, Says: v.get(m.draft)}
	if before := v.get(m.inForce); before != e.Says {
		e.Before, e.Changed = before, true
		if before == "" {
			e.Before = "nothing"
		}
	}
	if note, ok := noteOf(v.key); ok {
		e.Default, e.Source = v.get(m.defaults), note.Source
		e.Own = e.Says != e.Default
	}
	return e
}

func noteOf(key string) (delivery.Note, bool) {
	notes := delivery.Notes()
	i := slices.IndexFunc(notes, func(n delivery.Note) bool { return n.Setting == key })
	if i < 0 {
		return delivery.Note{}, false
	}
	return notes[i], true
}

// shown are the rows of a list as they read.
func shown(l list, p delivery.Programme) []string {
	rows := make([]string, l.size(p))
	for i := range rows {
		name, says := l.show(p, i)
		rows[i] = name + "\n" + says
	}
	return rows
}

// Changes counts what is not in force yet.
func (m *Model) Changes() int {
	n := 0
	for _, g := range m.groups {
		n += m.changes(g)
	}
	return n
}

// changes counts values that differ, and rows added, altered or removed.
func (m *Model) changes(g group) int {
	n := 0
	for _, key := range g.values {
		if v := valueOf(key); v.get(m.draft) != v.get(m.inForce) {
			n++
		}
	}
	for _, l := range g.lists {
		before, now := shown(l, m.inForce), shown(l, m.draft)
		same := 0
		for _, row := range now {
			if slices.Contains(before, row) {
				same++
			}
		}
		n += max(len(before), len(now)) - same
	}
	return n
}

// Adds are the kinds of rows that can be added to the open page.
func (m *Model) Adds() []string {
	var things []string
	if m.groups[m.Here].users() {
		things = append(things, aUser)
	}
	for _, l := range m.groups[m.Here].lists {
		if l.most() == 0 || l.size(m.draft) < l.most() {
			things = append(things, l.thing())
		}
	}
	return things
}

// Removable reports whether an entry is a row that can be removed.
func (m *Model) Removable(id string) bool {
	l, _ := m.row(id)
	return l != nil
}

// row finds the list and the place of an entry; nil for a value.
func (m *Model) row(id string) (list, int) {
	key, place, ok := strings.Cut(id, ":")
	if !ok {
		return nil, 0
	}
	i, err := strconv.Atoi(place)
	for _, l := range m.groups[m.Here].lists {
		if l.key() == key && err == nil && i < l.size(m.draft) {
			return l, i
		}
	}
	return nil, 0
}

// Remove takes a row away; it is not in force before the rest is.
func (m *Model) Remove(id string) {
	if l, i := m.row(id); l != nil {
		l.drop(&m.draft, i)
		m.Changed()
	}
}

// Discard goes back to what is in force.
func (m *Model) Discard() {
	m.draft = m.inForce
	m.Changed()
}
