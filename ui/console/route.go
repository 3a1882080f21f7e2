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

// solveRoute solves one file in Solomon's text format. Distances are truncated
// to one decimal, as the published best solutions are.
func solveRoute(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("route")
	in := fs.String("in", "", "file in Solomon's text format")
	seconds := fs.Float64("seconds", 10, "time to search")
	seed := fs.Uint64("seed", 1, "of the search")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if *in == "" {
		return misuse{"--in is missing: the file to solve"}
	}
	file, err := os.Open(*in)
	if err != nil {
		return err
	}
	defer file.Close()
	problem, err := route.ReadSolomon(file)
	if err != nil {
		return err
	}
	begin := p.Now()
	plan, err := route.Solve(ctx, problem, route.Options{
		Seed: *seed, Limit: time.Duration(*seconds * float64(time.Second)), Workers: runtime.NumCPU(),
	})
	if err != nil {
		return err
	}
	a := routeAnswer{
		Feasible: len(plan.Unserved) == 0 && len(route.Check(problem, plan)) == 0,
		Distance: float64(plan.Distance) / 10, Seconds: p.Now().Sub(begin).Seconds(), Routes: [][]int{},
	}
	for _, r := range plan.Routes {
		stops := make([]int, len(r.Visits))
		for i, v := range r.Visits {
			stops[i] = v.Stop + 1 // places count from the depot, 0
		}
		a.Routes = append(a.Routes, stops)
	}
	a.Vehicles = len(a.Routes)
	if *asJSON {
		return p.print(a)
	}
	fmt.Fprintf(p.Out, "feasible %t, distance %.1f, vehicles %d, %.1f s\n", a.Feasible, a.Distance, a.Vehicles, a.Seconds)
	for i, r := range a.Routes {
		fmt.Fprintf(p.Out, "route %d: %s\n", i+1, strings.Trim(fmt.Sprint(r), "[]"))
	}
	return nil
}
