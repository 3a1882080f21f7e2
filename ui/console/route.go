package console

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"

	"lungwort/delivery/route"
)

type routeAnswer struct {
	Feasible bool    `json:"feasible"`
	Distance float64 `json:"distance"`
	Vehicles int     `json:"vehicles"`
	Routes   [][]int `json:"routes"`
	Seconds  float64 `json:"seconds"`
}

// solveRoute solves one file in Solomon's text format, or every file of a
// folder. Distances are truncated to one decimal, as the published best
// solutions are.
func solveRoute(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("route")
	in := fs.String("in", "", "file in Solomon's text format")
	folder := fs.String("folder", "", "folder of such files: print how each compares with the .sol file beside it")
	seconds := fs.Float64("seconds", 10, "time to search, for each file")
	seed := fs.Uint64("seed", 1, "of the search")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	limit := time.Duration(*seconds * float64(time.Second))
	switch {
	case (*in == "") == (*folder == ""):
		return misuse{"give one of --in FILE and --folder DIR"}
	case limit <= 0:
		return misuse{fmt.Sprintf("--seconds %g is no time to search", *seconds)}
	case *folder != "":
		return p.benchRoutes(ctx, *folder, limit)
	}
	problem, err := readRoute(*in)
	if err != nil {
		return err
	}
	begin := p.Now()
	plan, err := route.Solve(ctx, problem, route.Options{Seed: *seed, Limit: limit, Workers: runtime.NumCPU()})
	if err != nil {
		return err
	}
	a := answerOf(problem, plan)
	a.Seconds = p.Now().Sub(begin).Seconds()
	if *asJSON {
		return p.print(a)
	}
	fmt.Fprintf(p.Out, "feasible %t, distance %.1f, vehicles %d, %.1f s\n", a.Feasible, a.Distance, a.Vehicles, a.Seconds)
	for i, r := range a.Routes {
		fmt.Fprintf(p.Out, "route %d: %s\n", i+1, strings.Trim(fmt.Sprint(r), "[]"))
	}
	return nil
}

func readRoute(path string) (route.Problem, error) {
	file, err := os.Open(path)
	if err != nil {
		return route.Problem{}, err
	}
	defer file.Close()
	problem, err := route.ReadSolomon(file)
	if err != nil {
		return problem, fmt.Errorf("%s: %w", path, err)
	}
	return problem, nil
}

func answerOf(problem route.Problem, plan route.Plan) routeAnswer {
	a := routeAnswer{
		Feasible: len(plan.Unserved) == 0 && len(route.Check(problem, plan)) == 0,
		Distance: float64(plan.Distance) / 10, Routes: [][]int{},
	}
	for _, r := range plan.Routes {
		if len(r.Visits) == 0 {
			continue
		}
		stops := make([]int, len(r.Visits))
		for i, v := range r.Visits {
			stops[i] = v.Stop + 1 // places count from the depot, 0
		}
		a.Routes = append(a.Routes, stops)
	}
	a.Vehicles = len(a.Routes)
	return a
}

// benchRoutes prints the table of a folder, row by row as each is known.
func (p *Program) benchRoutes(ctx context.Context, folder string, limit time.Duration) error {
	fmt.Fprintf(p.Out, "%-14s %8s %9s %10s %10s %7s\n", "file", "feasible", "vehicles", "distance", "best", "gap")
	rows, err := route.BenchmarkFolder(ctx, os.DirFS(folder), limit, runtime.NumCPU(), func(r route.BenchmarkRow) {
		best, gap := "", ""
		if r.Best > 0 {
			best, gap = fmt.Sprintf("%.1f", r.Best), fmt.Sprintf("%.2f %%", r.Gap)
		}
		fmt.Fprintf(p.Out, "%-14s %8t %9d %10.1f %10s %7s\n", r.File, r.Feasible, r.Vehicles, r.Cost, best, gap)
	})
	if err != nil {
		return err
	}
	mean, largest := route.Gaps(rows)
	var used runtime.MemStats
	runtime.ReadMemStats(&used)
	fmt.Fprintf(p.Out, "%d files, mean gap %.2f %%, largest %.2f %%, %s each, %d MB of memory taken\n", len(rows), mean, largest, limit, used.Sys>>20)
	return nil
}
