package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// TestMaybeOne: our own rule; common practice, no source.
func TestMaybeOne(t *testing.T) {
	okoro := delivery.Person{ID: "p1", Family: "Okoro", Given: "Thabo", Born: "1941-05-17", Record: "0051990", Phones: []delivery.Phone{{Number: "555-0177"}}}
	for name, c := range map[string]struct {
		other delivery.Person
		why   string
	}{
		"dropped zeros":       {delivery.Person{Family: "Okor", Record: "51990"}, "same record number"},
		"initial, birth date": {delivery.Person{Family: "OKORO", Given: "T.", Born: "1941-05-17", Record: "77"}, "same name and birth date"},
		"phone":               {delivery.Person{Family: "okoro", Given: "Thabo", Phones: []delivery.Phone{{Number: "555 0177"}}}, "same name and phone"},
		"name alone":          {delivery.Person{Family: "Okoro", Given: "Thabo"}, ""},
		"another birth date":  {delivery.Person{Family: "Okoro", Given: "Thabo", Born: "1970-05-17", Phones: okoro.Phones}, ""},
		"wife in one house":   {delivery.Person{Family: "Okoro", Given: "Ada", Phones: okoro.Phones}, ""},
		"erased":              {delivery.Person{Family: "Okoro", Record: "51990", Erased: true}, ""},
		"no names at all":     {delivery.Person{Phones: okoro.Phones}, ""},
	} {
		c.other.ID = "p2"
		for _, pair := range [][2]delivery.Person{{okoro, c.other}, {c.other, okoro}} {
			why, may := delivery.MaybeOne(pair[0], pair[1])
			assert.Equal(t, c.why, why, name)
			assert.Equal(t, c.why != "", may, name)
		}
	}
	_, may := delivery.MaybeOne(okoro, okoro)
	assert.False(t, may, "nobody is their own twin")
}

func TestTwinsOfAsksAboutEachPairOnce(t *testing.T) {
	persons := []delivery.Person{
		{ID: "p1", Family: "Rao", Given: "Ira", Record: "12"}, {ID: "p2", Family: "Rao", Given: "Ira", Record: "0012"},
		{ID: "p3", Family: "Quist", Record: "12"}, {ID: "p4", Family: "Quist"},
	}
	var pairs [][2]inventory.PersonID
	for pair := range delivery.TwinsOf(persons) {
		pairs = append(pairs, [2]inventory.PersonID{pair[0].ID, pair[1].ID})
	}
	assert.Equal(t, [][2]inventory.PersonID{{"p1", "p2"}, {"p1", "p3"}, {"p2", "p3"}}, pairs)
}
