// Package papers is the screen that makes what is printed and given out: night
// pack, run sheets, watch list, sheets of items, loans and runs, and a copy of
// the book. Each row says what a paper holds and when it was last made here.
package papers

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Row is one paper as the list shows it, its words ready.
type Row struct {
	ID    string
	Name  string
	Holds string
	Now   string // how much it holds now
	Last  string // when it was last made on this machine
	Ends  string // the file's ending
}

// Copy is the row of the copy of the book.
const Copy = "book"

// noRuns is told when there is no run to print.
var noRuns = refusal.New(refusal.NotFound, "There is no run with open stops.", "Plan the runs first.")

// tally is how much the papers hold now.
type tally struct {
	homes, runs, stops, items, lent int
	otherwise                       int                  // homes that stand otherwise than in the night pack
	made                            map[string]time.Time // last time of each kind
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Rows  []Row
	Under string  // what is under way; empty: nothing
	Share float64 // how far it is, from 0 to 1

	Printers []string // of this machine
	Printer  string   // where papers go; empty: they open in the viewer
	Ends     string   // of the sheets: a spreadsheet, or text with commas

	holds *tally // as last looked; nil: not yet

	Changed func() // the view draws itself anew
}

// NewModel returns the screen before it has looked.
func NewModel(w *work.Work) *Model { return &Model{work: w, Ends: Workbook, Changed: func() {}} }

// SheetsAs chooses the file sheets are written as: Workbook or Commas.
func (m *Model) SheetsAs(ends string) {
	if ends == m.Ends {
		return
	}
	m.Ends = ends
	m.list()
}

// Dir is where the papers are written.
func (m *Model) Dir() string { return m.work.Dir }

// Load looks how much each paper would hold, and when it was last made.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "printers", func(ctx context.Context) ([]string, error) { return m.work.Printers.Names(ctx), nil }, func(names []string) {
		m.Printers, m.Printer = names, m.work.Printers.Office()
		m.Changed()
	})
	work.Ask(m.work, "papers", func(ctx context.Context) (tally, error) { return m.tally(ctx, now) }, func(t tally) {
		m.holds = &t
		m.list()
	})
}

// list makes the rows anew, once the book was looked at.
func (m *Model) list() {
	if m.holds != nil {
		m.Rows = m.rows(*m.holds, m.work.Now())
	}
	m.Changed()
}

// PrintOn chooses where papers go from now on, from every screen; no printer is
// the viewer.
func (m *Model) PrintOn(printer string) {
	if printer == m.Printer {
		return
	}
	if err := m.work.Printers.SetOffice(printer); err != nil {
		m.work.Refuse(err)
		return
	}
	m.Printer = printer
	m.Changed()
}

func (m *Model) tally(ctx context.Context, now time.Time) (tally, error) {
	desk := m.work.Desk
	t := tally{made: made(m.work.Dir, now.Location())}
	watch, err := desk.Watch(ctx, now)
	if err != nil {
		return t, err
	}
	runs, err := desk.Runs(ctx, "")
	if err != nil {
		return t, err
	}
	counts, err := desk.Tallies(ctx)
	if err != nil {
		return t, err
	}
	_, news, _, err := desk.PackNews(ctx, now)
	if err != nil {
		return t, err
	}
	t.homes, t.otherwise = len(watch), len(news)
	for _, r := range runs {
		if open := len(r.Open()); open > 0 {
			t.runs, t.stops = t.runs+1, t.stops+open
		}
	}
	for _, c := range counts {
		t.items += c.Count
		if (inventory.Item{State: c.State}).Lent() {
			t.lent += c.Count
		}
	}
	return t, nil
}

func (m *Model) rows(t tally, now time.Time) []Row {
	rows := make([]Row, 0, len(kinds)+1)
	for _, k := range kinds {
		rows = append(rows, Row{ID: k.id, Name: k.name, Holds: k.holds, Now: k.count(t), Last: last(t.made[k.id], now), Ends: m.ends(k)[1:]})
	}
	if t.otherwise > 0 {
		rows[0].Last += fmt.Sprintf(", %d otherwise", t.otherwise)
	}
	return append(rows, Row{
		ID: Copy, Name: "Copy of the book", Holds: "everything the programme knows, read through once written; on a machine without a book, “Restore a copy” brings it back",
		Now: "all of it", Last: last(t.made[Copy], now), Ends: "lungwort",
	})
}

// ends is how the file of a kind ends.
func (m *Model) ends(k kind) string {
	if k.ext == Workbook {
		return m.Ends
	}
	return k.ext
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Make makes a paper and opens it.
func (m *Model) Make(id string) {
	for _, k := range kinds {
		if k.id == id {
			ends := m.ends(k)
			m.start(k.name, func(ctx context.Context, now time.Time) (string, error) {
				clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
				if err != nil {
					return "", err
				}
				return k.make(job{ctx: ctx, clerk: clerk, dir: m.work.Dir, stamp: now.Format(stampLayout), ends: ends, by: m.work.By, tell: m.tell})
			}, func(path string) {
				m.work.Say(k.name + " made: " + filepath.Base(path) + ".")
				m.work.Print(path)
			})
		}
	}
}

// CopyName is where a copy of the book would go unless another file is named.
func (m *Model) CopyName() string {
	return filepath.Join(m.work.Dir, Copy+"-"+m.work.Now().Format(stampLayout)+".lungwort")
}

// CopyBook writes a copy of the book to a file and reads it through.
func (m *Model) CopyBook(name string) error {
	name = strings.TrimSpace(name)
	if name == "" {
		return errors.New("name the file of the copy")
	}
	if !filepath.IsAbs(name) {
		name = filepath.Join(m.work.Dir, name)
	}
	if filepath.Ext(name) == "" {
		name += ".lungwort"
	}
	m.start("Copy of the book", func(ctx context.Context, _ time.Time) (string, error) {
		return name, m.work.Desk.Book().Backup(ctx, name)
	}, func(path string) { m.work.Say("The book is copied and read through: " + path + ".") })
	return nil
}

// start does long work off the window's goroutine, one at a time.
func (m *Model) start(what string, make func(context.Context, time.Time) (string, error), done func(path string)) {
	if m.Under != "" {
		return
	}
	m.Under, m.Share = what, 0
	m.Changed()
	now, path := m.work.Now(), ""
	m.work.Run.Go("paper", func(ctx context.Context) (err error) {
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return refusal.New(refusal.ReadOnly, fmt.Sprintf("The folder %s can't be made.", m.work.Dir), "Free its place, or start with a book in a folder of your own.").Because(err)
		}
		path, err = make(ctx, now)
		return err
	}, func(err error) {
		m.Under = ""
		switch {
		case err == nil:
			done(path)
			m.Load()
		case errors.Is(err, context.Canceled):
			m.work.Say(what + " stopped; nothing more is written.")
		default:
			m.work.Refuse(err)
		}
		m.Changed()
	})
}

// tell shows how far the paper under way is.
func (m *Model) tell(what string, share float64) {
	m.work.Run.Show(func() {
		if m.Under != "" {
			m.Under, m.Share = what, share
			m.Changed()
		}
	})
}

// Stop stops the paper under way.
func (m *Model) Stop() { m.work.Run.Stop("paper") }

// NightLog goes to where the log of the night pack is keyed in.
func (m *Model) NightLog() { m.work.Open(work.Target{Room: work.NightLog}) }

// OpenFolder opens the folder of the papers.
func (m *Model) OpenFolder() {
	if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
		m.work.Refuse(err)
		return
	}
	m.work.Show(m.work.Dir)
}
