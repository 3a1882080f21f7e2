package route_test

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/route"
)

// The published optima are reached: first 25 customers of Solomon's instances, distance in tenths.
// Sources: testdata/README.md.
func TestSolveReachesPublishedOptima(t *testing.T) {
	data := records(t, "solomon25_data.csv")
	for _, optimum := range records(t, "solomon25_optima.csv") {
		name := optimum["instance"]
		t.Run(name, func(t *testing.T) {
			p, err := route.ReadSolomon(strings.NewReader(solomonText(t, name, data)))
			require.NoError(t, err)
			want := int64(math.Round(10 * number(t, optimum["distance"])))

			published := driven(t, p, optimum["routes"])
			assert.Empty(t, route.Check(p, published), "the published routes of %s", name)
			assert.Equal(t, want, published.Distance, "the published routes of %s", name)

			plan, err := route.Solve(context.Background(), p, route.Options{Steps: 30_000, Workers: 2})
			require.NoError(t, err)
			assert.Empty(t, route.Check(p, plan), name)
			assert.Empty(t, plan.Unserved, name)
			assert.Equal(t, want, plan.Distance, name)
		})
	}
}

// Deliveries and collections on one vehicle with time windows: the proven optima, for each number of vehicles allowed.
// Source: Wang & Chen 2012, and exhaustive search; testdata/README.md.
func TestSolveReachesOptimaWithCollections(t *testing.T) {
	data := records(t, "pickup_delivery_data.csv")
	least := map[string]float64{}
	for _, optimum := range records(t, "pickup_delivery_optima.csv") {
		name, want := optimum["instance"], number(t, optimum["optimal_distance_double"])
		if published := optimum["published_best_distance_2dp"]; published != "" {
			assert.InDelta(t, number(t, published), want, 0.006, "published value of %s", name)
		}
		if best, ok := least[name]; ok {
			want = min(want, best) // the rows give exactly so many vehicles; fewer may be used
		}
		least[name] = want

		p := pickupDelivery(t, name, data, int(number(t, optimum["vehicles"])))
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 4_000, Workers: 2})
		require.NoError(t, err)
		assert.Empty(t, route.Check(p, plan), "%s with %s vehicles", name, optimum["vehicles"])
		assert.Empty(t, plan.Unserved, "%s with %s vehicles", name, optimum["vehicles"])
		assert.InDelta(t, want, float64(plan.Distance)/fine, 0.002, "%s with %s vehicles", name, optimum["vehicles"])
	}
}

// The published number of vehicles is the least: with one fewer, something is left out and named.
func TestSolveNamesWhatDoesNotFit(t *testing.T) {
	data := records(t, "pickup_delivery_data.csv")
	for _, optimum := range records(t, "pickup_delivery_optima.csv") {
		if optimum["vehicles"] != optimum["published_vehicle_limit"] {
			continue
		}
		p := pickupDelivery(t, optimum["instance"], data, int(number(t, optimum["vehicles"]))-1)
		plan, err := route.Solve(context.Background(), p, route.Options{Steps: 4_000, Workers: 2})
		require.NoError(t, err)
		assert.Empty(t, route.Check(p, plan), optimum["instance"])
		require.NotEmpty(t, plan.Unserved, optimum["instance"])
		for _, u := range plan.Unserved {
			assert.NotEmpty(t, u.Reliefs, "%s, stop %d: %s", optimum["instance"], u.Stop, u.Cause)
		}
	}
}

// fine is how many units make one of the published ones, where those are not truncated.
const fine = 10_000

func pickupDelivery(t *testing.T, name string, data []map[string]string, vehicles int) route.Problem {
	t.Helper()
	p := route.Problem{Weights: route.Weights{Distance: 1, Unserved: 1 << 28}}
	var xs, ys []float64
	for _, row := range data {
		if row["instance"] != name {
			continue
		}
		xs, ys = append(xs, number(t, row["x"])), append(ys, number(t, row["y"]))
		whole := func(key string) int64 { return int64(number(t, row[key])) }
		if len(xs) == 1 {
			for range vehicles {
				p.Vehicles = append(p.Vehicles, route.Vehicle{Until: fine * whole("due"), Capacity: route.Load{whole("capacity")}})
			}
			continue
		}
		p.Stops = append(p.Stops, route.Stop{Name: row["node"], Place: len(xs) - 1, Service: fine * whole("service"),
			Window: [2]int64{fine * whole("ready"), fine * whole("due")},
			Drop:   route.Load{whole("delivery")}, Collect: route.Load{whole("pickup")}})
	}
	for i := range xs {
		row := make([]int64, len(xs))
		for j := range xs {
			row[j] = int64(math.Round(fine * math.Hypot(xs[i]-xs[j], ys[i]-ys[j])))
		}
		p.Travel = append(p.Travel, row)
	}
	p.Distance = p.Travel
	return p
}

// driven times given routes, written as customer numbers: 5-3 | 2.
func driven(t *testing.T, p route.Problem, routes string) route.Plan {
	t.Helper()
	var orders [][]int
	for _, list := range strings.Split(routes, "|") {
		var order []int
		for _, customer := range strings.Split(strings.TrimSpace(list), "-") {
			order = append(order, int(number(t, customer))-1)
		}
		orders = append(orders, order)
	}
	return route.Driven(p, orders)
}

func solomonText(t *testing.T, name string, data []map[string]string) string {
	t.Helper()
	var b strings.Builder
	for _, row := range data {
		if row["instance"] != name {
			continue
		}
		if b.Len() == 0 {
			b.WriteString(name + "\n\nVEHICLE\nNUMBER CAPACITY\n 25 " + row["capacity"] + "\n\nCUSTOMER\nCUST NO. XCOORD. YCOORD. DEMAND\n\n")
		}
		for _, key := range []string{"node", "x", "y", "demand", "ready", "due", "service"} {
			b.WriteString(" " + row[key])
		}
		b.WriteString("\n")
	}
	return b.String()
}

func records(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", file))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var all []map[string]string
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, key := range rows[0] {
			named[key] = row[i]
		}
		all = append(all, named)
	}
	return all
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err, text)
	return x
}
