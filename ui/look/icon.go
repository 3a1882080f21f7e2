package look

import (
	_ "embed"

	"fyne.io/fyne/v2"
)

//go:embed lungwort.svg
var icon []byte

// Icon is the program's sign: the spotted leaf of the lungwort and its flower.
// It is made of fills alone, since the toolkit does not scale the width of a
// stroke with the picture.
var Icon fyne.Resource = fyne.NewStaticResource("lungwort.svg", icon)
