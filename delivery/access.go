package delivery

import (
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Role is what somebody works at the desk as.
type Role string

// The roles. What each sees and does stands in remit.go.
const (
	AsCoordinator Role = "coordinator"
	AsDriverDesk  Role = "driver desk"
	AsWarehouse   Role = "warehouse"
	AsOnCall      Role = "on call"
	AsReader      Role = "read-only"
)

// Roles are all roles, in the order of the settings screen.
func Roles() []Role { return []Role{AsCoordinator, AsDriverDesk, AsWarehouse, AsOnCall, AsReader} }

// The statements about who works in the book. Names are those of people at
// the desk; passphrases stand in no fact.
type (
	// DeskUser says as what somebody works in the book from now on.
	DeskUser struct {
		Name string `json:"name"`
		Role Role   `json:"role"`
		Off  bool   `json:"off,omitempty"` // does not work in it any more
	}
	// PassphraseSet says that somebody's passphrase was set or changed.
	PassphraseSet struct {
		User string `json:"user"`
	}
	// SignInSet says that from now on names and passphrases are asked for, or
	// not any more.
	SignInSet struct {
		On bool `json:"on"`
	}
	// SignInFailed says that a name and a passphrase did not fit. The name is
	// kept only where somebody goes by it: others may be a passphrase typed into
	// the wrong field.
	SignInFailed struct {
		User string `json:"user,omitempty"`
	}
)

// Says implements inventory.Statement.
func (*DeskUser) Says() string      { return "desk user" }
func (*PassphraseSet) Says() string { return "passphrase set" }
func (*SignInSet) Says() string     { return "sign-in set" }
func (*SignInFailed) Says() string  { return "sign-in failed" }

// isAccess reports whether a statement is one of them.
func isAccess(s inventory.Statement) bool {
	switch s.(type) {
	case *DeskUser, *PassphraseSet, *SignInSet, *SignInFailed:
		return true
	}
	return false
}

// User is somebody who works in the book.
type User struct {
	Name       string
	Role       Role
	Off        bool      // works in it no more
	Passphrase time.Time // when it was last set; zero: never
	Failed     []time.Time
}

// Access is who may work in the book, and whether that is asked.
type Access struct {
	On    bool
	Users []User // in the order they were added
	// Strangers is when a sign-in failed under a name nobody goes by.
	Strangers []time.Time
}

// FoldAccess returns what facts say of who may work in the book.
func FoldAccess(facts []inventory.Fact) Access {
	var a Access
	for _, f := range facts { // in the order of recording: access is a matter of now
		switch s := f.Statement.(type) {
		case *SignInSet:
			a.On = s.On
		case *DeskUser:
			if u := a.user(s.Name); u != nil {
				u.Role, u.Off = s.Role, s.Off
			} else {
				a.Users = append(a.Users, User{Name: s.Name, Role: s.Role, Off: s.Off})
			}
		case *PassphraseSet:
			if u := a.user(s.User); u != nil {
				u.Passphrase = f.Recorded
			}
		case *SignInFailed:
			if u := a.user(s.User); u != nil {
				u.Failed = append(u.Failed, f.Recorded)
			} else {
				a.Strangers = append(a.Strangers, f.Recorded)
			}
		}
	}
	return a
}

// UserKey is what tells one user's name from another's: neither case nor blanks.
func UserKey(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

func (a Access) user(name string) *User {
	i := slices.IndexFunc(a.Users, func(u User) bool { return UserKey(u.Name) == UserKey(name) })
	if i < 0 {
		return nil
	}
	return &a.Users[i]
}

// User returns the user of a name; a refusal when nobody goes by it.
func (a Access) User(name string) (User, error) {
	u := a.user(name)
	if u == nil {
		return User{}, refusal.New(refusal.NotFound, "Nobody works in the book as “"+strings.TrimSpace(name)+"”.", "Settings, Who is at the desk, names who does.")
	}
	return *u, nil
}

// coordinators counts those who can sign in as coordinators, but for one.
func (a Access) coordinators(but string) (n int) {
	for _, u := range a.Users {
		if u.Role == AsCoordinator && !u.Off && !u.Passphrase.IsZero() && UserKey(u.Name) != UserKey(but) {
			n++
		}
	}
	return n
}

// The waits between failed sign-ins. The first tries are free, then the wait
// doubles up to an hour: NIST SP 800-63B, 5.2.2 names 30 seconds up to an hour
// as an example.
const (
	freeTries = 3
	firstWait = 30 * time.Second
	lastWait  = time.Hour
)

// SignInWait returns how long after so many failed sign-ins in a row the next
// one is taken.
func SignInWait(failed int) time.Duration {
	if failed < freeTries {
		return 0
	}
	wait := firstWait
	for range failed - freeTries {
		if wait *= 2; wait >= lastWait {
			return lastWait
		}
	}
	return wait
}
