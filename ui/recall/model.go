// Package recall is the screen of recalls: search what a notice names over
// everything ever owned, mark it, and follow each unit until it is out.
package recall

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Row is one item of a search or of a recall's file, its words ready.
type Row struct {
	ID     inventory.ItemID
	Person inventory.PersonID
	Part   string // which of the four lists, or the place in the file
	Label  string
	Where  string
	Who    string
	Why    string
	Below  string
	Alarm  bool

	supply string // of a supply: which line
}

// Key names the row.
func (r Row) Key() string {
	if r.ID == "" {
		return r.supply
	}
	return string(r.ID)
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Notices []string
	Notice  string // whose file is shown; empty: a search is
	Search  delivery.RecallNotice
	Rows    []Row
	Title   string
	Below   string

	// Area are the homes drawn around on the map; what is shown keeps to them. None: all.
	Area []inventory.PersonID

	found   store.RecallList
	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

type loaded struct {
	notices []string
	notice  string // whose file it is
	units   []delivery.RecallUnit
	found   store.RecallList
	names   map[inventory.PersonID]string
	now     time.Time
}

// Load reads what is shown anew: the first file, where nothing was asked for yet.
func (m *Model) Load() {
	notice, search, now := m.Notice, m.Search, m.work.Now()
	free := notice == "" && search.Empty() && len(m.Area) == 0
	work.Ask(m.work, "recall", func(ctx context.Context) (l loaded, err error) {
		l.now, l.notice = now, notice
		if l.notices, err = m.work.Desk.Recalls(ctx); err != nil {
			return l, err
		}
		if l.names, err = m.work.Desk.Names(ctx); err != nil {
			return l, err
		}
		if free && len(l.notices) > 0 {
			l.notice = l.notices[0]
		}
		switch {
		case l.notice != "":
			l.units, err = m.work.Desk.RecallFile(ctx, l.notice, now)
		case !search.Empty():
			l.found, err = m.work.Desk.FindRecalled(ctx, search)
		}
		return l, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	l.units, l.found = m.unitsHere(l.units), m.foundHere(l.found)
	m.Notices, m.Notice, m.found, m.Rows = l.notices, l.notice, l.found, nil
	switch {
	case m.Notice != "":
		p := delivery.Progress(l.units)
		m.Title, m.Below = "Recall "+m.Notice, p.Says()
		for _, u := range l.units {
			m.Rows = append(m.Rows, fileRow(u, l))
		}
	case !m.Search.Empty():
		m.Title, m.Below = "Search: "+said(m.Search), counts(l.found)
		m.Rows = append(searchRows(l), supplyRows(l)...)
	default:
		m.Title, m.Below = "", ""
	}
	m.tellArea()
	m.Changed()
}

// OpenFileOf shows the file of the recall that names an item, which a scanned
// letter is about.
func (m *Model) OpenFileOf(id inventory.ItemID) {
	work.Ask(m.work, "recall of item", func(ctx context.Context) (store.ItemPage, error) { return m.work.Desk.ItemPage(ctx, id) }, func(page store.ItemPage) {
		if page.Item.Recall == "" {
			m.work.Open(work.Target{Room: work.Item, Item: id}) // the mark was taken back since
			return
		}
		m.OpenFile(page.Item.Recall)
	})
}

// PrintLetter prints the letter to who has an item of the file.
func (m *Model) PrintLetter(id inventory.ItemID) {
	i := slices.IndexFunc(m.Rows, func(r Row) bool { return r.ID == id && r.Person != "" })
	if i < 0 {
		m.work.Refuse(refusal.New(refusal.Conflict, "Nobody at home has this one.", "A letter goes to who has it now."))
		return
	}
	who := m.Rows[i].Person
	m.work.Paper(paperwork.RecallLetter+"-"+string(id), "Letter", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		spoken, _, err := c.Tongue(ctx, who, "", filepath.Join(m.work.Dir, paperwork.TongueDir))
		if err != nil {
			return nil, err
		}
		return c.HomePaper(ctx, paperwork.RecallLetter, paperwork.Asked{Person: who, By: m.work.By, Tongue: spoken})
	})
}

// inAHome is the part of a file with what still has to be swapped.
const inAHome = "in a home"

// PrintLetters prints the letters to everybody of the file who has one of the
// items, in one paper, each in their own language.
func (m *Model) PrintLetters() {
	var people []inventory.PersonID
	for _, r := range m.Rows {
		if r.Part == inAHome && r.Person != "" && !slices.Contains(people, r.Person) {
			people = append(people, r.Person)
		}
	}
	if len(people) == 0 {
		m.work.Refuse(refusal.New(refusal.Conflict, "Nobody at home has one of these.", "Letters go to who has one now."))
		return
	}
	m.work.Paper("recall-letters", "Letters", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		letters, died, err := c.RecallLetters(ctx, people, filepath.Join(m.work.Dir, paperwork.TongueDir))
		if err == nil && len(letters) == 0 {
			err = refusal.New(refusal.Conflict, fmt.Sprintf("Of these persons %d died: no letter goes to the home.", died), "Ring the one contact each has named, on the person's page.")
		}
		return letters, err
	})
}

// OpenFile shows the file of a notice.
func (m *Model) OpenFile(notice string) {
	m.Notice, m.Search = notice, delivery.RecallNotice{}
	m.Load()
}

// Find searches for what a notice names.
func (m *Model) Find(n delivery.RecallNotice) {
	m.Notice, m.Search = "", n
	m.Load()
}

func said(n delivery.RecallNotice) string {
	var parts []string
	if n.Model != "" {
		parts = append(parts, "model "+n.Model)
	}
	if n.From != "" || n.To != "" {
		parts = append(parts, n.From+" to "+n.To)
	}
	if n.Lot != "" {
		parts = append(parts, "lot "+n.Lot)
	}
	if len(n.Serials) > 0 {
		parts = append(parts, fmt.Sprintf("%d serials", len(n.Serials)))
	}
	return strings.Join(parts, ", ")
}

func counts(l store.RecallList) string {
	text := fmt.Sprintf("%d in homes now · %d in our places · %d lent before · %d cannot tell", len(l.Homes), len(l.Places), len(l.Before), len(l.Unsure))
	if n := len(l.NotInBook); n > 0 {
		text += fmt.Sprintf(" · %d of the list not in the book", n)
	}
	if n := len(l.Given); n > 0 {
		text += fmt.Sprintf(" · %d given supplies of the lot", n)
	}
	return text
}

// supplyRows are the supplies of the lot: with us, and with whom.
func supplyRows(l loaded) []Row {
	var rows []Row
	for _, s := range l.found.Stock {
		rows = append(rows, Row{Part: "in our places", Label: s.Supply, Where: s.At.InWords(), Why: fmt.Sprintf("%d of lot %s: keep them apart", s.Count, s.Lot)})
	}
	for _, g := range l.found.Given {
		row := Row{Part: "given", Person: g.Person, Label: g.Supply, Where: "with a person", Who: l.names[g.Person], Alarm: g.Sure}
		if !g.Sure {
			row.Part = "cannot tell"
		}
		row.Why = fmt.Sprintf("%d given %s: %s", g.Count, delivery.Clock(g.At, l.now), g.Why)
		rows = append(rows, row)
	}
	for i := range rows {
		rows[i].supply = fmt.Sprint("supply ", i)
	}
	return rows
}

func searchRows(l loaded) []Row {
	var rows []Row
	for _, part := range []struct {
		name string
		list []store.Recalled
	}{
		{"in a home now", l.found.Homes}, {"in our places", l.found.Places}, {"lent before", l.found.Before}, {"cannot tell", l.found.Unsure},
	} {
		for _, r := range part.list {
			row := Row{ID: r.Item, Person: r.Person, Part: part.name, Label: r.Serial, Where: r.Where, Who: l.names[r.Person], Why: r.Why, Alarm: part.name == "in a home now"}
			var had []string
			for _, p := range r.Persons {
				if p != r.Person {
					had = append(had, l.names[p])
				}
			}
			if len(had) > 0 {
				row.Below = "had it before: " + strings.Join(had, ", ")
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// fileRow says of one marked item what is done and what comes next.
func fileRow(u delivery.RecallUnit, l loaded) Row {
	r := Row{ID: u.Item.ID, Person: u.Person, Label: u.Item.Label(), Where: string(u.Item.State) + ", " + u.Item.Place.InWords(), Who: l.names[u.Person]}
	switch {
	case u.Done && u.Located.IsZero():
		r.Part, r.Why = "not located", "nobody has touched it since it was marked: look for it"
	case u.Done:
		r.Part, r.Why = "out of homes", "located "+delivery.Clock(u.Located, l.now)
	default:
		r.Part, r.Alarm = inAHome, true
		r.Why = "swap it: without it the gas there lasts " + delivery.Spell(u.Cover)
	}
	var steps []string
	if !u.Due.IsZero() {
		steps = append(steps, "due "+delivery.Clock(u.Due, l.now))
	}
	if !u.Visit.IsZero() {
		steps = append(steps, "visit "+delivery.Clock(u.Visit, l.now))
	}
	if !u.Told.IsZero() {
		steps = append(steps, "told "+delivery.Clock(u.Told, l.now))
	}
	if u.Reply != "" {
		steps = append(steps, u.Reply)
	}
	r.Below = strings.Join(steps, " · ")
	return r
}

// named returns the items a search is sure of, and one picked from what it
// can't tell.
func (m *Model) named(picked inventory.ItemID) []inventory.ItemID {
	var ids []inventory.ItemID
	for _, list := range [][]store.Recalled{m.found.Homes, m.found.Places, m.found.Before} {
		for _, r := range list {
			ids = append(ids, r.Item)
		}
	}
	if slices.ContainsFunc(m.found.Unsure, func(r store.Recalled) bool { return r.Item == picked }) {
		return []inventory.ItemID{picked}
	}
	return ids
}

// Open goes to the page of a row's item; of a supply to the person who was
// given it, or to the supplies.
func (m *Model) Open(key string) {
	i := slices.IndexFunc(m.Rows, func(r Row) bool { return r.Key() == key })
	switch {
	case i < 0:
	case m.Rows[i].ID != "":
		m.work.Open(work.Target{Room: work.Item, Item: m.Rows[i].ID})
	case m.Rows[i].Person != "":
		m.work.Open(work.Target{Room: work.Person, Person: m.Rows[i].Person})
	default:
		m.work.Open(work.Target{Room: work.Supplies})
	}
}
