package settings

import (
	"errors"
	"fmt"
	"slices"

	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
)

// Form asks for an entry: what it is to be.
func (m *Model) Form(id string) (ask.Form, bool) {
	if l, i := m.row(id); l != nil {
		return m.rowForm(l, i), true
	}
	v := valueOf(id)
	if v.key == "" {
		return m.userForm(id)
	}
	hint := ""
	if e := m.entry(v); e.Default != "" {
		hint = "default " + e.Default + ": " + e.Source
	}
	field := ask.Field{Key: v.key, Label: v.label, Value: v.get(m.draft), Hint: hint}
	for _, answer := range offered[v.key] {
		field.Kind, field.Options = ask.Pick, append(field.Options, ask.Option{Value: answer, Label: answer})
	}
	return ask.Form{
		Title: v.label, Button: "Change",
		Fields: []ask.Field{field},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			draft := m.draft
			if err := v.set(&draft, a.Text(v.key)); err != nil {
				return ask.Wrong{v.key: err}
			}
			if err := draft.Check(); err != nil && m.draft.Check() == nil {
				return ask.Wrong{v.key: errors.New(refusal.For(err))}
			}
			m.draft = draft
			closed(nil)
			m.Changed()
			return nil
		},
	}, true
}

// NewRow asks for a new row of a kind that Adds names.
func (m *Model) NewRow(thing string) (ask.Form, bool) {
	if thing == aUser {
		return m.newUserForm(), true
	}
	for _, l := range m.groups[m.Here].lists {
		if l.thing() == thing {
			return m.rowForm(l, l.size(m.draft)), true
		}
	}
	return ask.Form{}, false
}

func (m *Model) rowForm(l list, i int) ask.Form {
	form := ask.Form{Title: "New " + l.thing(), Button: "Add", Fields: l.fields(m.draft, i)}
	was := ""
	if i < l.size(m.draft) {
		form.Title, form.Button = "Change the "+l.thing(), "Change"
		was = form.Answered()["name"]
	}
	form.Submit = func(a ask.Answers, closed func(error)) ask.Wrong {
		draft := m.draft
		if err := m.mayBeCalled(l, was, a.Text("name")); err != nil {
			return ask.Wrong{"name": err}
		}
		if wrong := l.put(&draft, i, a); len(wrong) > 0 {
			return wrong
		}
		m.draft = draft
		closed(nil)
		m.Changed()
		return nil
	}
	return form
}

// referred are the lists whose rows facts name.
var referred = []string{hospital.key(), wards.key(), depots.key(), plants.key(), vehicles.key()}

// mayBeCalled refuses to rename what facts refer to by its name, and a second
// place of one name.
func (m *Model) mayBeCalled(l list, was, name string) error {
	if !slices.Contains(referred, l.key()) || name == was {
		return nil
	}
	if _, taken := m.draft.Site(name); taken && l.key() != vehicles.id {
		return fmt.Errorf("“%s” is another place already: choose another short name", name)
	}
	if _, taken := m.draft.Vehicle(name); taken && l.key() == vehicles.id {
		return fmt.Errorf("“%s” is another vehicle already: choose another name", name)
	}
	_, place := m.inForce.Site(was)
	_, vehicle := m.inForce.Vehicle(was)
	if was != "" && (place || vehicle) {
		return fmt.Errorf("“%s” is written in the book wherever it was named, so it stays: add a new %s instead", was, l.thing())
	}
	return nil
}
