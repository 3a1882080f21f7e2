package delivery

import (
	"fmt"

	"lungwort/inventory"
)

// accessSentence says what a fact states about who works in the book.
func accessSentence(s inventory.Statement) string {
	switch s := s.(type) {
	case *DeskUser:
		if s.Off {
			return s.Name + " works in the book no more"
		}
		return fmt.Sprintf("%s works in the book as %s", s.Name, s.Role)
	case *PassphraseSet:
		return "passphrase of " + s.User + " set"
	case *SignInSet:
		if s.On {
			return "name and passphrase asked for from now on"
		}
		return "name and passphrase asked for no more"
	case *SignInFailed:
		if s.User == "" {
			return "sign-in failed under a name nobody goes by"
		}
		return "sign-in as " + s.User + " failed"
	}
	return ""
}
