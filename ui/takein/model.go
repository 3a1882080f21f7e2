// Package takein is the screen that takes spreadsheets in. It shows what was
// understood before anything is written: what each column was taken for, what
// is clear, what has to be asked, what can't be read. Then the clear rows go
// in, in one transaction; the others wait or stay out.
package takein

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	"lungwort/ui/work"
)

// Section is one part of a reading.
type Section string

// The sections, in the order they matter.
const (
	Questions Section = "questions"
	Refused   Section = "refused"
	Changes   Section = "changes"
	Findings  Section = "findings"
	Columns   Section = "columns"
	Notices   Section = "left out"
)

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Matches []Match // of the path being typed
	Files   []string
	Reading *intake.Reading // nil until files are read
	Section Section
	Under   string        // what is under way; empty: nothing
	Share   float64       // how far it is, from 0 to 1
	ToDisk  bool          // all is written: it goes on the disk, which can neither say how far it is nor be stopped
	Done    string        // what was taken in last
	Earlier []store.Taken // what was taken in before, the last first

	tables  []sheet.Table
	pasted  map[string]string // tables from the clipboard, by the names they go under here
	answers intake.Answers
	settled []intake.Question // answered, in their order

	Changed func() // the view draws itself anew
	Moved   func() // Share alone is otherwise
}

// NewModel returns the screen without files.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, answers: intake.Answers{}, pasted: map[string]string{}, Changed: func() {}, Moved: func() {}}
}

// Type completes a path being typed.
func (m *Model) Type(path string) {
	work.Ask(m.work, "complete", func(context.Context) ([]Match, error) { return complete(path), nil }, func(found []Match) {
		m.Matches = found
		m.Changed()
	})
}

// Add reads a file beside those read already. A file that can't be read is
// refused and left out.
func (m *Model) Add(path string) {
	path = expand(path)
	if path == "" || slices.Contains(m.Files, path) {
		return
	}
	m.read(append(slices.Clone(m.Files), path))
}

// Again reads the files anew, as they are now.
func (m *Model) Again() { m.read(m.Files) }

// read reads files from the disk, then understands them.
func (m *Model) read(files []string) {
	if m.Under != "" || len(files) == 0 {
		return
	}
	var tables []sheet.Table
	tell := m.tell()
	m.start("Reading "+filepath.Base(files[len(files)-1]), func(ctx context.Context) (*intake.Reading, error) {
		for i, file := range files {
			found, err := m.open(ctx, file, part(tell, 0.5*float64(i)/float64(len(files)), 0.5/float64(len(files))))
			if err != nil {
				return nil, err
			}
			tables = append(tables, found...)
		}
		return m.understand(ctx, tables, part(tell, 0.5, 0.5))
	}, func(r *intake.Reading) {
		m.Files, m.tables, m.Done = files, tables, ""
		m.show(r)
		m.Section = m.first()
	})
}

// open reads the tables of a file, or of what was pasted.
func (m *Model) open(ctx context.Context, file string, tell func(share float64)) ([]sheet.Table, error) {
	reader := sheet.Reader{Tell: tell}
	if text, pasted := m.pasted[file]; pasted {
		return reader.Data(ctx, file, []byte(text))
	}
	return reader.File(ctx, file)
}

// Paste reads a table from the clipboard beside what is read already. It
// reports whether the text is one: several cells, or several lines.
func (m *Model) Paste(text string) bool {
	if !strings.ContainsAny(strings.TrimSpace(text), "\t\n") || m.Under != "" {
		return false
	}
	name := "pasted table"
	for n := 2; m.pasted[name] != ""; n++ {
		name = fmt.Sprintf("pasted table %d", n)
	}
	m.pasted[name] = text
	m.read(append(slices.Clone(m.Files), name))
	return true
}

// understand reads tables against the book.
func (m *Model) understand(ctx context.Context, tables []sheet.Table, tell func(share float64)) (*intake.Reading, error) {
	r, err := m.work.Desk.ReadLists(ctx, tables, m.answers, m.work.Now(), tell)
	return &r, err
}

func (m *Model) show(r *intake.Reading) { m.Reading = r }

// first is the section to look at first.
func (m *Model) first() Section {
	switch r := m.Reading; {
	case len(r.Questions) > 0:
		return Questions
	case len(r.Refused) > 0:
		return Refused
	case len(r.Changes) > 0:
		return Changes
	case len(r.Findings) > 0:
		return Findings
	}
	return Columns
}

// Sections are the parts of the reading with how much is in each.
func (m *Model) Sections() map[Section]int {
	r := m.Reading
	if r == nil {
		return nil
	}
	return map[Section]int{
		Questions: len(r.Questions), Refused: len(r.Refused), Changes: len(r.Changes), Findings: len(r.Findings), Columns: len(r.Columns), Notices: len(r.Notices),
	}
}

// Ready reports whether there is anything to take in.
func (m *Model) Ready() bool { return m.Reading != nil && m.Under == "" && len(m.Reading.Acts()) > 0 }

// TakeIn writes the clear rows in one transaction. Stopped or refused, nothing
// is written.
func (m *Model) TakeIn() {
	if !m.Ready() {
		return
	}
	const written = 0.8 // of the work; then the lists are read against the book anew
	reading, hand, tell := *m.Reading, m.work.Hand(inventory.Sheet), m.tell()
	m.start("Taking in", func(ctx context.Context) (*intake.Reading, error) {
		judging := intake.Sparing(intake.Writing)
		_, err := m.work.Desk.TakeIn(ctx, reading, hand, m.toDisk(part(tell, 0, written)))
		if judging(); err != nil {
			return nil, err
		}
		// It is in the book: reading the list anew can't be stopped, or it would be called not written.
		return m.understand(context.WithoutCancel(ctx), m.tables, part(tell, written, 1-written))
	}, func(r *intake.Reading) {
		a := reading.Added
		m.Done = fmt.Sprintf("Taken in: %s, with %s, %s and %s.", count(reading.Taken, "row", "rows"),
			count(a.Things, "new thing", "new things"), count(a.Persons, "new person", "new persons"), count(a.Facts, "fact", "facts"))
		if reading.Changed > 0 {
			m.Done = strings.TrimSuffix(m.Done, ".") + fmt.Sprintf("; %d changed.", reading.Changed)
		}
		m.show(r)
		m.Section = m.first()
		m.work.Say(m.Done + m.rest())
		m.work.Changed()
		m.LookBack()
	})
}

// StartOver forgets the files and the answers.
func (m *Model) StartOver() {
	m.Files, m.tables, m.Reading, m.settled, m.Done = nil, nil, nil, nil, ""
	m.answers, m.pasted = intake.Answers{}, map[string]string{}
	m.LookBack()
	m.Changed()
}

// Stop stops what is under way.
func (m *Model) Stop() { m.work.Run.Stop("take in") }

// start does long work, one at a time.
func (m *Model) start(what string, do func(context.Context) (*intake.Reading, error), done func(*intake.Reading)) {
	m.Under, m.Share = what, 0
	m.Changed()
	var r *intake.Reading
	m.work.Run.Go("take in", func(ctx context.Context) (err error) {
		defer intake.Sparing(intake.Judging)()
		r, err = do(ctx)
		return err
	}, func(err error) {
		m.Under, m.ToDisk = "", false
		switch {
		case err == nil:
			done(r)
		case errors.Is(err, context.Canceled):
			m.work.Say("Stopped; nothing of it is written.")
		default:
			m.work.Refuse(err)
		}
		m.Changed()
	})
}

// tell shows how far the work is, about as often as an eye notices: work of a
// hundred thousand steps does not redraw the screen at each.
func (m *Model) tell() func(share float64) {
	const step = 0.002 // under 200 ms where the whole takes a minute
	shown := 0.0
	return func(share float64) {
		if share < 1 && share-shown < step {
			return
		}
		shown = share
		m.work.Run.Show(func() {
			if m.Under != "" {
				m.Share = share
				m.Moved()
			}
		})
	}
}

// toDisk tells of writing. All told, the book goes on the disk.
func (m *Model) toDisk(tell func(share float64)) func(share float64) {
	return func(share float64) {
		tell(share)
		if share == 1 {
			m.work.Run.Show(func() {
				m.ToDisk = m.Under != ""
				m.Moved()
			})
		}
	}
}

// part tells of a part of the work, which begins at a share of it and is so
// long.
func part(tell func(share float64), from, length float64) func(share float64) {
	return func(share float64) { tell(from + length*share) }
}
