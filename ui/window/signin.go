package window

import (
	"context"
	"errors"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"lungwort/delivery"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
)

// arrive shows the screens, or asks first who is there.
func (p *program) arrive() {
	var access delivery.Access
	p.run.Go("access", func(ctx context.Context) (err error) {
		access, err = p.desk.Access(ctx)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			p.put(p.stuck(context.Background(), err))
		case access.On:
			p.askName(access)
		default:
			p.show()
		}
	})
}

// askName asks who is at the desk. The name of the system's user stands there
// where somebody goes by it.
func (p *program) askName(access delivery.Access) {
	name := ""
	if u, err := access.User(p.setting.By); err == nil {
		name = u.Name
	}
	p.window.SetMainMenu(p.menu())
	p.window.Canvas().SetOnTypedKey(func(*fyne.KeyEvent) {})
	p.card("Who is at the desk?", "This book asks for name and passphrase.", name, "Sign in", p.show)
}

// card asks for name and passphrase; after is done once they fit.
func (p *program) card(title, text, name, button string, after func(), more ...*widgets.Button) {
	who, words := widgets.NewText(), widgets.NewText()
	words.Password = true
	who.SetText(name)
	fields := []*widgets.Field{widgets.NewField("Name", who, ""), widgets.NewField("Passphrase", words, "")}
	form := widgets.NewForm(button, fields...)
	form.OnSubmit = func() {
		form.SetReady(false)
		p.run.Go("sign in", func(ctx context.Context) error {
			return p.desk.SignIn(ctx, who.Text, words.Text)
		}, func(err error) {
			form.SetReady(true)
			if err != nil {
				words.SetText("")
				form.SetNote(refusal.For(err), true)
				p.window.Canvas().Focus(words)
				return
			}
			p.used()
			after()
		})
	}
	parts := []fyne.CanvasObject{wrapped(text), form}
	if len(more) > 0 {
		row := container.NewHBox()
		for _, b := range more {
			row.Add(b)
		}
		parts = append(parts, row)
	}
	p.window.SetContent(centred(title, parts...))
	p.window.Canvas().Focus(who)
	if name != "" {
		p.window.Canvas().Focus(words)
	}
}

// lock covers the screens until whoever locked them is back. What was typed
// stays behind the cover, and nothing of it shows.
func (p *program) lock() {
	user, signedIn := p.desk.User()
	if !signedIn && p.frame != nil {
		p.frame.refuse(errNobodyAsked)
	}
	if !signedIn || p.locked != nil || p.frame == nil {
		return
	}
	c := p.window.Canvas()
	p.locked = &behind{content: p.window.Content(), keys: c.OnTypedKey(), focus: c.Focused()}
	for top := c.Overlays().Top(); top != nil; top = c.Overlays().Top() {
		p.locked.over = append(p.locked.over, top)
		c.Overlays().Remove(top)
	}
	c.SetOnTypedKey(func(*fyne.KeyEvent) {})
	p.card("Locked", user.Name+" is at the desk. What was being typed is kept.", user.Name, "Unlock", p.unlock,
		widgets.NewButton("Somebody else", p.signOut))
}

// behind is what lies behind the cover of a locked window.
type behind struct {
	content fyne.CanvasObject
	over    []fyne.CanvasObject // the topmost first
	keys    func(*fyne.KeyEvent)
	focus   fyne.Focusable
}

// unlock shows the screens again, as they were; to somebody else their own.
func (p *program) unlock() {
	left := p.locked
	p.locked = nil
	if user, _ := p.desk.User(); user.Name != p.frame.work.By {
		p.show()
		return
	}
	p.window.SetContent(left.content)
	c := p.window.Canvas()
	for i := len(left.over) - 1; i >= 0; i-- {
		c.Overlays().Add(left.over[i])
	}
	c.SetOnTypedKey(left.keys)
	if left.focus != nil {
		c.Focus(left.focus)
	}
	p.frame.Reread()
}

// signOut leaves the desk to somebody else, who is shown nothing of what was
// open.
func (p *program) signOut() {
	if p.past != nil {
		left := p.past
		p.past, p.frame = nil, left.present
		p.failed = errors.Join(p.failed, left.book.Close(), os.RemoveAll(left.dir))
	}
	p.locked, p.frame = nil, nil
	p.desk.SignOut()
	p.arrive()
}

// leaveDesk leaves the desk to somebody else, where names are asked for.
func (p *program) leaveDesk() {
	if _, signedIn := p.desk.User(); signedIn {
		p.signOut()
		return
	}
	p.frame.refuse(errNobodyAsked)
}

var errNobodyAsked = refusal.New(refusal.Unready, "This book asks nobody for name and passphrase.", "Settings, Who is at the desk, says how that is switched on.")

// askPassphrase lets whoever is at the desk change the passphrase.
func (p *program) askPassphrase() {
	user, signedIn := p.desk.User()
	if !signedIn {
		p.frame.refuse(errNobodyAsked)
		return
	}
	asker.Show(p.window, ask.Form{
		Title: "Passphrase of " + user.Name, Button: "Change it",
		Fields: []ask.Field{
			{Key: "now", Label: "As it is now", Kind: ask.Secret},
			{Key: "new", Label: "New", Kind: ask.Secret, Hint: "four or five words that do not belong together"},
			{Key: "again", Label: "New, once more", Kind: ask.Secret},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			if a["new"] != a["again"] {
				return ask.Wrong{"again": errors.New("the two are not the same")}
			}
			p.changePassphrase(user, a["now"], a["new"], closed)
			return nil
		},
	}, p.now().Location())
}

func (p *program) changePassphrase(user delivery.User, now, to string, closed func(error)) {
	hand := p.frame.work.Hand("keyed")
	p.run.Go("passphrase", func(ctx context.Context) error {
		if err := p.desk.SignIn(ctx, user.Name, now); err != nil {
			return err
		}
		_, err := p.desk.Do(ctx, hand, delivery.SetPassphrase{Name: user.Name, Passphrase: to})
		return err
	}, func(err error) {
		closed(err)
		if err == nil {
			p.frame.say("Your passphrase is changed.")
		}
	})
}
