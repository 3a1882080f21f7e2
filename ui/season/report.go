package season

import (
	"fmt"
	"io"
	"math"
	"slices"
	"text/tabwriter"

	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// Report is what the policies made of one season.
type Report struct {
	Weeks    int      `json:"weeks"`
	Seed     uint64   `json:"seed"`
	People   int      `json:"people"`
	Cuts     int      `json:"power_cuts"`
	Policies []Figure `json:"policies"`
}

// Figure is what one policy made of it.
type Figure struct {
	Policy      string            `json:"policy"`
	Without     int               `json:"minutes_without_oxygen"`
	By          map[truth.Why]int `json:"by_situation"`
	Saving      int               `json:"minutes_turned_down"` // to save gas
	Persons     int               `json:"persons_without_oxygen"`
	Emergencies int               `json:"emergency_trips"`
	VanHours    float64           `json:"van_hours"`
	Km          float64           `json:"van_km"`
	Cylinders   int               `json:"cylinders_moved"`
	Calls       int               `json:"calls_made"`
	Rang        int               `json:"calls_taken"`
	IdleDays    float64           `json:"idle_days"`
	Lost        int               `json:"items_lost"`
	Discharges  int               `json:"discharges"`
	HeldForKit  int               `json:"held_for_kit"`
	HeldForVan  int               `json:"held_for_van"`
	HeldForGas  int               `json:"held_for_gas"`
	Margin      float64           `json:"bridge_margin_minutes"` // median of what was left when the machine ran
	Least       float64           `json:"bridge_margin_least_tenth"`
	Failed      int               `json:"stops_failed"`
	Facts       int               `json:"facts"`
	Mismatches  []string          `json:"mismatches"` // of the audit
	Elsewhere   []string          `json:"elsewhere"`  // items that are not where the book has them
}

// report puts outcomes as figures.
func report(s fate.Season, outcomes []Outcome) Report {
	r := Report{Weeks: s.Weeks, Seed: uint64(s.Seed), People: len(s.People), Cuts: len(s.Cuts)}
	for _, o := range outcomes {
		f := Figure{
			Policy: o.Policy, By: map[truth.Why]int{}, Saving: whole(o.Saved), Persons: o.Persons, Emergencies: o.Emergencies,
			VanHours: o.Driven.Hours(), Km: float64(o.Metres) / 1000, Cylinders: o.Moved, Calls: o.Calls, Rang: o.Rang,
			IdleDays: o.IdleDays, Lost: o.Lost, Discharges: o.Discharges, HeldForKit: o.HeldForKit, HeldForVan: o.HeldForVan, HeldForGas: o.HeldForGas,
			Margin: quantile(o.Margins, 0.5), Least: quantile(o.Margins, 0.1), Failed: o.Failed, Facts: o.Audit.Facts,
			Mismatches: o.Audit.Mismatches, Elsewhere: o.Differs,
		}
		for _, why := range truth.Whys() {
			f.By[why] = whole(o.Lacks[why])
			f.Without += f.By[why]
		}
		r.Policies = append(r.Policies, f)
	}
	return r
}

func whole(minutes float64) int { return int(math.Round(minutes)) }

// quantile returns the value so far up the sorted list; zero of none.
func quantile(list []float64, share float64) float64 {
	if len(list) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(list))
	return sorted[min(len(sorted)-1, int(share*float64(len(sorted))))]
}

// Sound reports whether every audit is clean and every item is where the book
// has it.
func (r Report) Sound() bool {
	return !slices.ContainsFunc(r.Policies, func(f Figure) bool { return len(f.Mismatches)+len(f.Elsewhere) > 0 })
}

// row is one line of the table.
type row struct {
	name string
	say  func(Figure) string
}

// rows are the lines of the table in their order.
func rows() []row {
	n := func(of func(Figure) int) func(Figure) string {
		return func(f Figure) string { return fmt.Sprint(of(f)) }
	}
	x := func(of func(Figure) float64) func(Figure) string {
		return func(f Figure) string { return fmt.Sprintf("%.0f", of(f)) }
	}
	all := []row{{"minutes without oxygen", n(func(f Figure) int { return f.Without })}}
	for _, why := range truth.Whys() {
		all = append(all, row{"of them, " + string(why), n(func(f Figure) int { return f.By[why] })})
	}
	return append(all,
		row{"persons without oxygen", n(func(f Figure) int { return f.Persons })},
		row{"minutes turned down to save gas", n(func(f Figure) int { return f.Saving })},
		row{"emergency trips", n(func(f Figure) int { return f.Emergencies })},
		row{"van hours", x(func(f Figure) float64 { return f.VanHours })},
		row{"van km", x(func(f Figure) float64 { return f.Km })},
		row{"cylinders moved", n(func(f Figure) int { return f.Cylinders })},
		row{"calls made", n(func(f Figure) int { return f.Calls })},
		row{"calls taken", n(func(f Figure) int { return f.Rang })},
		row{"idle days of things in homes", x(func(f Figure) float64 { return f.IdleDays })},
		row{"items lost", n(func(f Figure) int { return f.Lost })},
		row{"discharges", n(func(f Figure) int { return f.Discharges })},
		row{"discharges held for want of kit", n(func(f Figure) int { return f.HeldForKit })},
		row{"discharges held for want of a van", n(func(f Figure) int { return f.HeldForVan })},
		row{"bridge margin, half had more than (min)", x(func(f Figure) float64 { return f.Margin })},
		row{"bridge margin, nine of ten had more than (min)", x(func(f Figure) float64 { return f.Least })},
	)
}

// Cells returns the table: a heading, then a line for each figure.
func (r Report) Cells() [][]string {
	head := []string{"figure"}
	for _, f := range r.Policies {
		head = append(head, f.Policy)
	}
	cells := [][]string{head}
	for _, w := range rows() {
		line := []string{w.name}
		for _, f := range r.Policies {
			line = append(line, w.say(f))
		}
		cells = append(cells, line)
	}
	return cells
}

// Print writes the report for people.
func (r Report) Print(to io.Writer) error {
	fmt.Fprintf(to, "Weeks: %d, seed: %d. People who go home: %d, power cuts: %d.\n\n", r.Weeks, r.Seed, r.People, r.Cuts)
	t := tabwriter.NewWriter(to, 0, 0, 2, ' ', tabwriter.AlignRight)
	for _, line := range r.Cells() {
		for _, cell := range line {
			fmt.Fprintf(t, "%s\t", cell)
		}
		fmt.Fprintln(t)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(to)
	for _, f := range r.Policies {
		fmt.Fprintf(to, "%s: audit of %d facts, %d mismatches; %d items not where the book has them\n", f.Policy, f.Facts, len(f.Mismatches), len(f.Elsewhere))
		for _, says := range slices.Concat(f.Mismatches, f.Elsewhere) {
			fmt.Fprintf(to, "  %s\n", says)
		}
	}
	return nil
}
