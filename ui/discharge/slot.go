package discharge

import (
	"fmt"
	"time"

	"lungwort/delivery"
)

// quote looks for the soonest place on the runs as they stand for what is
// brought to the home. It is worked out anew only when what it rests on
// changes.
func (m *Model) quote(home delivery.Address) {
	bring := m.bringing()
	rests := fmt.Sprint(home.Point, home.Stairs, m.texts[Language], m.times[Leaves], bring, m.draft.now.Unix()/60)
	if rests == m.slotRests {
		return
	}
	m.slotRests, m.Slot, m.Later, m.Quoted = rests, delivery.Slot{}, delivery.Slot{}, false
	if len(bring) == 0 {
		m.Taken = false
		return
	}
	board, stop, known := m.draft.board.With(m.draft.programme.Bringing(home, m.texts[Language], m.times[Leaves], time.Time{}, bring))
	if !known {
		m.Taken = false
		return
	}
	m.among(board.Slots(stop))
}

// laterBy is how much later than the soonest another is offered, and spares the
// time on the road it has to save. Common practice, no source.
const (
	laterBy = 2 * time.Hour
	spares  = 5 * time.Minute
)

// among chooses what is offered: the soonest, and one with less time on the
// road; or finds
// again what is promised.
func (m *Model) among(slots []delivery.Slot) {
	if len(slots) == 0 {
		m.Taken = false
		return
	}
	m.Slot, m.Quoted = slots[0], true
	if m.Taken {
		m.Slot, m.Taken = delivery.LeastDriving(slots, m.times[Arrives])
		if !m.Taken {
			m.Slot = slots[0] // it can't be kept any more
		}
	}
	later, _ := delivery.LeastDriving(slots, slots[0].Arrive.Add(laterBy))
	if slots[0].Out-later.Out >= spares && later.Promise().After(slots[0].Promise()) {
		m.Later = later
	}
}

// bringing is what is brought to the home, as a task asks for it.
func (m *Model) bringing() []delivery.Wanted {
	var list []delivery.Wanted
	for _, p := range m.Pieces {
		if !p.Brought {
			continue
		}
		want := p.Want
		if spec := p.Item.Spec; p.Item.ID != "" {
			want = delivery.Wanted{Kind: spec.Kind, Size: spec.Size, Rated: spec.Rated, Count: 1}
		}
		list = append(list, want)
	}
	return list
}

// TakeSlot promises the time that is offered: at hand-over the visit goes on
// that run.
func (m *Model) TakeSlot() {
	if m.Quoted {
		m.take(m.Slot)
	}
}

// TakeLater promises the time of the one with less time on the road.
func (m *Model) TakeLater() {
	if m.LaterOffer() != "" {
		m.take(m.Later)
	}
}

func (m *Model) take(s delivery.Slot) {
	m.Slot, m.Taken = s, true
	m.times[Arrives], m.badTimes[Arrives], m.touched[Arrives] = s.Promise(), nil, true
	m.recompute()
	m.Focus(Arrives, "") // the button that offered it is gone
}

// SlotOffer is what the button beside the promise says; empty when there is
// nothing to offer.
func (m *Model) SlotOffer() string {
	if !m.Quoted || m.Taken {
		return ""
	}
	return fmt.Sprintf("Promise %s with %s", delivery.Clock(m.Slot.Promise(), m.draft.now), m.Slot.Name)
}

// LaterOffer is what the button for the one with less time on the road says;
// empty when none saves any.
func (m *Model) LaterOffer() string {
	if !m.Quoted || m.Taken || m.Later.Arrive.IsZero() {
		return ""
	}
	return fmt.Sprintf("Or %s, %s less on the road", delivery.Clock(m.Later.Promise(), m.draft.now), delivery.Spell(m.Slot.Out-m.Later.Out))
}

// slotHint says who pays what for the slot.
func (m *Model) slotHint() string {
	words := fmt.Sprintf("%s could be there %s", m.Slot.Name, delivery.Clock(m.Slot.Arrive, m.draft.now))
	if m.Taken {
		return fmt.Sprintf("%s comes %s: hand-over puts it on the run", m.Slot.Name, delivery.Clock(m.Slot.Arrive, m.draft.now))
	}
	switch touched := len(m.Slot.Shifts); touched {
	case 0:
		return words + "; nobody else waits longer"
	case 1:
		return words + "; 1 other visit moves, none too late"
	default:
		return words + fmt.Sprintf("; %d other visits move, none too late", touched)
	}
}
