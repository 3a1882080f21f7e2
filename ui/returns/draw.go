package returns

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/meter"
	"lungwort/ui/widgets"
)

func (v *View) draw() {
	v.drawing = true
	defer func() { v.drawing = false }()
	m := v.model
	rows := make([]widgets.Row, len(m.Sources))
	for i, s := range m.Sources {
		rows[i] = widgets.Row{ID: s.ID, Find: s.Name, Cells: []widgets.Cell{{Text: s.Name, Below: s.Detail, Bold: true}}}
		if s.ID == m.From {
			rows[i].Cells[0].Ink = scene.Gas
		}
	}
	v.sources.SetRows(rows)
	v.drawHand()
	v.drawColumns()
}

func (v *View) drawHand() {
	m, h := v.model, v.model.Hand
	v.title.SetText(m.Title())
	v.below.SetText(m.Below())
	depots := make([]widgets.Option, len(m.Depots))
	for i, d := range m.Depots {
		depots[i] = widgets.Option{Value: d, Label: d}
	}
	v.depot.SetOptions(depots...)
	v.depot.SetValue(m.Depot)
	options := make([]widgets.Option, 0, len(h.Near)+1)
	for _, item := range h.Near {
		options = append(options, widgets.Option{Value: string(item.ID), Label: item.Label()})
	}
	v.near.SetOptions(append(options, widgets.Option{Value: "stranger", Label: "none of these"})...)
	v.near.SetValue("")
	v.value.PlaceHolder = meter.Asks(h.Item.Spec)
	set(v.value, h.Value)
	set(v.lacks, h.Lacks)
	set(v.owner, h.Owner)
	v.with.Set(h.Item.With, h.With)
	v.drained.SetValue(yesNo(h.Drained))
	v.soiled.SetValue(yesNo(h.Soiled))
	ours, asking := h.Item.ID != "", len(h.Near) > 0
	v.show(v.near, asking)
	v.show(v.value, ours && meter.Asks(h.Item.Spec) != "")
	v.show(v.drained, ours && h.Item.Spec.Kind == inventory.Cylinder)
	v.show(v.soiled, ours)
	v.show(v.with, len(h.Item.With) > 0)
	v.show(v.lacks, ours)
	v.show(v.owner, h.Stranger() && !asking)
	v.drawWrong()
	v.hand.Hidden = h.Empty()
	v.hand.Refresh()
	v.content.Refresh()
}

// drawWrong says what lacks: at the reading where that is what lacks.
func (v *View) drawWrong() {
	h := v.model.Hand
	v.fields[v.value].SetError(nil)
	v.wrong.SetText(h.Wrong)
	if h.Wrong != "" && v.model.Depot != "" && !v.fields[v.value].Hidden {
		v.fields[v.value].SetError(errors.New(h.Wrong))
		v.wrong.SetText("")
	}
	v.wrong.Hidden = v.wrong.Text == ""
}

func yesNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

func set(in *widgets.Text, text string) {
	if in.Text != text {
		in.SetText(text)
	}
}

func (v *View) show(in fyne.CanvasObject, visible bool) { v.fields[in].Hidden = !visible }

func (v *View) drawColumns() {
	r := v.model.Columns()
	lists := [][]inventory.Item{r.Back, r.Missing, r.Extra, nil}
	for i, c := range v.columns {
		var rows []widgets.Row
		for _, item := range lists[i] {
			rows = append(rows, widgets.Row{ID: string(item.ID), Cells: []widgets.Cell{{Text: item.Label(), Below: item.Spec.What(), Bold: true}}})
		}
		if c.name == "Unknown" {
			for n, serial := range r.Unknown {
				rows = append(rows, widgets.Row{ID: fmt.Sprint(n), Cells: []widgets.Cell{{Text: serial, Below: "kept apart", Bold: true}}})
			}
		}
		c.head.SetText(c.name)
		if len(rows) > 0 {
			c.head.SetText(fmt.Sprintf("%s  %d", c.name, len(rows)))
		}
		if c.name == missing {
			c.rows.SetEmpty(v.model.noneMissing())
		}
		c.rows.SetRows(rows)
	}
}
