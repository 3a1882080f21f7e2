package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// NewBeside returns a part of a fixed width, in points at the ordinary text
// size, and beside it the main part with all that is left.
func NewBeside(part fyne.CanvasObject, width float32, main fyne.CanvasObject) fyne.CanvasObject {
	return container.NewBorder(nil, nil, container.New(fixedWidth(width), part), nil, main)
}

// fixedWidth is as wide as it says and as high as there is room.
type fixedWidth float32

func (w fixedWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(float32(w)*float32(themeSizes().scale), objects[0].MinSize().Height)
}

func (fixedWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }
