package settings

import (
	"errors"
	"time"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// clinicians are asked in the order they are rung.
var clinicians = rowsOf[delivery.Contact]{
	id: "clinicians", what: "clinician",
	get:  func(p delivery.Programme) []delivery.Contact { return p.Clinician },
	set:  func(p *delivery.Programme, rows []delivery.Contact) { p.Clinician = rows },
	says: func(_ delivery.Programme, c delivery.Contact) (string, string) { return c.Name, join(c.Role, c.Phone) },
	asks: func(_ delivery.Programme, c delivery.Contact) []ask.Field { return contactFields(c) },
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Contact { return contact(r, a) },
}

func contactFields(c delivery.Contact) []ask.Field {
	return []ask.Field{
		{Key: "name", Label: "Name", Value: c.Name, Hint: "as the night pack names whom to ring"},
		{Key: "role", Label: "Role", Value: c.Role},
		{Key: "phone", Label: "Phone", Value: c.Phone},
	}
}

func contact(r *ask.Reader, a ask.Answers) delivery.Contact {
	return delivery.Contact{
		Name: r.Need("name", "write the name"), Role: a.Text("role"), Phone: r.Need("phone", "write the number to ring"),
	}
}

// turns are the on-call rota.
func turns(now time.Time) list {
	return rowsOf[delivery.Duty]{
		id: "on_call", what: "turn",
		get: func(p delivery.Programme) []delivery.Duty { return p.OnCall },
		set: func(p *delivery.Programme, rows []delivery.Duty) { p.OnCall = rows },
		says: func(_ delivery.Programme, d delivery.Duty) (string, string) {
			return d.Name, join(d.Role, d.Phone, turn(d, now))
		},
		asks: func(_ delivery.Programme, d delivery.Duty) []ask.Field {
			return append(contactFields(d.Contact),
				ask.Field{Key: "from", Label: "From", Kind: ask.Moment, Value: d.From.Format(time.RFC3339)},
				ask.Field{Key: "until", Label: "Until", Kind: ask.Moment, Value: d.Until.Format(time.RFC3339)})
		},
		read:  func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Duty { return duty(r, a, now) },
		blank: func(p delivery.Programme) delivery.Duty { return nextTurn(p, now) },
	}
}

// turn says when somebody is on call.
func turn(d delivery.Duty, now time.Time) string {
	const layout = "Mon 2 Jan 15:04"
	from, until := d.From.In(now.Location()), d.Until.In(now.Location())
	words := from.Format(layout) + " to " + until.Format(layout)
	switch {
	case !until.After(now):
		return words + " · over"
	case !from.After(now):
		return words + " · now"
	}
	return words
}

// nextTurn begins where the rota ends, and lasts a day.
func nextTurn(p delivery.Programme, now time.Time) delivery.Duty {
	from := now.Truncate(time.Hour)
	for _, d := range p.OnCall {
		if d.Until.After(from) {
			from = d.Until.In(now.Location())
		}
	}
	return delivery.Duty{From: from, Until: from.AddDate(0, 0, 1)}
}

func duty(r *ask.Reader, a ask.Answers, now time.Time) delivery.Duty {
	d := delivery.Duty{
		Contact: contact(r, a), From: r.Time("from", now.Location()), Until: r.Time("until", now.Location()),
	}
	r.Need("from", "write when the turn begins")
	r.Need("until", "write when the turn ends")
	if len(r.Wrong()) == 0 && !d.Until.After(d.From) {
		r.Fail("until", errors.New("the turn ends before it begins"))
	}
	return d
}
