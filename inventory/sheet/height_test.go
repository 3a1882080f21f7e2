package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLinesIn(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		want  int
	}{
		{"", 12, 1},
		{"2 E + D", 12, 1},
		{"2 E + D: E 750 psi read Tue 3 Mar", 26, 2},
		{"one\ntwo\nthree", 40, 3},
		{strings.Repeat("x", 35), 12, 4},
		{"ab " + strings.Repeat("x", 10), 12, 2},
		{"straße straße", 12, 2},
		{"anything", 0, 8},
	} {
		assert.Equal(t, c.want, linesIn(c.text, c.width), "%q in %v", c.text, c.width)
	}
}
