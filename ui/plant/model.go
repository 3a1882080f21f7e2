// Package plant is the screen of an exchange with a filling plant: scan what
// goes out, scan what comes in, look at the difference, sign.
package plant

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Side is the way a cylinder goes.
type Side string

// The sides of an exchange.
const (
	Out Side = "out"
	In  Side = "in"
)

// Row is one cylinder on one side, its words ready.
type Row struct {
	Key   string // item id, or the serial of a stranger
	Label string
	What  string // size and owner
	Below string // lot and gauge of what comes in
	Alarm bool
	back  delivery.Received // of what comes in
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Plants, Depots []string
	Plant, Depot   string
	Side           Side
	Lot            string // of what is scanned in from now on
	Later          bool   // what goes out comes back another day
	Out, In        []Row
	OutMore        []inventory.Counted
	InMore         []inventory.Counted
	Slip           delivery.ExchangeSlip
	Sources        []delivery.FillSource
	Sign           scene.Sign
	Stranger       string           // a serial the book does not know, being asked about
	Shown          inventory.FactID // the exchange of a scanned slip; zero: the last one signed

	sizes gas.Table

	Changed func()
	Ask     func() // the stranger is asked about
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{
		work: w, Side: Out, Sign: scene.Sign{Verdict: scene.Unknown, Word: "SCAN", Below: "what goes onto the truck; then change to what comes in"},
		Changed: func() {}, Ask: func() {},
	}
}

// looksBack is how far back the fills of a plant are looked at.
const looksBack = 90 * 24 * time.Hour

type loaded struct {
	programme delivery.Programme
	sources   []delivery.FillSource
}

// Load reads the places and how each plant's fills read.
func (m *Model) Load() {
	since := m.work.Now().Add(-looksBack)
	work.Ask(m.work, "plant", func(ctx context.Context) (l loaded, err error) {
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		l.sources, err = m.work.Desk.FillSources(ctx, since)
		return l, err
	}, func(l loaded) {
		m.Plants, m.Depots, m.Sources = names(l.programme.Plants), names(l.programme.Depots), l.sources
		m.sizes = l.programme.Sizes
		if m.Plant == "" && len(m.Plants) > 0 {
			m.Plant = m.Plants[0]
		}
		if m.Depot == "" && len(m.Depots) > 0 {
			m.Depot = m.Depots[0]
		}
		m.weigh()
	})
}

func names(sites []delivery.Site) []string {
	list := make([]string, len(sites))
	for i, s := range sites {
		list[i] = s.Name
	}
	return list
}

// Act is the exchange as it stands on the screen.
func (m *Model) Act() delivery.Exchange {
	act := delivery.Exchange{Plant: m.Plant, Depot: m.Depot, Later: m.Later, OutMore: m.OutMore, InMore: m.InMore}
	for _, r := range m.Out {
		act.Out = append(act.Out, inventory.ItemID(r.Key))
	}
	for _, r := range m.In {
		act.In = append(act.In, r.back)
	}
	return act
}

// weigh holds what stands on the screen against the book.
func (m *Model) weigh() {
	if m.Plant == "" || m.Depot == "" {
		m.Changed()
		return
	}
	act, now := m.Act(), m.work.Now()
	work.Ask(m.work, "plant weigh", func(ctx context.Context) (delivery.ExchangeSlip, error) {
		return m.work.Desk.WeighExchange(ctx, act, now)
	}, func(slip delivery.ExchangeSlip) {
		m.Slip = slip
		m.Changed()
	})
}

// Set changes what the exchange is about and holds it against the book anew.
func (m *Model) Set(change func(*Model)) {
	change(m)
	m.weigh()
}

// seen is what a scan came to.
type seen struct {
	item inventory.Item
	lot  string
	slip delivery.ExchangeSlip
	no   *refusal.Error
	none bool // not in the book
}

// Scan puts a cylinder on the side that is being scanned. It reports whether
// it took the text: a name is the window's.
func (m *Model) Scan(text string) bool {
	if m.Plant == "" || !hasDigit(text) {
		return false
	}
	side, act, now := m.Side, m.Act(), m.work.Now()
	work.Ask(m.work, "plant scan "+text, func(ctx context.Context) (s seen, err error) {
		if read, err := tag.Read(text); err == nil {
			s.lot = read.Lot
		}
		if s.item, err = finder.Item(ctx, m.work.Desk, text); err != nil {
			s.none = refusal.KindOf(err) == refusal.NotFound && !finder.OurTag(text)
			return s, s.take(err)
		}
		if side == Out {
			act.Out = append(act.Out, s.item.ID)
		} else {
			act.In = append(act.In, delivery.Received{Item: s.item.ID, Lot: s.lot})
		}
		_, err = m.work.Desk.WeighExchange(ctx, act, now)
		return s, s.take(err)
	}, func(s seen) { m.took(text, side, s) })
	return true
}

func hasDigit(text string) bool {
	return slices.ContainsFunc([]rune(text), func(r rune) bool { return r >= '0' && r <= '9' })
}

// take keeps a refusal as part of what was seen: it is shown large.
func (s *seen) take(err error) error {
	if errors.As(err, &s.no) {
		return nil
	}
	return err
}

func (m *Model) took(text string, side Side, s seen) {
	switch {
	case s.none && side == In:
		m.Stranger = finder.Serial(text)
		m.Sign = scene.Sign{Verdict: scene.Unknown, Word: "WHOSE?", Below: m.Stranger + " is not in the book: say whose it is"}
		m.Changed()
		m.Ask()
		return
	case s.no != nil:
		m.Sign = scene.Sign{Verdict: scene.Dry, Word: "STOP", Below: s.no.Says + " " + s.no.Next}
		m.Changed()
		return
	}
	row := Row{Key: string(s.item.ID), Label: s.item.Label(), What: what(s.item.Spec)}
	if side == Out {
		m.Out = append(m.Out, row)
		m.Sign = scene.Sign{Verdict: scene.Holds, Word: fmt.Sprintf("OUT %d", len(m.Out)), Below: row.Label + "  " + row.What}
	} else {
		row.back = delivery.Received{Item: s.item.ID, Lot: lot(s.lot, m.Lot)}
		m.in(row)
	}
	m.weigh()
}

func (m *Model) in(row Row) {
	row.Below = below(row.back)
	m.In = append(m.In, row)
	m.Sign = scene.Sign{Verdict: scene.Holds, Word: fmt.Sprintf("IN %d", len(m.In)), Below: row.Label + "  " + row.What + "  " + row.Below}
	if row.back.Lot == "" {
		m.Sign.Verdict, m.Sign.Below = scene.Tight, row.Label+" has no lot: read the drug label"
	}
}

func lot(scanned, typed string) string {
	if scanned != "" {
		return scanned
	}
	return typed
}

func what(s inventory.Spec) string {
	if s.Owner == "" {
		return string(s.Size) + ", own"
	}
	return string(s.Size) + ", " + s.Owner
}

func below(r delivery.Received) string {
	text := "lot " + r.Lot
	if r.Lot == "" {
		text = "no lot"
	}
	if r.Gauge != nil {
		text += ", " + r.Gauge.String()
	}
	return text
}

// TakeOff takes a cylinder off the exchange again.
func (m *Model) TakeOff(side Side, key string) {
	off := func(r Row) bool { return r.Key == key }
	if side == Out {
		m.Out = slices.DeleteFunc(m.Out, off)
	} else {
		m.In = slices.DeleteFunc(m.In, off)
	}
	m.weigh()
}

// PrintSlip prints the slip of an exchange by the number of its fact; zero is the
// last one signed.
func (m *Model) PrintSlip(fact inventory.FactID) {
	m.work.Paper("exchange-slip", "Exchange slip", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		spoken, _, err := c.DepotTongue("", filepath.Join(m.work.Dir, paperwork.TongueDir))
		if err != nil {
			return nil, err
		}
		return c.ExchangeSlip(ctx, fact, spoken)
	})
}

// ShowSlip says what a scanned slip was about.
func (m *Model) ShowSlip(number string) {
	work.Ask(m.work, "slip", func(ctx context.Context) (inventory.Fact, error) {
		all, err := m.work.Desk.Exchanges(ctx)
		for _, f := range all {
			if fmt.Sprint(f.ID) == number {
				return f, err
			}
		}
		return inventory.Fact{}, cmp.Or(err, error(refusal.New(refusal.NotFound, "This slip's exchange is not in the book.", "Look it up on the exchange statement, under Papers.")))
	}, func(f inventory.Fact) {
		m.Shown = f.ID
		m.Sign = scene.Sign{Verdict: scene.Holds, Word: "SLIP", Below: delivery.Clock(f.Happened.In(m.work.Now().Location()), m.work.Now()) + ": " + delivery.Sentence(f)}
		m.Changed()
	})
}

// signed clears the screen after an exchange.
func (m *Model) signed(out store.Outcome) {
	m.Shown = 0
	m.Out, m.In, m.OutMore, m.InMore, m.Lot = nil, nil, nil, nil, ""
	m.Sign = scene.Sign{Verdict: scene.Holds, Word: "SIGNED", Below: out.Says}
	m.work.OfferUndo(out, m.Load)
	m.Load()
}

// Open goes to the page of a cylinder the book knows.
func (m *Model) Open(id inventory.ItemID) { m.work.Open(work.Target{Room: work.Item, Item: id}) }
