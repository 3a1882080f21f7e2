package season

import (
	"lungwort/inventory"
)

// callList is the calls of the day as a desk makes them that looks twice a day:
// who is due by the programme's schedule is called in turn.
type callList struct{ waits []inventory.PersonID }

// again is when the desk looks a second time who is due: those who did not
// answer in the morning.
const again = 14 * halfHour * 2

func (l *callList) work(o *office) error {
	if o.isLook(deskOpens) || o.isLook(again) {
		rows, err := o.desk.Watch(o.ctx, o.clock)
		if err != nil {
			return err
		}
		l.waits = nil
		for _, w := range rows {
			if w.Care.NextCall(o.settings, len(w.Person.Phones)).Now(o.clock) {
				l.waits = append(l.waits, w.Person.ID)
			}
		}
	}
	for len(l.waits) > 0 && o.callable() {
		next := l.waits[0]
		l.waits = l.waits[1:]
		if _, err := o.call(o.homes[next]); err != nil {
			return err
		}
	}
	return nil
}
