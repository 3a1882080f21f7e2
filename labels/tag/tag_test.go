package tag

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestMintReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Uint32().Draw(t, "number")
		minted := Mint(number)
		for _, typed := range []string{minted.Payload(), minted.Printed(), " " + minted.Printed() + "\r\n", "]Q1" + minted.Payload() + "\t"} {
			r, err := Read(typed)
			require.NoError(t, err, "Read(%q)", typed)
			assert.Equal(t, OurTag, r.Kind, "Read(%q)", typed)
			got, ok := r.Tag.Number()
			assert.True(t, ok && got == number, "Read(%q) gives %d, want %d", typed, got, number)
		}
	})
}

// The check characters were computed a second time from the congruence that
// defines them, outside this program.
func TestTagsAsPrinted(t *testing.T) {
	for _, c := range []struct {
		number uint32
		want   string
	}{
		{0, "LW-00000-A"},
		{417, "LW-00417-Y"},
		{99_999, "LW-99999-3"},
		{100_000, "LW-100000-U"},
		{math.MaxUint32, "LW-4294967295-R"},
	} {
		assert.Equal(t, c.want, Mint(c.number).Printed(), "Mint(%d)", c.number)
	}
}

func TestNumberTakesOnlyWhatMintWrites(t *testing.T) {
	for _, s := range []string{"", "LW", "LW00417", "lw00417Y", "LW-00417-Y", "LW000417Y", "LW+0417Y", "XX00417Y", "LW00417Ж"} {
		_, ok := Tag(s).Number()
		assert.False(t, ok, "%q", s)
	}
}

// A slip at the keyboard is refused, and what was meant is among the tags to
// ask about; after a look-alike it stands first.
func TestSlipsAreRefusedAndAskedAbout(t *testing.T) {
	meant := Mint(417) // LW-00417-Y
	for _, c := range []struct {
		name, typed string
		first       bool
	}{
		{"letter O for zero", "LW-OO417-Y", true},
		{"look-alike in two places", "lw oo4l7 y", true},
		{"neighbours swapped", "LW-00471-Y", false},
		{"wrong digit", "LW-00817-Y", false},
		{"wrong check character", "LW-00417-K", false},
		{"digit lost", "LW-0417-Y", false},
		{"digit doubled", "LW-004417-Y", false},
	} {
		r, err := Read(c.typed)
		require.Error(t, err, "%s: Read(%q)", c.name, c.typed)
		assert.Equal(t, Unknown, r.Kind, "%s: Read(%q)", c.name, c.typed)
		assert.Contains(t, r.Likely, meant, "%s: Read(%q)", c.name, c.typed)
		if c.first {
			assert.Equal(t, meant, r.Likely[0], "%s: Read(%q) should ask about it first", c.name, c.typed)
		}
	}
}
