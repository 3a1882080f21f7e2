// Package labels is the screen that prints labels: items chosen from a list or
// by scans, the label paper, and a picture of the sheet as it will print.
package labels

import (
	"context"
	"slices"
	"time"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/labels/paper"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Scope is which items the list offers.
type Scope string

// The scopes.
const (
	Every  Scope = "all"
	Bare   Scope = "bare"   // no label was printed for it yet
	Out    Scope = "out"    // set aside or handed over: what goes out
	Chosen Scope = "chosen" // what will be printed
)

// Ages are the answers to how new an item is in the book, in days; zero for
// any.
var Ages = []int{0, 1, 7, 30}

// shownItems is how many items the list shows; a filter finds the others.
const shownItems = 300

// Row is one item as the list shows it.
type Row struct {
	ID     string
	Label  string // tag and serial
	What   string
	State  string
	Chosen bool
	// Printed says that a label was printed for it before.
	Printed bool
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Scope  Scope
	Kind   inventory.Kind // empty: any
	Days   int            // at most so long in the book; zero: any time
	Text   string
	Rows   []Row
	Total  int // items the filter finds
	Stock  paper.Stock
	DPI    paper.DPI
	First  int
	Copies int

	Printer  string // empty: the viewer
	Printers []string

	found  []inventory.Item
	chosen []inventory.Item
	pages  paperwork.Desk
	own    []paper.Stock // the programme's own
	set    bool          // the stock was chosen, by a person or for the programme's paper

	Changed func() // the view draws itself anew
}

// NewModel returns the screen before it has read the book.
func NewModel(w *work.Work) *Model {
	return &Model{
		work: w, Scope: Every, Stock: paper.Stocks[0], DPI: paper.DPI300, First: 1, Copies: 1, Changed: func() {},
	}
}

// read is one reading of the book.
type read struct {
	found, chosen []inventory.Item
	total         int
	clerk         paperwork.Clerk
}

// Load reads the items anew, the chosen ones too: an item may have changed.
func (m *Model) Load() {
	now, filter, chosen := m.work.Now(), m.filter(), slices.Clone(m.chosen)
	work.Ask(m.work, "labels", func(ctx context.Context) (r read, err error) {
		if r.clerk, err = paperwork.NewClerk(ctx, m.work.Desk, now); err != nil {
			return r, err
		}
		if r.found, r.total, err = m.work.Desk.Items(ctx, filter); err != nil {
			return r, err
		}
		for _, i := range chosen {
			again, err := m.work.Desk.Item(ctx, string(i.ID), 0)
			if err != nil {
				return r, err
			}
			r.chosen = append(r.chosen, again)
		}
		return r, nil
	}, func(r read) {
		m.found, m.Total, m.pages, m.own = r.found, r.total, r.clerk.Desk, r.clerk.Stocks()
		if !m.set {
			m.Stock, m.set = m.stocksOn(r.clerk.Format.Name)[0], true
		}
		for n := range m.chosen {
			for _, again := range r.chosen {
				if again.ID == m.chosen[n].ID {
					m.chosen[n] = again
				}
			}
		}
		m.show()
	})
}

func (m *Model) filter() items.Filter {
	f := items.Filter{Kind: m.Kind, Text: m.Text, Unlabelled: m.Scope == Bare, Limit: shownItems}
	if m.Scope == Out {
		f.States = []inventory.State{inventory.Held, inventory.HandedOver}
	}
	if m.Days > 0 {
		year, month, day := m.work.Now().Date()
		f.Since = time.Date(year, month, day-m.Days+1, 0, 0, 0, 0, m.work.Now().Location())
	}
	return f
}

func (m *Model) show() {
	list := m.found
	if m.Scope == Chosen {
		list = m.chosen
	}
	m.Rows = make([]Row, len(list))
	for n, i := range list {
		m.Rows[n] = Row{
			ID: string(i.ID), Label: finder.Label(i), What: i.Spec.What(), State: string(i.State), Chosen: m.isChosen(string(i.ID)),
			Printed: i.Labels != nil,
		}
	}
	m.Changed()
}

// Narrow shows the items that a filter finds.
func (m *Model) Narrow(scope Scope, kind inventory.Kind, text string) {
	if m.Scope == scope && m.Kind == kind && m.Text == text {
		return
	}
	m.Scope, m.Kind, m.Text = scope, kind, text
	m.Load()
}

// NewWithin shows only what came into the book within so many days, today
// counted; zero shows all.
func (m *Model) NewWithin(days int) {
	if m.Days != days {
		m.Days = days
		m.Load()
	}
}

// LoadPrinters asks the machine for its printers, beside everything else: a
// network that does not answer holds nobody.
func (m *Model) LoadPrinters() {
	work.Ask(m.work, "printers", func(ctx context.Context) ([]string, error) {
		return m.work.Printers.Names(ctx), nil
	}, func(names []string) {
		m.Printers = names
		m.Changed()
	})
}

// PrintOn chooses a printer, with the label paper that was last put into it.
func (m *Model) PrintOn(printer string) {
	m.Printer = printer
	if in, known := m.work.Printers.Loaded(printer); known {
		for _, kind := range m.papers() {
			for _, s := range m.stocksOn(kind) {
				if s.Name == in.Stock {
					m.Stock, m.DPI, m.First = s, in.DPI, 1
				}
			}
		}
	}
	m.Changed()
}
