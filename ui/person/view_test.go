package person_test

import (
	"testing"

	"lungwort/ui/person"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func TestLook(t *testing.T) {
	d := uitest.New(t)
	for _, given := range []string{"Anwen", "Ines", "Odd", "Mira", "Jory"} {
		v := person.New(d.Work)
		win := uitest.Show(t, v)
		v.Open(work.Target{Room: work.Person, Person: d.Persons[given]})
		uitest.Shoot(t, win, "person-"+given)
	}
	d.Clean()
}
