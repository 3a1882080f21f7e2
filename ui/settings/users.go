package settings

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// The names of the rows of the page of who is at the desk.
const (
	signInRow = "sign-in"
	userRow   = "user "
	roleRow   = "role "
	aUser     = "user"
)

// whoIsThere is the page's name.
const whoIsThere = "Who is at the desk"

// readAccess reads who may work in the book.
func (m *Model) readAccess() {
	work.Ask(m.work, "access", func(ctx context.Context) (delivery.Access, error) {
		return m.work.Desk.Access(ctx)
	}, func(a delivery.Access) {
		m.access = a
		m.Changed()
	})
}

// users are the rows of the page: whether names are asked for, who works in the
// book, and what each role is.
func (m *Model) users() []Entry {
	says := "off: nobody is asked for a name, and facts carry that of the system's user"
	if m.access.On {
		says = "on: name and passphrase are asked for"
		if n := len(m.access.Strangers); n > 0 {
			says += fmt.Sprintf("; %d sign-ins failed under names nobody goes by, the last %s", n, m.access.Strangers[n-1].In(m.work.Now().Location()).Format("Mon 2 Jan 15:04"))
		}
	}
	rows := []Entry{{ID: signInRow, Name: "Sign-in", Says: says}}
	for _, u := range m.access.Users {
		rows = append(rows, Entry{ID: userRow + u.Name, Name: u.Name, Says: m.inWords(u)})
	}
	for _, r := range delivery.Roles() {
		rows = append(rows, Entry{ID: roleRow + string(r), Name: "as " + string(r), Says: "sees " + r.Sees().InWords(), Default: does(r, false)})
	}
	return rows
}

func (m *Model) inWords(u delivery.User) string {
	if u.Off {
		return "works in the book no more"
	}
	words := string(u.Role)
	if u.Passphrase.IsZero() {
		words += "; no passphrase yet"
	}
	if n := len(u.Failed); n > 0 {
		words += fmt.Sprintf("; %d failed sign-ins, the last %s", n, u.Failed[n-1].In(m.work.Now().Location()).Format("Mon 2 Jan 15:04"))
	}
	return words
}

// does says what a role does: in a few words, or with all that is in it.
func does(r delivery.Role, whole bool) string {
	list := r.Does()
	switch {
	case r == delivery.AsCoordinator && !whole:
		return "does everything"
	case len(list) == 0:
		return "writes nothing"
	case whole:
		return "Does:\n" + strings.Join(list, ".\n") + "."
	}
	for i, remit := range list {
		list[i], _, _ = strings.Cut(remit, ":")
	}
	return "does " + strings.Join(list, "; ")
}

// roleForm tells what a role sees and does.
func roleForm(r delivery.Role) ask.Form {
	return ask.Form{
		Title: "At the desk as " + string(r), Button: "Close",
		Before: "Sees " + r.Sees().InWords() + ".\n" + does(r, true),
		Submit: func(_ ask.Answers, closed func(error)) ask.Wrong {
			closed(nil)
			return nil
		},
	}
}

// userForm asks for a row of the page: to switch sign-in, to change a user, or to tell
// what a role is.
func (m *Model) userForm(id string) (ask.Form, bool) {
	role, isRole := strings.CutPrefix(id, roleRow)
	switch name, isUser := strings.CutPrefix(id, userRow); {
	case id == signInRow && m.access.On:
		return m.switchOffForm(), true
	case id == signInRow:
		return m.switchOnForm(), true
	case isRole:
		return roleForm(delivery.Role(role)), true
	case isUser:
		u, err := m.access.User(name)
		return m.changeUserForm(u), err == nil
	}
	return ask.Form{}, false
}

// passphraseFields ask for a new passphrase twice.
func passphraseFields(label string) []ask.Field {
	return []ask.Field{
		{Key: "passphrase", Label: label, Kind: ask.Secret, Hint: "four or five words that do not belong together"},
		{Key: "again", Label: "Once more", Kind: ask.Secret},
	}
}

func twice(a ask.Answers) ask.Wrong {
	if a["passphrase"] != a["again"] {
		return ask.Wrong{"again": errors.New("the two are not the same")}
	}
	return nil
}

func roleField(of delivery.Role, more ...ask.Option) ask.Field {
	f := ask.Field{Key: "role", Label: "As", Kind: ask.Pick, Value: string(of)}
	for _, r := range delivery.Roles() {
		f.Options = append(f.Options, ask.Option{Value: string(r), Label: string(r)})
	}
	f.Options = append(f.Options, more...)
	return f
}

func (m *Model) newUserForm() ask.Form {
	return ask.Form{
		Title: "Somebody who works in the book", Button: "Add",
		Fields: append([]ask.Field{{Key: "name", Label: "Name", Hint: "by which they sign in; it stands at every fact they record"}, roleField("")}, passphraseFields("First passphrase")...),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			if wrong := twice(a); wrong != nil {
				return wrong
			}
			m.act(closed, delivery.AddUser{Name: a.Text("name"), Role: delivery.Role(a["role"]), Passphrase: a["passphrase"]})
			return nil
		},
	}
}

// off is the answer of a user who is switched off.
const off = "switched off"

func (m *Model) changeUserForm(u delivery.User) ask.Form {
	role := string(u.Role)
	if u.Off {
		role = off
	}
	return ask.Form{
		Title: u.Name, Button: "Change",
		Fields: append([]ask.Field{roleField(delivery.Role(role), ask.Option{Value: off, Label: off})}, passphraseFields("New passphrase")...),
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			if wrong := twice(a); wrong != nil {
				return wrong
			}
			var acts []delivery.Act
			if a["passphrase"] != "" {
				acts = append(acts, delivery.SetPassphrase{Name: u.Name, Passphrase: a["passphrase"]})
			}
			switch {
			case a.Is("role", role):
			case a.Is("role", off):
				acts = append(acts, delivery.SwitchUserOff{Name: u.Name})
			default:
				acts = append(acts, delivery.ChangeRole{Name: u.Name, Role: delivery.Role(a["role"])})
			}
			if len(acts) == 0 {
				return ask.Wrong{"role": errors.New("nothing is changed")}
			}
			m.act(closed, acts...)
			return nil
		},
	}
}

// switchOnForm asks for names from now on. The first coordinator is whoever
// switches it on, unless the book knows one.
func (m *Model) switchOnForm() ask.Form {
	f := ask.Form{
		Title: "Ask for name and passphrase", Button: "Switch on",
		Before: "From then on everybody signs in, the window locks when nobody uses it, and every fact carries the name. A coordinator can switch it off again.",
	}
	known := false
	for _, u := range m.access.Users {
		known = known || u.Role == delivery.AsCoordinator && !u.Off && !u.Passphrase.IsZero()
	}
	if !known {
		f.Before += " Name the first coordinator; write the passphrase down where only you find it, for nobody can read it back."
		f.Fields = append([]ask.Field{{Key: "name", Label: "First coordinator", Value: m.work.By}}, passphraseFields("Passphrase")...)
	}
	f.Submit = func(a ask.Answers, closed func(error)) ask.Wrong {
		if wrong := twice(a); wrong != nil {
			return wrong
		}
		acts := []delivery.Act{delivery.SignInOn{}}
		if !known {
			acts = []delivery.Act{delivery.AddUser{Name: a.Text("name"), Role: delivery.AsCoordinator, Passphrase: a["passphrase"]}, delivery.SignInOn{}}
		}
		m.act(func(err error) {
			closed(err)
			if err == nil {
				m.work.Leave()
			}
		}, acts...)
		return nil
	}
	return f
}

func (m *Model) switchOffForm() ask.Form {
	return ask.Form{
		Title: "Ask nobody any more", Button: "Switch off", Danger: true,
		Before: "Whoever opens the book sees and does everything, and facts carry the name of the system's user.",
		Submit: func(_ ask.Answers, closed func(error)) ask.Wrong {
			m.act(closed, delivery.SignInOff{})
			return nil
		},
	}
}

// act does acts about who works in the book, all or none, and tells the form.
func (m *Model) act(closed func(error), acts ...delivery.Act) {
	hand := m.work.Hand(inventory.Keyed)
	m.work.Run.Go("users", func(ctx context.Context) error {
		return m.work.Desk.DoAll(ctx, dated(hand, acts), nil)
	}, func(err error) {
		closed(err)
		if err != nil {
			return
		}
		m.work.Say("Who is at the desk is changed.")
		m.work.Changed()
		m.readAccess()
	})
}

func dated(hand store.Hand, acts []delivery.Act) []store.Dated {
	list := make([]store.Dated, len(acts))
	for i, act := range acts {
		list[i] = store.Dated{Hand: hand, Act: act}
	}
	return list
}

func setLockAfter(p *delivery.Programme, text string) error {
	minutes, err := amount(text, unit{"min", 1}, unit{"minutes", 1})
	if err != nil || minutes < 1 || minutes > 8*60 {
		return fmt.Errorf("“%s” is no number of minutes: write it as 10 min", strings.TrimSpace(text))
	}
	if n := int(minutes); n != p.LockMinutes() {
		p.LockAfter = n
	}
	return nil
}

func lockAfter(p delivery.Programme) string {
	return fmt.Sprintf("%d min", int(p.LockWait()/time.Minute))
}
