package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/passphrase"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// access returns who may work in the book. While nobody is asked for a name it
// says no more than that.
func access(tx *book.Tx, words inventory.Vocabulary) (delivery.Access, error) {
	switches, err := items.Facts(tx, words, items.About{Says: new(delivery.SignInSet).Says()})
	if err != nil {
		return delivery.Access{}, err
	}
	a := delivery.FoldAccess(switches)
	if !a.On {
		return a, nil
	}
	users, err := items.Facts(tx, words, items.About{Says: new(delivery.DeskUser).Says()})
	return delivery.FoldAccess(append(switches, users...)), err
}

// everyUser returns who may work in the book, with all that is told of each.
func everyUser(tx *book.Tx, words inventory.Vocabulary) (delivery.Access, error) {
	var facts []inventory.Fact
	for _, s := range []inventory.Statement{new(delivery.SignInSet), new(delivery.DeskUser), new(delivery.PassphraseSet), new(delivery.SignInFailed)} {
		some, err := items.Facts(tx, words, items.About{Says: s.Says()})
		if err != nil {
			return delivery.Access{}, err
		}
		facts = append(facts, some...)
	}
	return delivery.FoldAccess(facts), nil
}

// Access returns who may work in the book. Failed sign-ins are the
// coordinator's to see.
func (d *Desk) Access(ctx context.Context) (a delivery.Access, err error) {
	err = d.book.Read(ctx, func(tx *book.Tx) error {
		a, err = everyUser(tx, d.words)
		return err
	})
	if me, ok := d.User(); a.On && (!ok || me.Role != delivery.AsCoordinator) {
		for i := range a.Users {
			a.Users[i].Failed = nil
		}
		a.Strangers = nil
	}
	return a, err
}

func (v *view) Access() (delivery.Access, error) { return everyUser(v.tx, v.words) }

// User returns who is signed in at the desk, as the book last told, and
// whether somebody is.
func (d *Desk) User() (delivery.User, bool) {
	if u := d.signedIn.Load(); u != nil {
		return *u, true
	}
	return delivery.User{}, false
}

// SignOut leaves the desk to the next.
func (d *Desk) SignOut() { d.signedIn.Store(nil) }

// errUnfit is the same whether the name or the passphrase is wrong.
var errUnfit = refusal.New(refusal.Locked, "Name and passphrase don't fit.", "Try again; a coordinator can set a new passphrase.")

// SignIn brings somebody to the desk by name and passphrase. A try is counted
// before it is judged, so that many at once are none the faster; after some
// that failed the next has to wait, and waits longer each time.
func (d *Desk) SignIn(ctx context.Context, name, text string) error {
	write := d.book.Write
	if d.book.ReadOnly() { // who may read the file needs no guessing: nothing is counted
		write = func(context.Context, func(*book.Tx) error) error { return nil }
	}
	user, hash, err := d.tryUser(ctx, name)
	if err != nil {
		return err
	}
	if !passphrase.Fits(text, hash) {
		if err := write(ctx, func(tx *book.Tx) error { return d.failed(tx, user.Name) }); err != nil {
			return err
		}
		return errUnfit
	}
	if user.Off {
		return errOff(user)
	}
	err = write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`UPDATE desk_user SET failed = 0 WHERE name = $1`, delivery.UserKey(user.Name))
		return err
	})
	if err == nil {
		d.signedIn.Store(&user)
	}
	return err
}

func errOff(u delivery.User) error {
	return refusal.New(refusal.Forbidden, u.Name+" was switched off in this book.", "Ask a coordinator.")
}

// tryUser counts a try under a name and returns the hash to hold it against.
func (d *Desk) tryUser(ctx context.Context, name string) (user delivery.User, hash string, err error) {
	within := d.book.Write
	if d.book.ReadOnly() {
		within = d.book.Read
	}
	err = within(ctx, func(tx *book.Tx) error {
		everybody, err := everyUser(tx, d.words)
		if err != nil {
			return err
		}
		hash = passphrase.Nobody
		if user, err = everybody.User(name); err != nil {
			user, err = delivery.User{}, nil
			return err
		}
		var failed int
		var last int64
		err = tx.QueryRow(`SELECT hash, failed, failed_at FROM desk_user WHERE name = $1`, delivery.UserKey(user.Name)).Scan(&hash, &failed, &last)
		if errors.Is(err, sql.ErrNoRows) {
			return nil // no passphrase was ever set
		}
		if err != nil {
			return err
		}
		if err := mustWait(user.Name, failed, book.FromInstant(last), tx.Now); err != nil || d.book.ReadOnly() {
			return err
		}
		_, err = tx.Exec(`UPDATE desk_user SET failed = failed + 1, failed_at = $2 WHERE name = $1`, delivery.UserKey(user.Name), book.Instant(tx.Now))
		return err
	})
	return user, hash, err
}

// mustWait refuses a try too soon after those that failed. A clock that was set
// back tells nothing.
func mustWait(name string, failed int, last, now time.Time) error {
	until := last.Add(delivery.SignInWait(failed))
	if now.Before(last) || !now.Before(until) {
		return nil
	}
	left := until.Sub(now).Round(time.Second)
	return refusal.New(refusal.Locked, fmt.Sprintf("%d sign-ins as %s failed.", failed, name), fmt.Sprintf("The next is taken in %s.", left))
}

// failed records a failed sign-in.
func (d *Desk) failed(tx *book.Tx, name string) error {
	v := newView(tx, d, tx.Now)
	_, err := d.write(v, Hand{By: name, Source: inventory.Program, At: tx.Now}, []inventory.Fact{{Statement: &delivery.SignInFailed{User: name}}})
	return err
}

// keepSecrets keeps new passphrases as hashes.
func keepSecrets(tx *book.Tx, secrets []delivery.Secret) error {
	for _, s := range secrets {
		_, err := tx.Exec(`
			INSERT INTO desk_user (name, hash, failed, failed_at) VALUES ($1, $2, 0, 0)
			ON CONFLICT (name) DO UPDATE SET hash = excluded.hash, failed = 0, failed_at = 0`,
			delivery.UserKey(s.User), passphrase.Hash(s.Passphrase))
		if err != nil {
			return err
		}
	}
	return nil
}

// present returns who is at the desk as the book stands: nobody where no name
// is asked for, and a refusal where one is and nobody, or nobody any more, is
// signed in.
func (d *Desk) present(tx *book.Tx) (user delivery.User, asked bool, err error) {
	if d.instead != nil {
		return *d.instead, true, nil
	}
	a, err := access(tx, d.words)
	if err != nil || !a.On {
		return user, false, err
	}
	me, ok := d.User()
	if !ok {
		return user, true, refusal.New(refusal.Locked, "Nobody is signed in to this book.", "Sign in; a command takes --user NAME.")
	}
	user, err = a.User(me.Name)
	if err == nil && user.Off {
		err = errOff(user)
	}
	return user, true, err
}

// admitted refuses an act that is not the work of whoever is at the desk; what
// is written then carries their name.
func (d *Desk) admitted(v *view, hand Hand, act delivery.Act) (Hand, error) {
	user, asked, err := d.present(v.tx)
	if err != nil || !asked {
		return hand, err
	}
	if err := user.May(act, v); err != nil {
		return hand, err
	}
	v.silent.hidden = !user.Role.Sees().Persons
	hand.By = user.Name
	return hand, nil
}
