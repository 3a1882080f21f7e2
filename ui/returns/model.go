// Package returns is the screen on which what comes back is scanned in: held
// against what is expected of a vehicle or a person, each thing with its
// reading, a stranger into quarantine.
package returns

import (
	"context"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Hand is the thing that was scanned and is not booked yet.
type Hand struct {
	Item    inventory.Item
	Serial  string           // of a thing the book does not know
	Near    []inventory.Item // it may be one of these
	Value   string           // gauge or hours, as typed
	Drained bool             // a cylinder given back, or labelled, as empty
	Soiled  bool
	With    []string // small parts of the loan that came with it
	Lacks   string   // small parts that did not come back, comma between
	Owner   string   // of a stranger, as its label says
	Wrong   string
}

// Stranger reports whether the thing is not in the book.
func (h Hand) Stranger() bool { return h.Item.ID == "" && h.Serial != "" }

// scan says what the scan of the thing did.
func (h Hand) scan() work.Scan {
	switch {
	case len(h.Near) > 0:
		return work.Scan{Verdict: scene.Unknown, Title: h.Serial + "?", Detail: "Close to " + h.Near[0].Label() + " in the book: say which it is."}
	case h.Stranger():
		return work.Scan{Verdict: scene.Unknown, Title: h.Serial, Detail: "Not in the book: a stranger goes into quarantine."}
	}
	return work.Scan{Verdict: scene.Holds, Title: h.Item.Label(), Detail: h.Item.Spec.What() + ", " + string(h.Item.State)}
}

// Empty reports whether nothing is in hand.
func (h Hand) Empty() bool { return h.Item.ID == "" && h.Serial == "" }

// Model is what the screen shows.
type Model struct {
	work *work.Work
	now  time.Time

	Sources []Source
	From    string // the source chosen
	Depots  []string
	Depot   string // where things are taken in
	Hand    Hand
	busy    bool
	next    []scanned // while the thing in hand still lacks something

	booked   []inventory.Item
	unknown  []string
	expected []inventory.Item // of the source, as it stood when it was chosen

	Changed func()
	Focus   func() // the keyboard goes to what is asked of the thing in hand
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model {
	return &Model{work: w, Changed: func() {}, Focus: func() {}}
}

// Load reads from whom things are expected. Who chooses a person is shown
// even when nothing was collected yet.
func (m *Model) Load(who inventory.PersonID) {
	m.now = m.work.Now()
	work.Ask(m.work, "returns", func(ctx context.Context) (loaded, error) { return read(ctx, m.work.Desk, who, m.now) }, func(l loaded) {
		m.Sources, m.Depots = l.sources, nil
		for _, d := range l.programme.Depots {
			m.Depots = append(m.Depots, d.Name)
		}
		if len(m.Depots) == 1 {
			m.Depot = m.Depots[0]
		}
		if who != "" {
			m.Choose(string(who))
			return
		}
		m.Changed()
	})
}

// Choose takes the source from whom the next things come.
func (m *Model) Choose(id string) {
	i := slices.IndexFunc(m.Sources, func(s Source) bool { return s.ID == id })
	if i < 0 {
		return
	}
	s := m.Sources[i]
	m.From, m.expected, m.booked, m.unknown = s.ID, s.Expected, nil, nil
	if s.Depot != "" {
		m.Depot = s.Depot
	}
	m.Changed()
}

// SetDepot says where things are taken in.
func (m *Model) SetDepot(name string) {
	m.Depot, m.Hand.Wrong = name, ""
	m.Changed()
}

// noneMissing says why nothing is missing.
func (m *Model) noneMissing() string {
	switch m.From {
	case "":
		return "Choose from whom it comes, or scan."
	case amnesty:
		return "Nothing is expected, and nobody is asked."
	}
	return "Nothing: all that was expected is back."
}

// Columns hold what came back against what was expected.
func (m *Model) Columns() delivery.Reconciliation {
	return delivery.Reconcile(m.expected, m.booked, m.unknown)
}

// Scan takes the next thing in hand; one that lacks nothing any more is booked
// before, and for one that does the next thing waits. It reports whether it
// took the text.
func (m *Model) Scan(text string) bool {
	if !strings.ContainsAny(text, "0123456789") {
		return false
	}
	m.look(text)
	return true
}

// scanned is a scan with what it named.
type scanned struct {
	text string
	seen
}

func (s scanned) hand() Hand {
	h := Hand{Item: s.item, Near: s.near, With: s.item.With}
	if s.none {
		h.Serial = finder.Serial(s.text)
	}
	return h
}

// seen is what a scan named.
type seen struct {
	item inventory.Item
	near []inventory.Item
	none bool
}

func (m *Model) look(text string) {
	work.Ask(m.work, "return scan "+text, func(ctx context.Context) (s seen, err error) {
		s.item, err = finder.Item(ctx, m.work.Desk, text)
		if err == nil || finder.OurTag(text) {
			return s, err // a slip in our own tag is no stranger
		}
		switch refusal.KindOf(err) {
		case refusal.NotFound:
			s.none = true
			return s, nil
		case refusal.Ask:
			if s.near, err = m.work.Desk.Near(ctx, finder.Serial(text)); err == nil && len(s.near) > 0 {
				s.none = true
				return s, nil
			}
			_, err = finder.Item(ctx, m.work.Desk, text)
		}
		return s, err
	}, func(s seen) { m.queue(scanned{text, s}) })
}

// queue lets a scan wait for its turn. A scanner that read twice is heard once.
func (m *Model) queue(s scanned) {
	same := func(h Hand) bool { return h.Item.ID == s.hand().Item.ID && h.Serial == s.hand().Serial }
	if same(m.Hand) || slices.ContainsFunc(m.next, func(n scanned) bool { return same(n.hand()) }) {
		return
	}
	m.next = append(m.next, s)
	if m.Hand.Empty() {
		m.take()
		return
	}
	m.Book()
	if m.Hand.Wrong != "" {
		wait := s.hand().scan()
		wait.Verdict, wait.Detail = scene.Tight, "Waits until "+m.Title()+" is booked. "+m.Hand.Wrong
		m.work.Scanned(wait)
	}
}

// take brings what was scanned next into the hand.
func (m *Model) take() {
	if len(m.next) == 0 {
		return
	}
	first := m.next[0]
	m.next = m.next[1:]
	m.inHand(first)
	if len(m.next) > 0 {
		m.Book()
	}
}

func (m *Model) inHand(s scanned) {
	m.Hand = s.hand()
	m.work.Scanned(m.Hand.scan())
	if m.From == "" && s.item.ID != "" {
		m.follow(s.item)
	}
	m.Changed()
	m.Focus()
}

// follow chooses the source a first scan comes from.
func (m *Model) follow(item inventory.Item) {
	id := string(item.Place)
	if item.Lent() {
		id = string(item.Person)
	}
	m.Choose(id)
}

// ItIs says that the thing in hand is one the book knows under a serial close
// to it; with no ID it is a stranger.
func (m *Model) ItIs(id inventory.ItemID) {
	for _, item := range m.Hand.Near {
		if item.ID == id {
			m.inHand(scanned{seen: seen{item: item}})
			return
		}
	}
	m.Hand.Near = nil
	m.Changed()
	m.Focus()
}

// Put lays the thing in hand aside: nothing of it is in the book.
func (m *Model) Put() {
	m.Hand = Hand{}
	m.Changed()
	m.work.Field()
	m.take()
}
