package runs

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Open does what a row asks for: a stop is closed, a run whose stops are all
// closed is ended, else its next stop comes up.
func (m *Model) Open(id string) {
	for _, r := range m.Rows {
		if r.ID != id {
			continue
		}
		switch {
		case r.Person != "" && !r.Done:
			m.visit(r)
		case r.Person != "":
			m.work.Open(work.Target{Room: work.Person, Person: r.Person})
		case r.Done:
			m.End(r.Run)
		default:
			m.openNext(r.Run)
		}
		return
	}
}

func (m *Model) visit(r Row) {
	m.work.Open(work.Target{Room: work.Visit, Run: r.Run, Person: r.Person})
}

func (m *Model) openNext(run inventory.RunID) {
	for _, r := range m.Rows {
		if r.Run == run && r.Person != "" && !r.Done {
			m.visit(r)
			return
		}
	}
}

// Sheet prints the sheet of the run a row belongs to, and shows it.
func (m *Model) Sheet(id string) {
	run, ok := m.runOf(id)
	if !ok {
		m.work.Refuse(refusal.New(refusal.Invalid, "No run in force is in hand.", "Accept the plan, or choose a run, then print."))
		return
	}
	now := m.work.Now()
	work.Ask(m.work, "run sheet", func(ctx context.Context) (string, error) {
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return "", err
		}
		sheet, err := clerk.Trip(ctx, run)
		if err != nil {
			return "", err
		}
		if err := os.MkdirAll(m.work.Dir, 0o700); err != nil {
			return "", err
		}
		file := filepath.Join(m.work.Dir, fmt.Sprintf("run-%s-%s.pdf", run.ID, now.Format("20060102-1504")))
		return file, paperwork.Save(file, sheet)
	}, m.work.Show)
}

func (m *Model) runOf(id string) (delivery.Run, bool) {
	for _, r := range m.Rows {
		if r.ID != id {
			continue
		}
		for _, run := range m.book.runs {
			if run.ID == r.Run {
				return run, true
			}
		}
	}
	return delivery.Run{}, false
}
