package person

import (
	"strconv"

	"fyne.io/fyne/v2"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// turnKey shows the gas as a table, and as the chart again. No name or street
// is found by it.
const turnKey = '+'

// gas makes the chart and the table that stands in its place.
func (v *View) gas() {
	v.chart = widgets.NewChart(fyne.NewSize(300, 170), func(w, h float64) scene.Scene {
		data := v.model.Page.Chart
		data.Hint = string(turnKey) + " table"
		return scene.GasChart(data, w, h)
	})
	v.chart.OnSpot = func(key string) {
		if key == scene.HintKey {
			v.turn()
			return
		}
		v.facts.Rows.Take(key)
	}
	v.table = widgets.NewLowRows([]widgets.Column{
		{Title: string(turnKey) + " chart", Width: 120},
		{Title: "gas in the home"},
		{Title: "litres at 70 °F", Width: 170, Right: true},
	}, "No gauge has been read yet.")
	v.table.OnOpen = func(id string) {
		if i, err := strconv.Atoi(id); err == nil {
			v.facts.Rows.Take(v.model.Page.Chart.Rows()[i].Key)
		}
	}
	v.table.Hide()
}

// turn shows the table in the place of the chart, or the chart again, and
// gives it the keyboard.
func (v *View) turn() {
	if v.picture.Hidden {
		return
	}
	v.chart.Hidden, v.table.Hidden = !v.chart.Hidden, !v.table.Hidden
	v.picture.Refresh()
	win := widgets.WindowOf(v.content)
	switch {
	case win == nil:
	case v.table.Hidden:
		win.Canvas().Focus(v.chart)
	default:
		win.Canvas().Focus(v.table.Keyboard())
	}
}

// press does what a key does anywhere on the page.
func (v *View) press(key rune) bool {
	if key == turnKey {
		v.turn()
		return true
	}
	return v.actions.Press(key)
}

func gasRows(data scene.ChartData) []widgets.Row {
	rows := data.Rows()
	list := make([]widgets.Row, len(rows))
	for i, r := range rows {
		list[i] = widgets.Row{ID: strconv.Itoa(i), Find: r.What, Cells: []widgets.Cell{
			{Text: r.When()}, {Text: r.What, Ink: r.Ink}, {Text: r.Litres},
		}}
	}
	return list
}
