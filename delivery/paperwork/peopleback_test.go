package paperwork_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/paperwork"
)

func TestOnlyTheEditsOfAPeopleSheetArrive(t *testing.T) {
	o := newOffice(t)
	path := o.given("people.xlsx", paperwork.Clerk.People)
	edit(t, path, [][3]string{
		{"Abara", "Phone", "555-0199, 555-0177 (son Ben)"}, {"Abara", "Street", "Tern Lane 9"}, {"Okoro", "Floors", "3"}, {"Okoro", "Street", "Mole Row 4"},
	})
	r := o.back(nil, path)
	require.Len(t, r.Questions, 1, "moved, or written wrong: one answer for all streets")
	assert.Equal(t, []int{4, 5}, r.Questions[0].Rows)
	home := o.home("0048213").Address.ID
	r = o.back(intake.Answers{"street:people.xlsx, People": "moved"}, path)
	require.Empty(t, r.Questions)
	assert.Equal(t, 2, r.Changed)
	o.write(r)
	ines, tunde := o.home("0048213"), o.home("0051990")
	assert.Equal(t, "555-0199", ines.Person.Phones[0].Number)
	assert.Equal(t, "son Ben", ines.Person.Phones[1].Whose)
	assert.Equal(t, "Tern Lane 9, Great Quillet", ines.Address.Where())
	assert.NotEqual(t, home, ines.Address.ID, "another home")
	assert.Equal(t, 3, tunde.Address.Stairs)
	assert.Equal(t, "0051990", tunde.Person.Record)
}

// TestAPeopleSheetIsTakenBack: what its edits changed of phones, names and homes
// is as before; what another hand changed since stays.
func TestAPeopleSheetIsTakenBack(t *testing.T) {
	for _, street := range []string{"written wrong", "moved"} {
		o := newOffice(t)
		before := o.home("0048213")
		path := o.given("people.xlsx", paperwork.Clerk.People)
		edit(t, path, [][3]string{{"0048213", "Phone", "555-0101"}, {"0048213", "Given name", "Inés"}, {"0048213", "Street", "Kelp Street 24"}})
		answers := intake.Answers{}
		r := o.back(answers, path)
		for _, q := range r.Questions {
			answers[q.Key] = q.Choices[0].Value
			for _, c := range q.Choices {
				if c.Value == street {
					answers[q.Key] = street
				}
			}
		}
		o.write(o.back(answers, path))
		changed := o.home("0048213")
		require.Equal(t, "Inés", changed.Person.Given)
		require.Equal(t, []delivery.Phone{{Number: "555-0101"}}, changed.Person.Phones)
		require.Equal(t, "Kelp Street 24", changed.Address.Street)

		lists, err := o.Lists(t.Context())
		require.NoError(t, err)
		o.do(delivery.TakeBack{TookIn: lists[0].Fact, Why: "the wrong sheet"})
		after := o.home("0048213")
		assert.Equal(t, before.Person, after.Person)
		assert.Equal(t, before.Address, after.Address)
		audit, err := o.Audit(t.Context())
		require.NoError(t, err)
		assert.Empty(t, audit.Mismatches)
	}
}
