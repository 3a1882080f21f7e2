package route_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

const tiny = `TINY

VEHICLE
NUMBER     CAPACITY
  2         200

CUSTOMER
CUST NO.   XCOORD.   YCOORD.    DEMAND   READY TIME   DUE DATE   SERVICE TIME

    0          0         0          0          0       230           0
    1          1         1         10        161       171          10
    2         -3         4          7         50        60          10
`

func TestReadSolomon(t *testing.T) {
	p, err := route.ReadSolomon(strings.NewReader(tiny))
	require.NoError(t, err)
	assert.Equal(t, [][]int64{{0, 14, 50}, {14, 0, 50}, {50, 50, 0}}, p.Distance, "tenths, truncated")
	assert.Equal(t, p.Distance, p.Travel)
	require.Len(t, p.Vehicles, 2)
	assert.Equal(t, route.Vehicle{Until: 2300, Capacity: route.Load{200}}, p.Vehicles[0])
	require.Len(t, p.Stops, 2)
	assert.Equal(t, route.Stop{Name: "1", Place: 1, Window: [2]int64{1610, 1710}, Service: 100, Drop: route.Load{10}}, p.Stops[0])
}

func TestReadSolomonRefuses(t *testing.T) {
	tests := []struct{ name, text, says string }{
		{"nothing", "", "not a file in Solomon's format"},
		{"no places", "5 200\n", "not a file in Solomon's format"},
		{"a place missing", strings.Replace(tiny, "    1          1", "    7          1", 1), "place 7 where place 1"},
		{"a column missing", strings.Replace(tiny, "171          10", "171", 1), "6 numbers"},
		{"broken numbers", strings.Replace(tiny, "171 ", "171.5 ", 1), "171.5 is not a whole number"},
		{"a window shut before it opens", strings.Replace(tiny, "171 ", "101 ", 1), "window"},
		{"less than nothing", strings.Replace(tiny, " 200", "-200", 1), "capacity"},
		{"too many vehicles", strings.Replace(tiny, "  2  ", " 99999 ", 1), "99999 vehicles"},
	}
	for _, tt := range tests {
		_, err := route.ReadSolomon(strings.NewReader(tt.text))
		if assert.Error(t, err, tt.name) {
			assert.Contains(t, err.Error(), tt.says, tt.name)
		}
	}
}

func FuzzReadSolomon(f *testing.F) {
	f.Add(tiny)
	f.Add("1 1\n0 0 0 0 0 1 0\n")
	f.Add("1 1\n0 1e6 -1e6 0 0 1 0\n1 -1e6 1e6 0 0 1 0")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := route.ReadSolomon(strings.NewReader(text))
		if err != nil {
			return
		}
		if err := p.Validate(); err != nil {
			t.Errorf("read but not valid: %v\n%s", err, text)
		}
		for i, row := range p.Distance {
			for j, d := range row {
				if d != p.Distance[j][i] {
					t.Errorf("%d to %d differs from back\n%s", i, j, text)
				}
			}
		}
	})
}
