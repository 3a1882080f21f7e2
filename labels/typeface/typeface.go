// Package typeface holds the two fonts that screen and paper share, so that a
// sign that shows on the screen also prints.
package typeface

import _ "embed"

// Regular is DejaVu Sans, a TrueType font, as a file's bytes.
//
//go:embed DejaVuSans.ttf
var Regular []byte

// Bold is DejaVu Sans Bold, a TrueType font, as a file's bytes.
//
//go:embed DejaVuSans-Bold.ttf
var Bold []byte
