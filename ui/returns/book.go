package returns

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/finder"
	"lungwort/ui/meter"
)

// SetValue takes what was read on the thing in hand.
func (m *Model) SetValue(text string) { m.Hand.Value, m.Hand.Wrong = text, "" }

// SetDrained says that a cylinder was given back, or is labelled, as empty. What
// its gauge reads then tells whether the person had gas.
func (m *Model) SetDrained(drained bool) { m.Hand.Drained = drained }

// SetSoiled says that the thing in hand is bagged and kept apart.
func (m *Model) SetSoiled(soiled bool) { m.Hand.Soiled = soiled }

// SetWith says which small parts of the loan came with the thing in hand.
func (m *Model) SetWith(there []string) { m.Hand.With = there }

// SetLacks names the small parts that did not come back.
func (m *Model) SetLacks(text string) { m.Hand.Lacks = text }

// SetOwner names whose label a stranger carries.
func (m *Model) SetOwner(text string) { m.Hand.Owner = text }

// Book writes the thing in hand into the book, or says what lacks.
func (m *Model) Book() {
	if text := m.Hand.Value; meter.Scanned(text) {
		m.Hand.Value = "" // a scanner typed into the reading
		m.Scan(text)
		return
	}
	if m.Hand.Empty() || m.busy {
		return
	}
	act, wrong := m.act()
	if m.Hand.Wrong = wrong; wrong != "" {
		m.Changed()
		m.Focus()
		return
	}
	hand, thing := m.work.Hand(inventory.Scanned), m.Hand
	m.busy = true
	var out store.Outcome
	m.work.Run.Go("return", func(ctx context.Context) (err error) {
		out, err = m.work.Desk.Do(ctx, hand, act)
		return err
	}, func(err error) {
		m.busy = false
		if err != nil {
			m.Hand.Wrong = refusal.For(err)
			m.Changed()
			m.Focus()
			return
		}
		m.done(thing, out)
		m.take()
	})
}

// done shows a thing that was booked, and offers to take it back.
func (m *Model) done(thing Hand, out store.Outcome) {
	m.Hand = Hand{}
	m.work.Changed()
	m.work.Field()
	if thing.Stranger() {
		m.unknown = append(m.unknown, thing.Serial)
		m.work.Say(out.Says)
		m.Changed()
		return
	}
	m.booked = append(m.booked, thing.Item)
	m.work.OfferUndo(out, func() {
		m.booked = slices.DeleteFunc(m.booked, func(i inventory.Item) bool { return i.ID == thing.Item.ID })
		m.Changed()
	})
	m.Changed()
}

// act is what the thing in hand becomes in the book, or why it can't yet.
func (m *Model) act() (delivery.Act, string) {
	h := m.Hand
	switch {
	case len(h.Near) > 0:
		return nil, "Is it one of these? Read its plate once more."
	case m.Depot == "":
		return nil, "Choose the depot where it is taken in."
	case h.Stranger():
		return delivery.Stray{Serial: h.Serial, Depot: m.Depot, Owner: strings.TrimSpace(h.Owner)}, ""
	}
	read, err := meter.Of(h.Item, h.Value)
	switch {
	case err != nil:
		return nil, err.Error()
	case h.Item.Spec.Kind == inventory.Cylinder && read.Gauge == nil:
		return nil, "Read the gauge: no cylinder is booked without one."
	case h.Item.Spec.Kind == inventory.Vessel && read.Weight == nil:
		return nil, "Weigh it: no vessel is booked without."
	}
	if m.From == amnesty {
		return delivery.HandIn{
			Item: h.Item.ID, Depot: m.Depot, Gauge: read.Gauge, Hours: read.Hours, Weight: read.Weight, Soiled: h.Soiled,
		}, ""
	}
	return delivery.Return{
		Item: h.Item.ID, Depot: m.Depot, Gauge: read.Gauge, Hours: read.Hours, Weight: read.Weight, Empty: h.Drained, Soiled: h.Soiled, Lacks: lacks(h),
	}, ""
}

// lacks are the small parts of the loan that are not there any more, and what
// was written beside.
func lacks(h Hand) []string {
	var list []string
	for _, part := range h.Item.With {
		if !slices.Contains(h.With, part) {
			list = append(list, part)
		}
	}
	return append(list, parts(h.Lacks)...)
}

func parts(text string) []string {
	var list []string
	for _, part := range strings.Split(text, ",") {
		if part = strings.TrimSpace(part); part != "" {
			list = append(list, part)
		}
	}
	return list
}

// Title and Below say what is in hand.
func (m *Model) Title() string {
	switch h := m.Hand; {
	case h.Empty():
		return "Scan what came back"
	case h.Stranger():
		return h.Serial
	default:
		return finder.Label(h.Item)
	}
}

// Below says what the thing in hand is, and whether it was expected.
func (m *Model) Below() string {
	h := m.Hand
	switch {
	case h.Empty():
		return "Its tag, or the serial on its plate, into the field on top."
	case len(h.Near) > 0:
		return "Not in the book, but close to what is. O or 0, I or 1, a dropped zero?"
	case h.Stranger():
		return "Not in the book: it goes into quarantine until somebody knows whose it is."
	}
	expected := slices.ContainsFunc(m.expected, func(i inventory.Item) bool { return i.ID == h.Item.ID })
	words := m.waiting() + h.Item.Spec.What() + " · " + string(h.Item.State)
	if m.From != "" && !expected {
		words += " · not expected from here"
	}
	if g := h.Item.Gauge; g != nil {
		words += fmt.Sprintf(" · %s %s", g.Value, delivery.Clock(g.At, m.now))
	}
	if hours := h.Item.Hours; hours != nil {
		words += fmt.Sprintf(" · %.0f h %s", hours.Value, delivery.Clock(hours.At, m.now))
	}
	return words
}

// waiting names what was scanned meanwhile.
func (m *Model) waiting() string {
	if len(m.next) == 0 {
		return ""
	}
	names := make([]string, len(m.next))
	for i, s := range m.next {
		names[i] = s.hand().scan().Title
	}
	return "Scanned already and next: " + strings.Join(names, ", ") + " · "
}
