package delivery

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts about who works in the book.
type (
	// AddUser lets somebody work in the book.
	AddUser struct {
		Name       string `act:"name" help:"by which they sign in"`
		Role       Role   `act:"role" help:"coordinator, driver desk, warehouse, on call or read-only"`
		Passphrase string
	}
	// SetPassphrase changes a passphrase: one's own, or, by a coordinator,
	// anybody's.
	SetPassphrase struct {
		Name       string `act:"name" help:"whose"`
		Passphrase string
	}
	// ChangeRole says as what somebody works from now on; who was switched off
	// works again.
	ChangeRole struct {
		Name string `act:"name" help:"whose"`
		Role Role   `act:"role" help:"coordinator, driver desk, warehouse, on call or read-only"`
	}
	// SwitchUserOff lets somebody work in the book no more. What they recorded
	// stays theirs.
	SwitchUserOff struct {
		Name string `act:"name" help:"whose"`
	}
	// SignInOn asks everybody for name and passphrase from now on.
	SignInOn struct{}
	// SignInOff asks nobody any more.
	SignInOff struct{}
)

// Secret is a passphrase to be kept for somebody, as a hash alone.
type Secret struct{ User, Passphrase string }

// The lengths of a passphrase, in characters. NIST SP 800-63B-4, 3.1.1.2 asks
// for 15 where nothing else is asked, and for room for at least 64.
const (
	shortestPassphrase = 15
	longestPassphrase  = 200
)

func goodPassphrase(text, name string) error {
	switch n := utf8.RuneCountInString(text); {
	case n < shortestPassphrase:
		return refusal.New(refusal.Invalid, fmt.Sprintf("A passphrase has at least %d characters.", shortestPassphrase), "Take four or five words that do not belong together.")
	case n > longestPassphrase:
		return refusal.New(refusal.Invalid, fmt.Sprintf("A passphrase has at most %d characters.", longestPassphrase), "Take a few words less.")
	case strings.Contains(UserKey(text), UserKey(name)):
		return refusal.New(refusal.Invalid, "The passphrase holds the name it goes with.", "Leave the name out of it.")
	}
	return nil
}

// Decide adds the user with a first passphrase.
func (a AddUser) Decide(v View) (Change, error) {
	name := strings.Join(strings.Fields(a.Name), " ")
	access, err := v.Access()
	if err != nil {
		return Change{}, err
	}
	if name == "" {
		return Change{}, refusal.New(refusal.Invalid, "Somebody needs a name to sign in by.", "Write the name.")
	}
	if _, err := access.User(name); err == nil {
		return Change{}, refusal.New(refusal.Conflict, name+" works in the book already.", "Change the role, or choose a name that tells them apart.")
	}
	if err := knownRole(a.Role); err != nil {
		return Change{}, err
	}
	if err := goodPassphrase(a.Passphrase, name); err != nil {
		return Change{}, err
	}
	return Change{
		Facts:   []inventory.Fact{{Statement: &DeskUser{Name: name, Role: a.Role}}, {Statement: &PassphraseSet{User: name}}},
		Secrets: []Secret{{name, a.Passphrase}},
		Says:    fmt.Sprintf("%s works in the book as %s.", name, a.Role),
	}, nil
}

func knownRole(role Role) error {
	for _, r := range Roles() {
		if r == role {
			return nil
		}
	}
	return refusal.New(refusal.Invalid, fmt.Sprintf("“%s” is not a role.", role), "Choose coordinator, driver desk, warehouse, on call or read-only.")
}

// Decide keeps the new passphrase.
func (a SetPassphrase) Decide(v View) (Change, error) {
	u, _, err := userNamed(v, a.Name)
	if err != nil {
		return Change{}, err
	}
	if err := goodPassphrase(a.Passphrase, u.Name); err != nil {
		return Change{}, err
	}
	return Change{
		Facts:   []inventory.Fact{{Statement: &PassphraseSet{User: u.Name}}},
		Secrets: []Secret{{u.Name, a.Passphrase}},
		Says:    "The passphrase of " + u.Name + " is changed.",
	}, nil
}

// Decide changes the role.
func (a ChangeRole) Decide(v View) (Change, error) {
	u, access, err := userNamed(v, a.Name)
	if err != nil {
		return Change{}, err
	}
	if err := knownRole(a.Role); err != nil {
		return Change{}, err
	}
	if !u.Off && u.Role == a.Role {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s already.", u.Name, a.Role), "Choose another role.")
	}
	if a.Role != AsCoordinator {
		if err := access.keepsCoordinator(u.Name); err != nil {
			return Change{}, err
		}
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &DeskUser{Name: u.Name, Role: a.Role}}},
		Says:  fmt.Sprintf("%s works in the book as %s.", u.Name, a.Role),
	}, nil
}

// Decide switches the user off.
func (a SwitchUserOff) Decide(v View) (Change, error) {
	u, access, err := userNamed(v, a.Name)
	if err != nil {
		return Change{}, err
	}
	if u.Off {
		return Change{}, refusal.New(refusal.Conflict, u.Name+" is switched off already.", "Nothing is to be done.")
	}
	if err := access.keepsCoordinator(u.Name); err != nil {
		return Change{}, err
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &DeskUser{Name: u.Name, Role: u.Role, Off: true}}},
		Says:  u.Name + " can't sign in any more.",
	}, nil
}

// Decide asks for names from now on, when there is a coordinator to come in.
func (a SignInOn) Decide(v View) (Change, error) {
	access, err := v.Access()
	if err != nil {
		return Change{}, err
	}
	if access.On {
		return Change{}, refusal.New(refusal.Conflict, "Name and passphrase are asked for already.", "Nothing is to be done.")
	}
	if access.coordinators("") == 0 {
		return Change{}, refusal.New(refusal.Unready, "Nobody could sign in as coordinator.", "Add a coordinator first: act add-user, or Settings, Who is at the desk.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &SignInSet{On: true}}},
		Says:  "Name and passphrase are asked for from now on.",
	}, nil
}

// Decide asks nobody any more.
func (a SignInOff) Decide(v View) (Change, error) {
	access, err := v.Access()
	if err != nil {
		return Change{}, err
	}
	if !access.On {
		return Change{}, refusal.New(refusal.Conflict, "Nobody is asked for name and passphrase.", "Nothing is to be done.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &SignInSet{}}},
		Says:  "Nobody is asked for name and passphrase any more; facts carry the name of the system's user.",
	}, nil
}

func userNamed(v View, name string) (User, Access, error) {
	access, err := v.Access()
	if err != nil {
		return User{}, access, err
	}
	u, err := access.User(name)
	return u, access, err
}

// keepsCoordinator refuses to leave a book with sign-in to nobody.
func (a Access) keepsCoordinator(but string) error {
	if a.On && a.coordinators(but) == 0 {
		return refusal.New(refusal.Conflict, but+" is the only coordinator.", "Make somebody else coordinator first, or switch sign-in off.")
	}
	return nil
}
