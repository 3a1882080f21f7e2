// Package runs is the screen on which the day's runs are planned, printed and
// closed: the open tasks no vehicle serves yet, and beside them the runs with
// their stops in order, each with the clock of its home.
package runs

import (
	"context"
	"errors"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// Model is what the runs screen shows.
type Model struct {
	work *work.Work
	book book

	Waiting   []Task               // homes with tasks that no run serves; with an area, those in it
	Elsewhere int                  // how many more wait outside the area
	Area      []inventory.PersonID // homes drawn around on the map; none: all
	Rows      []Row                // the runs in force, each followed by its stops
	Proposed  []Row                // what was planned and not accepted yet
	Troubles  []Trouble
	Searching bool
	Share     float64 // of the search, from 0 to 1
	proposal  delivery.DayPlan
	table     table

	Changed func()           // the view draws itself anew
	Focus   func(row string) // brings a row of the runs to hand
	Board   func()           // brings the timelines to hand
	Ask     func(ask.Form)
}

// searchSteps is the budget of a search: about a second on a day of sixty stops
// that can't all be kept, and more gains a day's runs little.
const searchSteps = 20_000

// NewModel returns an empty runs screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Changed: func() {}, Focus: func(string) {}, Board: func() {}, Ask: func(f ask.Form) { f.Submit(f.Answered(), func(error) {}) }}
}

// book is one reading of the book.
type book struct {
	now       time.Time
	programme delivery.Programme
	errands   []delivery.Errand
	watch     map[inventory.PersonID]delivery.Watch
	runs      []delivery.Run
	names     map[inventory.PersonID]string
	streets   map[inventory.AddressID]string
	board     delivery.Board
	outline   outline.Outline
	places    map[inventory.AddressID]delivery.Address
	loadings  map[inventory.RunID]delivery.Loading
}

// Load reads tasks and runs anew. A proposal not accepted stays.
func (m *Model) Load() { m.load(func() {}) }

func (m *Model) load(after func()) {
	now := m.work.Now()
	work.Ask(m.work, "runs", func(ctx context.Context) (book, error) { return read(ctx, m.work.Desk, now) }, func(b book) {
		m.book = b
		m.again(b.board)
		m.show()
		after()
	})
}

// seen are the runs a plan made now is made on.
func (b book) seen() []delivery.Run { return append([]delivery.Run{}, b.runs...) }

func read(ctx context.Context, desk *store.Desk, now time.Time) (b book, err error) {
	b.now, b.watch, b.loadings = now, map[inventory.PersonID]delivery.Watch{}, map[inventory.RunID]delivery.Loading{}
	if b.programme, err = desk.Programme(ctx); err != nil {
		return b, err
	}
	rows, err := desk.Watch(ctx, now)
	if err != nil {
		return b, err
	}
	if b.errands, err = desk.Tasks(ctx, now); err != nil {
		return b, err
	}
	for _, w := range rows {
		b.watch[w.Care.Person] = w
	}
	for _, e := range b.errands {
		b.watch[e.Care.Person] = e.Watch
	}
	if b.runs, err = desk.Runs(ctx, ""); err != nil {
		return b, err
	}
	for _, r := range b.runs {
		if b.loadings[r.ID], err = desk.Loading(ctx, r.ID); err != nil {
			return b, err
		}
	}
	if b.names, err = desk.Names(ctx); err != nil {
		return b, err
	}
	if b.streets, err = desk.Streets(ctx); err != nil {
		return b, err
	}
	if b.outline, err = desk.Outline(ctx); err != nil {
		return b, err
	}
	if b.places, err = desk.Addresses(ctx); err != nil {
		return b, err
	}
	b.board, err = desk.Board(ctx, now)
	return b, err
}

func (m *Model) show() {
	m.Waiting, m.Rows, m.Proposed = m.Waiting[:0:0], m.Rows[:0:0], m.Proposed[:0:0]
	m.Elsewhere = 0
	for _, e := range m.book.errands {
		switch {
		case e.Run != "":
		case m.here(e.Care.Person):
			m.Waiting = append(m.Waiting, m.book.task(e))
		default:
			m.Elsewhere++
		}
	}
	for _, r := range m.book.runs {
		m.Rows = append(m.Rows, m.book.run(r)...)
	}
	for i, p := range m.proposal.Runs {
		m.Proposed = append(m.Proposed, m.book.proposed(i, p)...)
	}
	m.Changed()
}

// AsOf is when the book was read.
func (m *Model) AsOf() time.Time { return m.book.now }

// Proposing reports whether runs are proposed and wait for an answer.
func (m *Model) Proposing() bool { return len(m.proposal.Runs) > 0 }

// Go does what the screen is for: it plans what waits, and accepts what is
// proposed or tried on the board.
func (m *Model) Go() {
	switch {
	case m.Carrying():
		m.Drop()
	case m.Trying():
		m.AcceptTrial()
	case m.Proposing():
		m.Accept()
	default:
		m.Plan()
	}
}

// Plan proposes runs for what waits. It can be stopped: the best plan found
// until then is proposed.
func (m *Model) Plan() {
	if m.Searching {
		return
	}
	if err := m.nothingWaits(); err != nil {
		m.work.Refuse(err)
		return
	}
	now, among := m.work.Now(), m.Area
	m.Searching, m.Share, m.proposal, m.Troubles = true, 0, delivery.DayPlan{}, nil
	m.Changed()
	var plan delivery.DayPlan
	m.work.Run.Go("plan", func(ctx context.Context) (err error) {
		plan, err = m.work.Desk.Propose(ctx, now, searchSteps, among, m.tell)
		return err
	}, func(err error) {
		m.Searching = false
		switch {
		case err == nil:
			m.propose(plan)
		case errors.Is(err, context.Canceled):
			m.work.Say("Planning stopped; nothing is proposed.")
		default:
			m.work.Refuse(err)
		}
		m.Changed()
	})
}

func (m *Model) tell(share float64) {
	m.work.Run.Show(func() {
		if m.Searching {
			m.Share = share
			m.Changed()
		}
	})
}

// StopPlanning ends the search.
func (m *Model) StopPlanning() { m.work.Run.Stop("plan") }

func (m *Model) propose(plan delivery.DayPlan) {
	m.proposal = plan
	m.name(plan.Troubles)
	m.show()
	switch {
	case len(plan.Runs) > 0:
		m.Focus(m.Proposed[0].ID)
	case len(plan.Troubles) > 0:
		m.work.Refuse(refusal.New(refusal.Unready, "No run could be made.", "Why stands under the runs, stop by stop."))
	}
}

// Accept puts the proposed runs in force.
func (m *Model) Accept() {
	if !m.Proposing() {
		return
	}
	act := delivery.PlanRuns{Seen: m.book.seen()}
	for _, r := range m.proposal.Runs {
		act.Runs = append(act.Runs, delivery.RunPlan{Planned: r})
	}
	m.work.Do("accept runs", m.work.Hand(inventory.Keyed), act, func(out store.Outcome) {
		m.proposal = delivery.DayPlan{}
		m.load(func() { m.Focus(runID(out.Facts[0].Run)) })
	})
}

// Discard drops the proposal; nothing of it is in the book.
func (m *Model) Discard() {
	m.proposal, m.Troubles = delivery.DayPlan{}, nil
	m.lay(m.table.board)
	m.show()
}
