package tag

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestBare holds what scanners and pasted cells put around the signs of a tag.
func TestBare(t *testing.T) {
	for _, c := range []struct{ s, want string }{
		{"lw-00417-y ", "LW00417Y"},
		{"LW\u00a000417–Y", "LW00417Y"},
		{"LW\u201100417/Y", "LW00417Y"},
		{"\ufeffLW00417Y\u200b", "LW00417Y"},
		{"ＬＷ－００４１７－Ｙ", "LW00417Y"},
		{"", ""},
	} {
		assert.Equal(t, c.want, bare(c.s), "bare(%q)", c.s)
	}
}

// TestDamagedSerials: what a spreadsheet shows for a serial it took for a
// number is damaged; the serial itself, still text, is whole.
func TestDamagedSerials(t *testing.T) {
	for _, c := range []struct {
		s       string
		damaged bool
	}{
		{"9.01E+09", true},
		{"9,01E+09", true},
		{" 1.00e+12 ", true},
		{"1E+12", true},
		{"5.03E-07", true},
		{"9.01E9", true},
		{"100E10", false},
		{"0503E000", false},
		{"123e4", false},
		{"001418", false},
		{"E-20117", false},
		{"0", false},
	} {
		assert.Equal(t, c.damaged, damaged(c.s), "damaged(%q)", c.s)
	}
}
