package route_test

import (
	"context"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

func TestBenchmarkFolder(t *testing.T) {
	r101 := solomonText(t, "R101", records(t, "solomon25_data.csv"))
	folder := fstest.MapFS{
		"R101.txt": {Data: []byte(r101)},
		"R101.sol": {Data: []byte("Route #1: 1\nCost 617.1\n")},
		"TINY.txt": {Data: []byte(tiny)},
		"note.md":  {Data: []byte("not an instance")},
	}
	var told []route.BenchmarkRow
	rows, err := route.BenchmarkFolder(context.Background(), folder, 50*time.Millisecond, 2, func(r route.BenchmarkRow) { told = append(told, r) })
	require.NoError(t, err)
	assert.Equal(t, rows, told)
	require.Len(t, rows, 2)
	assert.Equal(t, "R101.txt", rows[0].File)
	assert.True(t, rows[0].Feasible)
	assert.Equal(t, 617.1, rows[0].Best)
	assert.GreaterOrEqual(t, rows[0].Gap, -1e-9)
	assert.Equal(t, route.BenchmarkRow{File: "TINY.txt", Feasible: true, Vehicles: 1, Cost: 11.4}, rows[1])
	mean, largest := route.Gaps(rows)
	assert.Equal(t, rows[0].Gap, mean)
	assert.InDelta(t, rows[0].Gap, largest, 1e-9)

	folder["R101.sol"] = &fstest.MapFile{Data: []byte("Cost none\n")}
	_, err = route.BenchmarkFolder(context.Background(), folder, time.Millisecond, 2, nil)
	assert.ErrorContains(t, err, `R101.txt: the cost "none"`)
	_, err = route.BenchmarkFolder(context.Background(), fstest.MapFS{}, time.Millisecond, 2, nil)
	assert.ErrorContains(t, err, "no .txt file")
}
