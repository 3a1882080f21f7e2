package discharge

import (
	"context"
	"fmt"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// order in which the keyboard looks for what is wrong.
var inOrder = []Field{
	Family, Given, Born, Record, Phones, Language, Street, Town, Area, Spot, Access, Mains, Smoker, Stairs,
	Sharing, Notice, Risk, Parts, Supplies, Rest, Exertion, Asleep, Hours, Setting, Bolus, Review, Prescriber, OwnBands, Ward, Ride, Leaves, Arrives, SetUp, WarmUp, Kit,
}

// HandOver writes everything in one transaction, or says what is in the way.
// A bridge that does not hold is asked about first.
func (m *Model) HandOver() {
	if m.busy || m.Choosing {
		return
	}
	m.tried = true
	m.recompute()
	for _, f := range inOrder {
		if m.Wrong[f] != "" {
			m.Focus(f, "")
			return
		}
	}
	for _, p := range m.Pieces {
		if _, bad := m.Troubles[p.ID()]; bad {
			m.Focus(Kit, p.ID())
			return
		}
	}
	if title, text := m.Warning(); title != "" {
		m.Confirm(title, text, "Hand over anyway", m.write)
		return
	}
	m.write()
}

func (m *Model) write() {
	act, _ := m.act()
	hand := m.work.Hand(inventory.Keyed)
	m.busy = true
	slot := m.Taken
	var out store.Outcome
	m.work.Run.Go("hand over", func(ctx context.Context) (err error) {
		if slot {
			out, err = m.work.Desk.HandOver(ctx, hand, act)
			return err
		}
		out, err = m.work.Desk.Do(ctx, hand, act)
		return err
	}, func(err error) {
		m.busy = false
		if err != nil {
			m.work.Refuse(err)
			m.reread()
			return
		}
		who := out.Facts[0].Person
		m.work.Changed()
		m.work.Offer(out.Says, "Receipt and leaflet", func() { m.Receipt(who) })
		m.Load("")
	})
}

// reread looks again at what is ready and at each thing of the kit: somebody
// else may have taken one meanwhile. What was written stays.
func (m *Model) reread() {
	work.Ask(m.work, "discharge again", func(ctx context.Context) (l loaded, err error) {
		if l, err = m.read(ctx, m.draft.page.Person.ID, m.work.Now()); err != nil {
			return l, err
		}
		l.kit = map[inventory.ItemID]inventory.Item{}
		err = m.work.Desk.Ask(ctx, m.work.Now(), func(v delivery.View) error {
			for _, p := range m.Pieces {
				if p.Item.ID == "" {
					continue
				}
				if l.kit[p.Item.ID], err = v.Item(p.Item.ID); err != nil {
					return err
				}
			}
			return nil
		})
		return l, err
	}, func(l loaded) {
		m.draft.ready, m.draft.programme, m.draft.page, m.back = l.ready, l.programme, l.page, l.back
		m.draft.board, m.slotRests = l.board, ""
		for i, p := range m.Pieces {
			if item, ok := l.kit[p.Item.ID]; ok {
				m.Pieces[i].Item = item
			}
		}
		m.recompute()
	})
}

// Receipt prints what a person took home from the ward, and the household's
// leaflet, and shows both.
func (m *Model) Receipt(who inventory.PersonID) {
	now, asked := m.work.Now(), paperwork.Asked{Person: who, By: m.work.By}
	type made struct {
		files []string
		note  string
	}
	work.Ask(m.work, "receipt", func(ctx context.Context) (p made, err error) {
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return p, err
		}
		for _, id := range []string{"hand-over", "leaflet"} {
			file, note, err := clerk.SaveHomePaper(ctx, m.work.Dir, id, asked, "")
			if err != nil {
				return p, err
			}
			p.files, p.note = append(p.files, file), note
		}
		return p, nil
	}, func(p made) {
		if p.note != "" {
			m.work.Say(p.note)
		}
		for _, file := range p.files {
			m.work.Print(file)
		}
	})
}

// Reset starts anew. What was written is asked about first.
func (m *Model) Reset() {
	if len(m.touched) == 0 {
		m.Load("")
		return
	}
	m.Confirm("Start anew?", "What was written for this discharge is dropped; nothing of it is in the book yet.", "Drop it", func() { m.Load("") })
}

// Hint is what stands under a field to help.
func (m *Model) Hint(f Field) string {
	switch f {
	case Arrives:
		return m.arrivalHint()
	case Parts:
		return m.partsHint()
	case Supplies:
		return m.suppliesHint()
	case OwnBands:
		return m.bandsHint()
	case Spot:
		return m.spotHint()
	case Area:
		if full := areaOf(m.texts[Area], areas(m.draft.programme)); full != m.texts[Area] {
			return full
		}
	}
	return ""
}

// spotHint says from what the place of the home is taken while none is written.
func (m *Model) spotHint() string {
	if m.texts[Spot] != "" || m.texts[Street] == "" {
		return ""
	}
	if len(m.spots) > 0 {
		return "about right: taken as " + m.spots[0].Where()
	}
	written := delivery.Address{Street: m.texts[Street], Town: m.texts[Town]}
	switch found := written.Matches(m.draft.places); {
	case len(found) == 1 && found[0].Usual:
		return "about right: the middle of postcode " + found[0].Postcode
	case len(found) == 1:
		return "about right: " + found[0].Where() + " of the place file"
	case len(found) > 1:
		return fmt.Sprintf("%d places of that name: write which, or ask for the postcode", len(found))
	}
	return "not known: the ride is taken as " + delivery.Spell(m.draft.programme.HelpWithin)
}

func (m *Model) arrivalHint() string {
	switch {
	case m.Quoted:
		return m.slotHint()
	case m.Reach.At.IsZero():
		return "no vehicle is free today: promise a time only when one is found"
	case !m.Reach.Known:
		return fmt.Sprintf("%s about %s: the way is not known", m.Reach.Vehicle, delivery.Clock(m.Reach.At, m.draft.now))
	}
	return fmt.Sprintf("%s could be there %s", m.Reach.Vehicle, delivery.Clock(m.Reach.At, m.draft.now))
}
