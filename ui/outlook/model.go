// Package outlook answers "will there be enough?": for each kind of thing the
// next two weeks as a picture, what would happen if, and what helps most.
package outlook

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// The suppositions offered.
const (
	Usual  = "usual"
	Twice  = "twice"
	Strike = "strike"
	Recall = "recall"
)

// Row is one kind of thing, its words ready.
type Row struct {
	What, Ready, Needed, Idle, Coming, Weekly string
	Short                                     string // chance on the worst day
	Day                                       string
	Alarm                                     bool
}

// Way is one thing that helps, its words ready.
type Way struct {
	Name, Brings, From, Short string
	Do                        []string
}

// Model is what the screen shows.
type Model struct {
	work *work.Work

	Rows    []Row
	Suppose string // one of the suppositions

	base  stocking.Outlook
	lines []stocking.Line
	here  int

	Changed func() // the kinds of things are worked out anew
	Chosen  func() // another kind is in hand
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Suppose: Usual, Changed: func() {}, Chosen: func() {}}
}

// Load reads the book anew.
func (m *Model) Load() {
	now := m.work.Now()
	m.ask(func(ctx context.Context) (stocking.Outlook, error) { return m.work.Desk.Outlook(ctx, now) })
}

// answer is an outlook with its lines.
type answer struct {
	base  stocking.Outlook
	lines []stocking.Line
}

// ask works the lines out off the window's goroutine.
func (m *Model) ask(read func(context.Context) (stocking.Outlook, error)) {
	suppose, model := m.Suppose, m.Model()
	work.Ask(m.work, "outlook", func(ctx context.Context) (a answer, err error) {
		if a.base, err = read(ctx); err == nil {
			a.lines = a.base.Lines(whatIf(suppose, model))
		}
		return a, err
	}, m.show)
}

func whatIf(suppose, model string) stocking.WhatIf {
	switch suppose {
	case Twice:
		return stocking.WhatIf{Surge: 2}
	case Strike:
		return stocking.WhatIf{Strike: true}
	case Recall:
		return stocking.WhatIf{Recalled: model}
	}
	return stocking.WhatIf{}
}

func (m *Model) show(a answer) {
	here := m.What()
	m.base, m.lines = a.base, a.lines
	m.Rows = make([]Row, len(a.lines))
	for i, l := range a.lines {
		m.Rows[i] = m.row(l)
	}
	m.here = max(0, slices.IndexFunc(a.lines, func(l stocking.Line) bool { return l.What == here }))
	m.Changed()
}

func (m *Model) row(l stocking.Line) Row {
	worst := l.Worst()
	r := Row{
		What: l.What, Ready: strconv.Itoa(l.Ready), Needed: strconv.Itoa(l.Needed), Idle: strconv.Itoa(l.Idle),
		Coming: strconv.Itoa(l.Coming), Weekly: fmt.Sprintf("%.1f", l.Weekly), Short: stocking.Chance(worst.Short),
		Alarm: l.Short(m.base.Programme),
	}
	if worst.Short >= 0.005 {
		r.Day = worst.Day.Format("Mon 2 Jan")
	}
	return r
}

// SetSuppose puts another supposition before the same facts.
func (m *Model) SetSuppose(suppose string) {
	m.Suppose = suppose
	base := m.base
	m.ask(func(context.Context) (stocking.Outlook, error) { return base, nil })
}

// Choose shows the line of a kind of thing.
func (m *Model) Choose(what string) {
	i := slices.IndexFunc(m.lines, func(l stocking.Line) bool { return l.What == what })
	if i < 0 || i == m.here {
		return
	}
	m.here = i
	if m.Suppose == Recall { // another kind has another model
		m.SetSuppose(Recall)
		return
	}
	m.Chosen()
}

// Open goes to the items of a kind.
func (m *Model) Open(what string) {
	for _, l := range m.lines {
		if l.What == what {
			m.work.Open(work.Target{Room: work.Items, Among: work.Among{Kind: l.Kind, Size: l.Size}})
			return
		}
	}
}

// What is the kind of thing in hand.
func (m *Model) What() string {
	if m.here >= len(m.lines) {
		return ""
	}
	return m.lines[m.here].What
}

// Model is the commonest model of the kind in hand, the one a recall is
// supposed of; empty where none is known.
func (m *Model) Model() string {
	i := slices.IndexFunc(m.base.Shelves, func(s stocking.Shelf) bool { return s.What == m.What() })
	if i < 0 {
		return ""
	}
	count, best := make(map[string]int), ""
	for _, item := range m.base.Shelves[i].Items {
		if name := item.Spec.Model; name != "" {
			count[name]++
			if count[name] > count[best] {
				best = name
			}
		}
	}
	return best
}

// Chart is the next two weeks of the kind in hand.
func (m *Model) Chart() scene.StockData {
	if m.here >= len(m.lines) {
		return scene.StockData{}
	}
	l := m.lines[m.here]
	data := scene.StockData{Now: m.base.Now, Ready: l.Ready, Limit: m.base.Programme.Shortage}
	for _, d := range l.Days {
		data.Days = append(data.Days, scene.StockDay{Day: d.Day, Low: float64(d.Low), Mid: d.Left, High: float64(d.High), Short: d.Short})
	}
	return data
}

// Verdict tells the kind in hand in one sentence.
func (m *Model) Verdict() string {
	if m.here >= len(m.lines) {
		return ""
	}
	l := m.lines[m.here]
	for _, d := range l.Days {
		if d.Short > m.base.Programme.Shortage {
			return fmt.Sprintf("%s: %s likely to run short by %s; %d more would hold the accepted %s.", l.What, stocking.Chance(d.Short),
				d.Day.Format("Monday 2 January"), mostNeeded(l), stocking.Chance(m.base.Programme.Shortage))
		}
	}
	return fmt.Sprintf("%s: enough for two weeks.", l.What)
}

func mostNeeded(l stocking.Line) int {
	most := 0
	for _, d := range l.Days {
		most = max(most, d.ToBeSafe)
	}
	return most
}

// Ways are what helps the kind in hand, the cheapest first.
func (m *Model) Ways() []Way {
	if m.here >= len(m.lines) {
		return nil
	}
	var ways []Way
	for _, w := range m.lines[m.here].Ways {
		ways = append(ways, Way{
			Name: w.Name, Brings: strconv.Itoa(len(w.Ready) + w.Units), From: delivery.Clock(w.On, m.base.Now),
			Short: w.Instead(), Do: w.Do,
		})
	}
	return ways
}

// Lasting tells how long the loans of the kind in hand last, stage by stage,
// and what else the outlook rests on.
func (m *Model) Lasting() []string {
	if m.here >= len(m.lines) {
		return nil
	}
	l := m.lines[m.here]
	var says []string
	for _, s := range l.Lasting {
		switch {
		case s.Loans == 0:
		case s.Median == 0 && s.Open == s.Loans:
			says = append(says, fmt.Sprintf("%s: %d, none has ended", s.Stage, s.Loans))
		case s.Median == 0:
			says = append(says, fmt.Sprintf("%s: %d, so many still open that half have not ended", s.Stage, s.Loans))
		default:
			says = append(says, fmt.Sprintf("%s: half within %s (%d, %d open)", s.Stage, stocking.InDays(s.Median), s.Loans, s.Open))
		}
	}
	says = append(says, fmt.Sprintf("hand-overs %.1f a week, trend × %.2f a week (%.2f to %.2f)", l.Weekly, l.Trend[0], l.Trend[1], l.Trend[2]))
	owned := l.Ready + l.Needed + l.Idle + l.Coming
	says = append(says, fmt.Sprintf("%d of these work for us; %d meet this demand %.0f %% of the time", owned, l.Target, 100-100*m.base.Programme.Shortage))
	if kept := keptBack(l.Kept); kept != "" {
		says = append(says, "not counted on: "+kept)
	}
	if l.Upkeep > 0 {
		says = append(says, fmt.Sprintf("%d ready go to the bench for maintenance within two weeks", l.Upkeep))
	}
	says = append(says, l.Assumed...)
	by := ""
	for _, s := range l.Splits {
		if s.By != by {
			by = s.By
			says = append(says, "", "Needed for, by "+by)
		}
		says = append(says, s.Says())
	}
	return says
}

func keptBack(kept map[string]int) string {
	var parts []string
	for why, n := range kept {
		parts = append(parts, fmt.Sprintf("%d %s", n, why))
	}
	slices.Sort(parts)
	return strings.Join(parts, ", ")
}
