package person

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// columns puts two columns side by side, each half of the width, whatever
// their own widths ask for.
type columns struct{}

func (columns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

func (columns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	gap := 3 * theme.Padding()
	half := (size.Width - gap) / 2
	for i, o := range objects {
		o.Move(fyne.NewPos(float32(i)*(half+gap), 0))
		// Twice: what stands in a column learns its width before its height.
		for range 2 {
			o.Resize(fyne.NewSize(half, size.Height))
		}
	}
}

// stacked puts the kit, the chart and the timeline over each other: the kit as
// high as its rows, up to five, and the timeline with what is left.
type stacked struct{ view *View }

const (
	kitHead, kitRow     = 26, 32
	leastKit, mostKit   = 2, 5
	chartShare, leastFt = 0.31, 150
)

func (*stacked) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size = fyne.NewSize(max(size.Width, o.MinSize().Width), size.Height+o.MinSize().Height)
	}
	return size
}

func (l *stacked) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	rows := min(max(l.view.things.Len(), leastKit), mostKit)
	scale := theme.TextSize() / 13
	heights := []float32{(kitHead + kitRow*float32(rows)) * scale, chartShare * size.Height, 0}
	if !objects[1].Visible() {
		heights[1] = 0
	}
	heights[2] = max(size.Height-heights[0]-heights[1]-2*theme.Padding(), leastFt)
	y := float32(0)
	for i, o := range objects {
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, heights[i]))
		y += heights[i] + theme.Padding()
	}
}
