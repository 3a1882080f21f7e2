package window

import (
	"context"
	"os/user"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
)

// askServer asks where the book lies that several desks share, and opens it.
func (p *program) askServer(ctx context.Context) {
	asker.Show(p.window, p.serverForm(ctx), p.now().Location())
}

func (p *program) serverForm(ctx context.Context) ask.Form {
	name := ""
	if u, err := user.Current(); err == nil {
		name = u.Username
	}
	return ask.Form{
		Title: "A book on a server", Button: "Open it",
		Before: "Several desks work in one book on a PostgreSQL server. The server's keeper tells the names; the password is asked for at each start and kept nowhere.",
		Fields: []ask.Field{
			{Key: "server", Label: "Server", Hint: "its name; several, with a comma, where one stands in for the other"},
			{Key: "database", Label: "Database", Value: "lungwort"},
			{Key: "user", Label: "Your name there", Value: name},
			{Key: "password", Label: "Password", Kind: ask.Secret},
			{Key: "authority", Label: "Its authority", Hint: "file with the certificate of whoever vouches for it; empty: one this machine trusts"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			if a.Text("server") == "" {
				return ask.Wrong{"server": refusal.New(refusal.Invalid, "Whose server?", "")}
			}
			address := book.Address(a.Text("server"), a.Text("database"), a.Text("user"), a.Text("authority"))
			p.tryServer(ctx, address, a["password"], func(err error) {
				if err == nil {
					err = book.Remember(address)
				}
				closed(err)
			})
			return nil
		},
	}
}

// askPassword asks for the password of the book the window was started on.
func (p *program) askPassword(ctx context.Context) {
	asker.Show(p.window, p.passwordForm(ctx), p.now().Location())
}

func (p *program) passwordForm(ctx context.Context) ask.Form {
	return ask.Form{
		Title: "Password for " + book.Named(p.path), Button: "Open it",
		Fields: []ask.Field{{Key: "password", Label: "Password", Kind: ask.Secret}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			p.tryServer(ctx, p.path, a["password"], closed)
			return nil
		},
	}
}

// tryServer opens the book at an address off the window's goroutine. An empty
// database is a server's book too: the start screen offers to fill it.
func (p *program) tryServer(ctx context.Context, address, password string, closed func(error)) {
	full := book.WithPassword(address, password)
	p.run.Go("book", func(asking context.Context) error {
		b, err := book.OpenReadOnly(asking, full, p.options())
		if err != nil {
			return err
		}
		return b.Close()
	}, func(err error) {
		switch refusal.KindOf(err) {
		case refusal.NotFound, refusal.Unready:
			err = nil // the next screen says what to do
		}
		closed(err)
		if err == nil {
			p.path = full
			p.begin(ctx)
		}
	})
}

// backToOwn opens the book of this machine again.
func (p *program) backToOwn(ctx context.Context) {
	own, err := book.Forget()
	if err != nil {
		p.put(p.stuck(ctx, err))
		return
	}
	p.path = own
	p.begin(ctx)
}
