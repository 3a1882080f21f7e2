package route

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// BenchmarkRow is how a search did on one file. Costs are distances with every leg truncated to one decimal.
type BenchmarkRow struct {
	File     string
	Feasible bool // every stop visited, and Check found nothing wrong
	Vehicles int
	Cost     float64
	Best     float64 // the best known cost, from the .sol file beside it; 0 when there is none
	Gap      float64 // per cent above Best; 0 when there is none
}

// BenchmarkFolder solves every .txt file in Solomon's text format in a folder, each for the given time, and compares it with
// the cost on the last line of the .sol file beside it. Each row is told as soon as it is known; told may be nil.
func BenchmarkFolder(ctx context.Context, folder fs.FS, limit time.Duration, workers int, told func(BenchmarkRow)) ([]BenchmarkRow, error) {
	names, err := fs.Glob(folder, "*.txt")
	if err != nil {
		return nil, fmt.Errorf("looking for instances: %w", err)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("no .txt file in the folder: name one that holds files in Solomon's format")
	}
	slices.Sort(names)
	var rows []BenchmarkRow
	for _, name := range names {
		row, err := benchmarkFile(ctx, folder, name, limit, workers)
		if err != nil {
			return rows, fmt.Errorf("%s: %w", name, err)
		}
		if ctx.Err() != nil {
			return rows, ctx.Err()
		}
		rows = append(rows, row)
		if told != nil {
			told(row)
		}
	}
	return rows, nil
}

func benchmarkFile(ctx context.Context, folder fs.FS, name string, limit time.Duration, workers int) (BenchmarkRow, error) {
	file, err := folder.Open(name)
	if err != nil {
		return BenchmarkRow{}, err
	}
	defer file.Close()
	p, err := ReadSolomon(file)
	if err != nil {
		return BenchmarkRow{}, err
	}
	plan, err := Solve(ctx, p, Options{Seed: 1, Limit: limit, Workers: workers})
	if err != nil {
		return BenchmarkRow{}, err
	}
	row := BenchmarkRow{File: name, Vehicles: len(plan.Routes), Cost: float64(plan.Distance) / 10,
		Feasible: len(plan.Unserved) == 0 && len(Check(p, plan)) == 0}
	solution, err := fs.ReadFile(folder, strings.TrimSuffix(name, ".txt")+".sol")
	if err != nil {
		return row, nil // no best known solution to compare with
	}
	if row.Best, err = solutionCost(string(solution)); err != nil {
		return BenchmarkRow{}, err
	}
	row.Gap = 100 * (row.Cost/row.Best - 1)
	return row, nil
}

// solutionCost reads the line "Cost 1637.7" of a .sol file.
func solutionCost(text string) (float64, error) {
	for line := range strings.Lines(text) {
		fields := strings.Fields(line)
		if len(fields) == 2 && strings.EqualFold(fields[0], "cost") {
			cost, err := strconv.ParseFloat(fields[1], 64)
			if err != nil || !(cost > 0 && cost < math.MaxFloat64) {
				return 0, fmt.Errorf("the cost %q of the solution is not a number above 0", fields[1])
			}
			return cost, nil
		}
	}
	return 0, fmt.Errorf("the solution has no line with its cost")
}

// Gaps gives the mean and the largest gap of the rows that have a best known cost.
func Gaps(rows []BenchmarkRow) (mean, largest float64) {
	count := 0.0
	for _, row := range rows {
		if row.Best > 0 {
			mean += row.Gap
			largest = max(largest, row.Gap)
			count++
		}
	}
	return mean / max(1, count), largest
}
