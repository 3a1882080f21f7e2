package look

import (
	_ "embed"

	"fyne.io/fyne/v2"
)

//go:embed lungwort.svg
var icon []byte

// Icon is the program's sign: the spotted leaf of the lungwort with its two
// flowers, one still pink, one turned blue.
var Icon fyne.Resource = fyne.NewStaticResource("lungwort.svg", icon)
