package console_test

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	friday = "2026-03-06T16:20:00-03:00"
	list   = `Serial,Kind,Size,Gauge (psi),Read at,Depot,Status
E-30001,cylinder,US-E,2000,2026-03-05 10:00,harbour,ready
`
	// small is an instance in the text format of M. M. Solomon, Operations
	// Research 35(2), 1987, with two places made up for this test.
	small = `SMALL

VEHICLE
NUMBER     CAPACITY
  2         10

CUSTOMER
CUST NO.  XCOORD.   YCOORD.    DEMAND   READY TIME  DUE DATE   SERVICE TIME

    0      0          0          0          0        100          0
    1      3          4          1          0        100          1
    2      3          0          1          0        100          1
`
)

// keys returns the keys of a JSON object, or of the first of a list.
func keys(t *testing.T, text string) []string {
	t.Helper()
	var object map[string]any
	if strings.HasPrefix(text, "[") {
		var all []map[string]any
		require.NoError(t, json.Unmarshal([]byte(text), &all))
		require.NotEmpty(t, all)
		object = all[0]
	} else {
		require.NoError(t, json.Unmarshal([]byte(text), &object))
	}
	return slices.Sorted(maps.Keys(object))
}

// TestJSONKeys holds each command to its keys: programs of others read them.
func TestJSONKeys(t *testing.T) {
	folder := t.TempDir()
	book := filepath.Join(folder, "b.lungwort")
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	run(t, "intake", "--book", book, "--at", friday, write("items.csv", list))
	for _, act := range [][]string{
		{"register", "--family", "Abara", "--record", "0048213", "--street", "Kelp Street 22", "--mains", "mains"},
		{"order", "--person", "0048213", "--rest", "2", "--hours", "24"},
		{"discharge", "--person", "0048213", "--items", "E-30001", "--gauges", "2000psi", "--arrives", "2026-03-06T17:30:00-03:00"},
	} {
		run(t, append([]string{"act", act[0], "--book", book, "--at", friday}, act[1:]...)...)
	}
	answer := []string{"assumed", "do", "facts", "help", "high", "low", "mid", "title", "verdict"}
	for _, c := range []struct {
		args []string
		want []string
	}{
		{[]string{"gas", "--size", "US-E", "--gauge", "500psi", "--flow", "4"}, []string{"methods", "planning_minutes"}},
		{[]string{"gas", "--size", "US-M9", "--gauge", "500psi", "--flow", "4"}, []string{"methods", "planning_minutes"}},
		{[]string{"watch", "--book", book, "--at", friday},
			[]string{"act_by", "address", "assumptions", "dry_high", "dry_low", "dry_mid", "flow_lpm", "litres", "person", "verdict"}},
		{[]string{"answer", "bridge", "--book", book, "--at", friday, "--person", "0048213", "--items", "E-30001", "--gauges", "1800psi"}, answer},
		{[]string{"answer", "night", "--book", book, "--at", friday, "--size", "US-E", "--gauge", "500psi", "--flow", "4"}, answer},
		{[]string{"route", "--in", write("small.txt", small), "--seconds", "0.1"}, []string{"distance", "feasible", "routes", "seconds", "vehicles"}},
		{[]string{"audit", "--book", book}, []string{"facts", "mismatches"}},
	} {
		assert.Equal(t, c.want, keys(t, run(t, append(c.args, "--json")...)), "%v", c.args)
	}
	var gas struct{ Methods []map[string]any }
	require.NoError(t, json.Unmarshal([]byte(run(t, "gas", "--size", "US-E", "--gauge", "500psi", "--flow", "4", "--json")), &gas))
	assert.Equal(t, []string{"litres", "minutes", "name"}, slices.Sorted(maps.Keys(gas.Methods[0])))
}

// TestRouteSmall: 0 to 1 is 5, 1 to 2 is 4, 2 to 0 is 3.
func TestRouteSmall(t *testing.T) {
	path := filepath.Join(t.TempDir(), "small.txt")
	require.NoError(t, os.WriteFile(path, []byte(small), 0o600))
	var answer struct {
		Feasible bool
		Distance float64
		Vehicles int
		Routes   [][]int
	}
	require.NoError(t, json.Unmarshal([]byte(run(t, "route", "--in", path, "--seconds", "0.1", "--json")), &answer))
	assert.True(t, answer.Feasible)
	assert.Equal(t, 12.0, answer.Distance)
	assert.Equal(t, 1, answer.Vehicles)
	require.Len(t, answer.Routes, 1)
	assert.ElementsMatch(t, []int{1, 2}, answer.Routes[0])
}

func TestRouteFolderPrintsATable(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "small.txt"), []byte(small), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "small.sol"), []byte("Route #1: 1 2\nCost 12.0\n"), 0o600))
	table := run(t, "route", "--folder", folder, "--seconds", "0.05")
	assert.Regexp(t, `small.txt +true +1 +12.0 +12.0 +0.00 %`, table)
	assert.Regexp(t, `1 files, mean gap 0\.00 %, largest 0\.00 %, .* each, [1-9]\d* MB of memory taken`, table)
}
