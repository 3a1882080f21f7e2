package measures

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// lacks finds when a person who breathed from the cylinder was found with
// nothing left in any, and whether gauges were read in each time at home.
func lacks(id inventory.PersonID, standing []inventory.Fact, all []Episode) {
	s := supply{held: make(map[inventory.ItemID]time.Time), empty: make(map[inventory.ItemID]bool)}
	breathes := delivery.FromNothing
	now := -1
	for _, f := range standing {
		for now+1 < len(all) && !f.Happened.Before(all[now+1].Opened) {
			now++
			breathes, s.gone = delivery.FromCylinder, false
		}
		if w, is := f.Statement.(*delivery.Switched); is && f.Person == id {
			breathes, s.gone = w.To, s.gone && w.To == delivery.FromCylinder
		}
		s.follow(id, f)
		o, is := f.Statement.(*inventory.Observed)
		if !is || o.Gauge == nil || now < 0 {
			continue
		}
		all[now].Read = true
		if breathes == delivery.FromCylinder && s.runsOut(f) {
			all[now].Without = append(all[now].Without, Lack{f.Happened, gaugeAtZero})
		}
	}
}

// supply is the cylinders of one person, as the facts tell of them one after
// another.
type supply struct {
	held    map[inventory.ItemID]time.Time // since when
	empty   map[inventory.ItemID]bool      // read at zero last
	brought time.Time                      // a cylinder came last
	gone    bool                           // nothing is left
	since   time.Time                      // of gone
}

// follow takes up what a fact says of a cylinder.
func (s *supply) follow(id inventory.PersonID, f inventory.Fact) {
	switch w := f.Statement.(type) {
	case *inventory.Lent:
		delete(s.held, f.Item)
		if f.Person == id && w.Spec.Kind == inventory.Cylinder {
			s.held[f.Item], s.brought = f.Happened, f.Happened
		}
	case *inventory.Collected, *inventory.Returned, *inventory.LeftAt:
		delete(s.held, f.Item)
	case *inventory.Filled:
		delete(s.empty, f.Item)
	case *inventory.Observed:
		if w.Gauge != nil {
			s.empty[f.Item] = *w.Gauge <= 0
		}
	}
}

// runsOut reports whether a reading shows for the first time that nothing is
// left. What was brought at that moment was not there before; a cylinder that
// was not read may hold gas.
func (s *supply) runsOut(reading inventory.Fact) bool {
	now := reading.Happened
	since, ours := s.held[reading.Item]
	if !ours || !since.Before(now) {
		return false
	}
	known := s.gone && (s.brought.Equal(now) || !s.brought.After(s.since))
	s.gone = true
	for item, since := range s.held {
		if !s.empty[item] && since.Before(now) {
			s.gone = false
		}
	}
	if s.gone && !known {
		s.since = now
	}
	return s.gone && !known
}
