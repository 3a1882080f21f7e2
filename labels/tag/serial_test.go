package tag

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The spellings come from public reports of recalls and of general spreadsheet
// trouble: trailing and no-break spaces, composed and decomposed accents.
func TestNormalSerial(t *testing.T) {
	for _, c := range []struct{ s, want string }{
		{"ja 2312-000739 ", "JA2312000739"},
		{"E\u00a020119", "E20119"},
		{"e–20117", "E20117"},
		{"E\u201120117", "E20117"},
		{"CN/004/17", "CN00417"},
		{"É12", "E12"},
		{"e\u030112", "E12"},
		{"\ufeffCN00417\u200b", "CN00417"},
		{"ＣＮ００４１７", "CN00417"},
		{"CN.004_17", "CN.004_17"},
		{"", ""},
	} {
		assert.Equal(t, c.want, NormalSerial(c.s), "NormalSerial(%q)", c.s)
	}
}

func TestNearSerials(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"CN0O417", "CN00417", true},
		{"CNOO417", "CN00417", true},
		{"JA23I2000740", "JA2312000740", true},
		{"S1200", "51200", true},
		{"001418", "1418", true},
		{"L24O9A", "L2409A", true},
		{"000", "0", true},
		{"JA2312000741", "JA2312000740", false},
		{"1418", "14180", false},
		{"9.01E+09", "9010000417", false},
		{"9.01E+09", "9.01E+09", false},
		{"", "", false},
		{"-", " ", false},
	} {
		assert.Equal(t, c.want, NearSerials(c.a, c.b), "NearSerials(%q, %q)", c.a, c.b)
		assert.Equal(t, c.want, NearSerials(c.b, c.a), "NearSerials(%q, %q)", c.b, c.a)
	}
}

// What a spreadsheet shows for a serial it took for a number is damaged; the
// serial itself, still text, is only in danger.
func TestDamagedAndFragileSerials(t *testing.T) {
	for _, c := range []struct {
		s                string
		damaged, fragile bool
	}{
		{"9.01E+09", true, false},
		{"9,01E+09", true, false},
		{" 1.00e+12 ", true, false},
		{"1E+12", true, false},
		{"5.03E-07", true, false},
		{"9.01E9", true, false},
		{"100E10", false, true},
		{"0503E000", false, true},
		{"123e4", false, true},
		{"001418", false, true},
		{"9010000417123456", false, true},
		{"1418", false, false},
		{"E-20117", false, false},
		{"E20117", false, false},
		{"0", false, false},
	} {
		assert.Equal(t, c.damaged, Damaged(c.s), "Damaged(%q)", c.s)
		assert.Equal(t, c.fragile, Fragile(c.s), "Fragile(%q)", c.s)
	}
}

func FuzzNormalSerial(f *testing.F) {
	for _, s := range []string{"ja 2312-000739 ", "É12", "e\u0301", "ＣＮ", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		once := NormalSerial(s)
		if twice := NormalSerial(once); twice != once {
			t.Errorf("NormalSerial(%q) is %q, and of that %q", s, once, twice)
		}
		if once != "" && !Damaged(s) && !NearSerials(s, once) {
			t.Errorf("%q is not near its own normal form %q", s, once)
		}
	})
}
