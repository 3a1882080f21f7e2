package history_test

import (
	"fyne.io/fyne/v2"

	"lungwort/ui/history"
)

// screen is a screen that holds a timeline alone.
type screen struct{ view *history.View }

func (s screen) Content() fyne.CanvasObject { return s.view.Content() }
func (s screen) Keyboard() fyne.Focusable   { return s.view.Rows.Keyboard() }
