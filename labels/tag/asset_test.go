package tag

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Both forms of both keys lead back to the tag, for the programme whose prefix
// they carry and for no other. 952 is the prefix GS1 keeps for examples.
func TestOurNumbersAsGS1Keys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		own := Mint(rapid.Uint32().Draw(t, "number"))
		company := rapid.StringMatching(`952[0-9]{1,9}`).Draw(t, "company")
		for ai, value := range map[string]string{"8003": own.Returnable(company), "8004": own.Individual(company)} {
			for _, form := range []string{AsElements, AsLink} {
				r, err := Read(Carried(form, ai, value))
				require.NoError(t, err)
				got, ok := r.Ours(company)
				assert.True(t, ok && got == own, "%s", r.Raw)
				_, theirs := r.Ours("4006381")
				assert.False(t, theirs, "another company's number is not ours")
				_, none := r.Ours("")
				assert.False(t, none, "without a prefix nothing is")
			}
		}
	})
	// Type 952123400001, check digit by the rule of GS1: 1 × (9+2+2+4+0+0) and
	// 3 × (5+1+3+0+0+1) make 47, and 3 fill up to 50.
	assert.Equal(t, "(8003)09521234000013LW00417Y", Carried(AsElements, "8003", Mint(417).Returnable("9521234")))
	assert.Equal(t, "HTTPS://ID.GS1.ORG/8004/9521234LW00417Y", Carried(AsLink, "8004", Mint(417).Individual("9521234")))
	for _, prefix := range []string{"", "952", "9521234567890", "95212a"} {
		assert.Error(t, CheckCompany(prefix), prefix)
	}
}

// through types a text on a keyboard that the desktop takes for another one.
func through(l layout, text string) string {
	return strings.Map(func(r rune) rune {
		for out, meant := range l.back {
			if meant == r {
				return out
			}
		}
		return r
	}, text)
}

func TestScansThroughAnotherKeyboard(t *testing.T) {
	paper, err := PaperCode(PaperRun, "r00017")
	require.NoError(t, err)
	for _, c := range []struct {
		layout layout
		meant  string
		kind   Kind
	}{
		{french, Mint(417).Payload(), OurTag},
		{french, Mint(99_999).Printed(), OurTag},
		{french, "01095212345432131726123110LOT42", GS1},
		{french, "https://id.gs1.org/01/09521234543213/21/A7", Link},
		{french, paper, Paper},
		{german, "https://id.gs1.org/01/09521234543213/21/XY7", Link},
		{german, paper, Paper},
	} {
		straight, err := Read(c.meant)
		require.NoError(t, err, c.meant)
		garbled := through(c.layout, c.meant)
		r, err := Read(garbled)
		require.NoError(t, err, "%s as %s", c.meant, garbled)
		assert.Equal(t, c.kind, r.Kind, garbled)
		assert.Equal(t, straight.fieldsOnly(), r.fieldsOnly(), garbled)
	}
	r, err := Read(through(french, "CN00417"))
	require.NoError(t, err)
	assert.Equal(t, "CN00417", r.Serial)
	assert.Contains(t, r.Ask, "French keyboard", "a bare serial proves nothing: it is asked about")
	r, err = Read(through(german, "E-20117"))
	require.NoError(t, err)
	assert.Equal(t, "E-20117", r.Serial)
	assert.Contains(t, r.Ask, "German keyboard")

	r, err = Read("LW-00417-Z") // Y and Z change places
	require.Error(t, err)
	assert.Equal(t, Mint(417), r.Likely[0])
}

// What people type is never taken for a garbled scan.
func TestNamesAreNotUngarbled(t *testing.T) {
	for _, text := range []string{"Hélène (mère)", "D'Arcy-Müller", "Straße 5", "O'Neil", "éàè", "rue d'à côté", "E-20117", "Weiß", "--- /"} {
		meant, name := ungarbled(text)
		if text == "éàè" {
			assert.Equal(t, "French", name)
			continue
		}
		assert.Empty(t, name, "%s became %s", text, meant)
	}
}
