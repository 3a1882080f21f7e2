package store

import (
	"errors"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory/refusal"
)

// silent keeps names, streets and phones out of what is told of an act, where
// whoever did it is not shown them or somebody may look over the shoulder. The
// act itself is decided on everything.
type silent struct {
	veiled, hidden bool
	words          []string // in turn what is not told and what is told instead
}

// met notes a person the act looked at.
func (s *silent) met(p delivery.Person) {
	if !s.veiled && !s.hidden || p.ID == "" || p.Erased {
		return
	}
	as := p.Veil().Name()
	if s.hidden {
		as = p.Hidden().Name()
	}
	for _, name := range []string{p.Name(), strings.TrimSpace(p.Given + " " + p.Family), p.Short(), p.Family, p.Given} {
		s.instead(name, as)
	}
	for _, ph := range p.Phones {
		s.instead(ph.Number, "a number")
	}
}

// seen notes a home the act looked at.
func (s *silent) seen(a delivery.Address) {
	if s.veiled || s.hidden {
		s.instead(a.Where(), a.Veil().Where())
		s.instead(a.Street, a.Veil().Where())
	}
}

func (s *silent) instead(word, told string) {
	if word != "" {
		s.words = append(s.words, word, told)
	}
}

// tell says a text without them.
func (s *silent) tell(text string) string {
	if len(s.words) == 0 {
		return text
	}
	return strings.NewReplacer(s.words...).Replace(text)
}

// told is tell for a refusal.
func (s *silent) told(err error) error {
	var no *refusal.Error
	if len(s.words) == 0 || !errors.As(err, &no) {
		return err
	}
	kept := *no
	kept.Says, kept.Next = s.tell(no.Says), s.tell(no.Next)
	return &kept
}
