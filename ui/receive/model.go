// Package receive is the screen on which new things are scanned in by the
// pallet: scan, scan, scan. Every scan is one transaction, so that nothing is
// lost whatever happens next, and the last one can be undone. What is not clear
// waits in the list and stops nobody.
package receive

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Coming  inventory.Spec // what comes in: kind, model, size, owner
	Rated   string         // as typed
	Size    string         // as typed
	Depot   string
	Depots  []string
	Entries []Entry // newest first

	Contents string // as typed: what these cylinders are marked with
	Full     string
	Water    string

	region    string
	sizes     gas.Table
	catalogue map[string]inventory.Spec
	product   inventory.Spec // of a product number scanned by itself, for the serials that follow
	waiting   []job          // in the order of scanning
	busy      bool

	Changed func()
}

// Outcome is what became of a scan.
type Outcome string

// The outcomes of a scan.
const (
	Taken Outcome = "received"
	Asked Outcome = "asked"
	Not   Outcome = "not received"
)

// Entry is one scan in the list.
type Entry struct {
	Text    string // as scanned
	Item    inventory.ItemID
	Name    string // serial
	What    string
	Outcome Outcome
	Why     string
}

// job is one thing to do with the book, in its turn.
type job struct {
	text  string
	sure  bool             // a person has looked: take it as it is
	undo  inventory.ItemID // takes this out again instead
	into  inventory.Spec
	depot string
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, catalogue: map[string]inventory.Spec{}, Changed: func() {}}
}

// loaded is one reading of the book.
type loaded struct {
	programme delivery.Programme
	catalogue map[string]inventory.Spec
}

// Load reads the depots and the products known. What was scanned stays.
func (m *Model) Load() {
	work.Ask(m.work, "receive", func(ctx context.Context) (l loaded, err error) {
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		l.catalogue, err = m.work.Desk.Catalogue(ctx)
		return l, err
	}, func(l loaded) {
		m.catalogue, m.region, m.sizes, m.Depots = l.catalogue, l.programme.Region, l.programme.Sizes, nil
		for _, d := range l.programme.Depots {
			m.Depots = append(m.Depots, d.Name)
		}
		if m.Depot == "" && len(m.Depots) > 0 {
			m.Depot = m.Depots[0]
		}
		m.Changed()
	})
}

// SetKind says what comes in. What was asked because nobody had said so can be
// taken now.
func (m *Model) SetKind(kind inventory.Kind) {
	m.Coming.Kind = kind
	m.Changed()
}

// Count is how many things were received and not taken out again.
func (m *Model) Count() int { return m.count(Taken) }

// Open is how many scans wait for an answer.
func (m *Model) Open() int { return m.count(Asked) }

func (m *Model) count(o Outcome) (n int) {
	for _, e := range m.Entries {
		if e.Outcome == o {
			n++
		}
	}
	return n
}

// Scan takes a scan in its turn. It reports whether it took the text: names of
// people and codes of papers go their ordinary way.
func (m *Model) Scan(text string) bool {
	if !strings.ContainsAny(text, "0123456789") || strings.HasPrefix(strings.ToUpper(text), "LWP.") {
		return false
	}
	text = strings.TrimSpace(text)
	sure := slices.ContainsFunc(m.Entries, func(e Entry) bool { return e.Text == text && e.Outcome == Asked })
	m.queue(job{text: text, sure: sure}) // scanned once more: that is an answer
	return true
}

// Take takes a scan that was asked about as it is.
func (m *Model) Take(text string) { m.queue(job{text: text, sure: true}) }

// Leave drops a scan that was asked about or refused.
func (m *Model) Leave(text string) {
	m.Entries = slices.DeleteFunc(m.Entries, func(e Entry) bool { return e.Text == text && e.Outcome != Taken })
	m.Changed()
}

// UndoLast takes the thing received last out of the book again.
func (m *Model) UndoLast() {
	for _, e := range m.Entries {
		if e.Outcome == Taken {
			m.queue(job{text: e.Text, undo: e.Item})
			return
		}
	}
}

// Next begins another pallet: the list is empty, what is in the book stays.
func (m *Model) Next() {
	m.Entries, m.product = nil, inventory.Spec{}
	m.Changed()
}

// queue appends a job. Scans come faster than the book answers; each waits for
// the one before, and none is dropped.
func (m *Model) queue(j job) {
	m.waiting = append(m.waiting, j)
	m.begin()
}

// begin begins the first job that waits, unless one is under way. A job knows
// what comes in as it was chosen when its turn came.
func (m *Model) begin() {
	if m.busy || len(m.waiting) == 0 {
		return
	}
	j := m.waiting[0]
	m.waiting = m.waiting[1:]
	var err error
	if j.into, err = m.coming(); err != nil && j.undo == "" {
		m.done(Entry{Text: j.text, Name: j.text, Outcome: Asked, Why: refusal.For(err)})
		return
	}
	j.depot, m.busy = m.Depot, true
	clerk := m.clerk()
	var e Entry
	m.work.Run.Go("receiving", func(ctx context.Context) error {
		e = clerk.do(ctx, j)
		return nil
	}, func(error) {
		m.busy = false
		m.done(e)
	})
}

// done shows what became of a job and goes on with the next.
func (m *Model) done(e Entry) {
	switch {
	case e.Outcome == "" && e.Item != "": // undone
		m.Entries = slices.DeleteFunc(m.Entries, func(other Entry) bool { return other.Item == e.Item })
		m.say(scene.Holds, e.Name+" is out again", m.tally())
	case e.Outcome == "": // a product number
		m.say(scene.Unknown, e.Name, e.Why)
	default:
		m.Entries = slices.DeleteFunc(m.Entries, func(other Entry) bool { return other.Text == e.Text && other.Outcome != Taken })
		m.Entries = slices.Insert(m.Entries, 0, e)
		m.tell(e)
	}
	if len(m.waiting) == 0 {
		m.work.Changed()
	}
	m.Changed()
	m.begin()
}

func (m *Model) tell(e Entry) {
	switch e.Outcome {
	case Taken:
		m.say(scene.Holds, fmt.Sprintf("%d  ·  %s", m.Count(), e.Name), e.What)
	case Asked:
		m.say(scene.Unknown, e.Name+"?", e.Why)
	default:
		m.say(scene.Short, e.Name, e.Why)
	}
}

func (m *Model) say(verdict, title, detail string) {
	m.work.Scanned(work.Scan{Verdict: verdict, Title: title, Detail: detail})
}

func (m *Model) tally() string { return fmt.Sprintf("%d received", m.Count()) }

// coming is what the next serial is, as it was chosen.
func (m *Model) coming() (inventory.Spec, error) {
	s := m.Coming
	if m.product.GTIN != "" {
		s.GTIN, s.Lot, s.Made, s.Expires = m.product.GTIN, m.product.Lot, m.product.Made, m.product.Expires
	}
	if s.Kind == inventory.Cylinder && m.Size != "" {
		size, err := m.sizes.Parse(m.Size, m.region)
		if err != nil {
			return s, refusal.New(refusal.Invalid, fmt.Sprintf("“%s” is no size of cylinder.", m.Size), "Write region and letter, as US-E.")
		}
		if s.Marked, err = m.marked(); err != nil {
			return s, err
		}
		s.Size = size.Code
	}
	if s.Kind == inventory.Concentrator && m.Rated != "" {
		flow, err := gas.ParseFlow(m.Rated)
		if err != nil {
			return s, err
		}
		s.Rated = flow
	}
	return s, nil
}

// marked is what was typed of these cylinders' own figures.
func (m *Model) marked() (marks gas.Marks, err error) {
	if m.Contents != "" {
		if marks.Contents, err = gas.ParseLitres(m.Contents); err != nil {
			return marks, err
		}
	}
	if m.Full != "" {
		if marks.Service, err = gas.ParsePressure(m.Full); err != nil {
			return marks, err
		}
	}
	if m.Water != "" {
		water, err := gas.ParseLitres(m.Water)
		marks.Water = float64(water)
		return marks, err
	}
	return marks, nil
}
