package tag

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Published check characters of ISO/IEC 7064 MOD 37,36: the GRid example
// A1-2425G-ABC1234002-M and the ISAN examples of public validation tests, the
// table of a public Go test for the same system, and six values computed with
// an independent implementation (marked).
func TestISO7064Mod37Check(t *testing.T) {
	for _, c := range []struct {
		text string
		want string
	}{
		{"A12425GABC1234002", "M"},
		{"00000000C36D002B", "K"},
		{"00000000C36D002B00000000", "E"},
		{"RABD", "A"},
		{"X0H", "X"},
		{"TBR", "1"},
		{"9", "J"},
		{"1M", "Q"},
		{"OW", "N"},
		{"WP8Z0", "9"},
		{"7LI6P5WTF2JHU", "U"},
		{"B3739U6CR", "K"},
		{"EFWW032G2TI", "U"},
		{"CYL000001", "3"},  // independent implementation
		{"CYL000010", "1"},  // independent implementation
		{"OXY2024001", "Q"}, // independent implementation
		{"CN5L0001", "8"},   // independent implementation
		{"HH00042", "J"},    // independent implementation
		{"PX0007", "0"},     // independent implementation
		{"E0012345", "2"},   // independent implementation
	} {
		assert.Equal(t, c.want, string(checkMod37(c.text)), "MOD 37,36 of %s", c.text)
	}
}

// Check digits published by GS1 and its national members: GTIN-13 on the GS1
// check digit page, worked examples of GS1 Sweden, India and UK, UPC-A and the
// GTIN and SSCC of the GS1 Digital Link samples. The last three are computed.
func TestGS1CheckDigit(t *testing.T) {
	for _, c := range []struct{ digits, want string }{
		{"629104150021", "3"},
		{"730001100001", "7"},
		{"890400021003", "7"},
		{"501234567890", "0"},
		{"03600024145", "7"},
		{"03600029145", "2"},
		{"0952123454321", "3"},
		{"0950600013435", "2"}, // from memory: GS1 sample GTIN 09506000134352
		{"10614141123456789", "7"},
		{"0001234567890", "5"},
		{"9521234", "0"},
		{"950110153000", "3"},
		{"0061414100006", "7"},
	} {
		assert.Equal(t, c.want, string(checkMod10(c.digits)), "check digit of %s", c.digits)
		assert.True(t, checked10(c.digits+c.want), "%s%s", c.digits, c.want)
	}
}

// ISO/IEC 7064: its systems detect every single substitution.
func TestEverySingleSubstitutionIsDetected(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := Mint(rapid.Uint32().Draw(t, "number")).Payload()
		for i := range len(whole) {
			for j := range len(alphabet) {
				if alphabet[j] == whole[i] {
					continue
				}
				wrong := Tag(whole[:i] + alphabet[j:j+1] + whole[i+1:])
				_, ok := wrong.Number()
				assert.False(t, ok, "%s with sign %d as %c passes as %s", whole, i, alphabet[j], wrong)
			}
		}
	})
}
