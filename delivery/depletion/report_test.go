package depletion

import (
	"flag"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/gas"
)

var update = flag.Bool("update", false, "write the table of DEVELOPERS.md; needs -homes 24000")

const developers = "../../DEVELOPERS.md"

// figure is one row of the table of DEVELOPERS.md: a mean over homes.
type figure struct {
	name, asked string
	value, luck float64 // luck: what another draw of as many homes may differ by
	unit        string
	decimals    int
}

func (f figure) said() string {
	return strings.TrimSpace(fmt.Sprintf("%.*f %s", f.decimals, f.value, f.unit))
}

// meanOf returns the mean of one value from each home, times scale.
func meanOf(name, asked string, values []float64, scale float64, unit string, decimals int) figure {
	n := float64(len(values))
	average := mean(values)
	var squares float64
	for _, v := range values {
		squares += (v - average) * (v - average)
	}
	return figure{name: name, asked: asked, value: scale * average, unit: unit, decimals: decimals,
		luck: scale * (4*math.Sqrt(squares)/n + 4/n)}
}

func percent(name, asked string, values []float64, decimals int) figure {
	return meanOf(name, asked, values, 100, "%", decimals)
}

// calibration returns every figure of the report for n homes of each kind.
func calibration(n int) []figure {
	proving, hard := drawn(provingSeed, n, ordinary.onCylinder), drawn(shiftedSeed, n, shifted.onCylinder)
	leaky := shifted
	leaky.seeping, leaky.borrowing = 3*ordinary.seeping, 3*ordinary.borrowing
	at, hardAt := places(proving, learnt), places(hard, learnt)
	leakyAt := places(drawn(shiftedSeed, n, leaky.onCylinder), learnt)
	all := []figure{
		percent("proving half: 50 % interval covers", "", within01(at, 0.25, 0.75), 1),
		percent("proving half: 90 % interval covers", "90 ± 2 %", within01(at, 0.05, 0.95), 1),
		percent("proving half: 98 % interval covers", "", within01(at, lowEnd, highEnd), 1),
		percent("proving half: safe end (1 %) crossed", "1 ± 0.5 %", within01(at, 0, lowEnd), 2),
		percent("shifted habits: 90 % interval covers", "", within01(hardAt, 0.05, 0.95), 1),
		percent("shifted habits: safe end crossed", "at most 2 %", within01(hardAt, 0, lowEnd), 2),
		percent("shifted, and three times the losses from closed cylinders: safe end crossed", "", within01(leakyAt, 0, lowEnd), 2),
	}
	all = append(all, warnings(proving)...)
	return append(all, chancesReported(everyHome(ordinary, provingSeed, n))...)
}

// warnings compares how long before the gas really ends each rule says so.
func warnings(all []lived) (figures []figure) {
	for _, rule := range []struct {
		name string
		ends func(lived) time.Time
	}{
		{"act-by of the forecast", func(l lived) time.Time { return Predict(l.Household, usual).ActBy }},
		{"safe end of the forecast", func(l lived) time.Time { return Predict(l.Household, usual).Low }},
		{"textbook rule, 200 psi kept, flow as ordered", textbookEnd},
		{"in proportion to the gauge, flow as ordered", proportionalEnd},
	} {
		warned, missed := make([]float64, len(all)), make([]float64, len(all))
		onAllCores(len(all), func(i int) {
			warned[i] = all[i].without.Sub(rule.ends(all[i])).Minutes()
			if warned[i] < 0 {
				missed[i] = 1
			}
		})
		figures = append(figures,
			meanOf(rule.name+": mean warning", "", warned, 1, "min", 0),
			percent(rule.name+": gas ended before it", "", missed, 1))
	}
	return figures
}

// textbookEnd is (gauge − 200 psi) × factor ÷ flow after the reading, as
// respiratory-therapy pages teach it; where no factor is published, it is the
// contents by the full pressure.
func textbookEnd(l lived) time.Time {
	var minutes float64
	for _, c := range l.Cylinders {
		factor := c.Size.Factor
		if factor == 0 {
			factor = float64(c.Size.Contents) / c.Size.Service.PSI()
		}
		minutes += math.Max(0, c.Gauge.PSI()-200) * factor / float64(l.Flow)
	}
	return after(l.Cylinders[0].ReadAt, minutes)
}

// proportionalEnd takes as much of the label contents as the gauge shows of
// the full pressure, down to zero.
func proportionalEnd(l lived) time.Time {
	var litres gas.Litres
	for _, c := range l.Cylinders {
		litres += c.Size.Contents * gas.Litres(c.Gauge/c.Size.Service)
	}
	return after(l.Cylinders[0].ReadAt, float64(litres)/float64(l.Flow))
}

// chancesReported returns Brier scores (Brier, Monthly Weather Review 1950;
// 78:1, for the two outcomes taken as one) and, bin by bin, what happened.
func chancesReported(all []lived) (figures []figure) {
	for _, ahead := range horizons {
		said := chances(all, ahead)
		happened, squares := make([]float64, len(said)), make([]float64, len(said))
		for i, s := range said {
			happened[i], squares[i] = s.outcome(), math.Pow(s.chance-s.outcome(), 2)
		}
		share := mean(happened)
		figures = append(figures, meanOf(fmt.Sprintf("without oxygen within %.0f h, all homes: Brier score", ahead.Hours()),
			fmt.Sprintf("%.4f by the share alone", share*(1-share)), squares, 1, "", 4))
		for i := range len(binEdges) - 1 {
			var in []float64
			var stated float64
			for j, s := range said {
				if s.chance >= binEdges[i] && (s.chance < binEdges[i+1] || i == len(binEdges)-2) {
					in, stated = append(in, happened[j]), stated+s.chance
				}
			}
			if len(in) == 0 {
				continue
			}
			figures = append(figures, percent(
				fmt.Sprintf("without oxygen within %.0f h, stated %g to %g %%: happened", ahead.Hours(), 100*binEdges[i], 100*binEdges[i+1]),
				fmt.Sprintf("%.1f %% stated", 100*stated/float64(len(in))), in, 1))
		}
	}
	return figures
}

// The table of DEVELOPERS.md is true: to the last digit at the size it was
// made with, within luck at a smaller one.
func TestTheTableInDevelopersIsTrue(t *testing.T) {
	figures := calibration(*homes)
	text, err := os.ReadFile(developers)
	require.NoError(t, err)
	if *update {
		require.Equal(t, atFullSize, *homes, "the table is made at full size")
		require.NoError(t, os.WriteFile(developers, []byte(withTable(string(text), figures)), 0o644))
		return
	}
	written := tableOf(string(text))
	for _, f := range figures {
		cell, found := written[f.name]
		require.True(t, found, "DEVELOPERS.md has no row %q. Write it anew with -homes %d -update", f.name, atFullSize)
		if *homes == atFullSize {
			assert.Equal(t, f.said(), cell, f.name)
			continue
		}
		number, _, _ := strings.Cut(cell, " ")
		value, err := strconv.ParseFloat(number, 64)
		require.NoError(t, err, f.name)
		assert.InDelta(t, value, f.value, f.luck+0.5*math.Pow10(-f.decimals), f.name)
	}
}

var row = regexp.MustCompile(`(?m)^\| (.*?) \| (.*?) ?\| (.*?) ?\|$`)

// tableOf returns the measured values of the table by the names of its rows.
func tableOf(text string) map[string]string {
	cells := map[string]string{}
	for _, r := range row.FindAllStringSubmatch(text, -1) {
		cells[r[1]] = r[3]
	}
	return cells
}

const tableHead = "| figure | asked or stated | measured |\n| --- | --- | --- |\n"

// withTable puts the figures in the place of the table.
func withTable(text string, figures []figure) string {
	before, rest, _ := strings.Cut(text, tableHead)
	_, after, _ := strings.Cut(rest, "\n\n")
	var b strings.Builder
	for _, f := range figures {
		fmt.Fprintf(&b, "| %s | %s | %s |\n", f.name, f.asked, f.said())
	}
	return before + tableHead + b.String() + "\n" + after
}
