package paper

import (
	"io"

	"lungwort/labels/scene"
)

// GasSheet is the gas in one home over time: the picture, and the same as a
// table.
type GasSheet struct {
	Head
	Name    string
	Verdict string // empty: not watched
	Says    string
	Do      []string // in order
	Chart   scene.ChartData
}

// gasChartTall is the height of the chart in points.
const gasChartTall = 260

// Print writes the sheet, upright.
func (g GasSheet) Print(w io.Writer) (Result, error) {
	s, err := newSheet(g.Head, g.Format, "Gas sheet", "Gas in the home over time")
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.y += 1
	s.say(heading, g.Name)
	if g.Verdict != "" {
		s.say(body, g.Verdict+": "+g.Says)
	}
	for _, step := range g.Do {
		s.say(body, step)
	}
	s.y += 2
	s.picture(s.left(), s.y, scene.GasChart(g.Chart, float64(s.width())*pointsPerMM, gasChartTall))
	s.y += MM(mm(gasChartTall)) + 4
	columns := []column{{"when", 36}, {"what", s.width() - 96}, {"litres at 70 °F", 60}}
	var rows [][]cell
	for _, r := range g.Chart.Rows() {
		rows = append(rows, []cell{said{rowBold, r.When()}, said{rowFace, r.What}, said{rowFace, r.Litres}})
	}
	s.table(columns, rows)
	return s.finish(w)
}
