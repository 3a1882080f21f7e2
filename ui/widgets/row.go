package widgets

import (
	"strings"

	"fyne.io/fyne/v2/theme"

	"lungwort/labels/scene"
)

// ColumnKind says how a column's cells are drawn.
type ColumnKind int

// The kinds of columns.
const (
	// TextColumn shows a cell's text, and below it a smaller second line.
	TextColumn ColumnKind = iota
	// VerdictColumn shows the mark and the word of the verdict in a cell's text.
	VerdictColumn
	// PictureColumn shows a cell's drawing at the full height of the row.
	PictureColumn
)

// Column is one column of Rows.
type Column struct {
	Title string
	// Head, when set, is drawn over the column instead of Title.
	Head Drawing
	Kind ColumnKind
	// Width is in points at the ordinary text size. The columns of width 0
	// share what the others leave.
	Width float32
	// Right sets text against the column's right edge, for numbers.
	Right bool
}

// Row is one line of Rows.
type Row struct {
	// ID tells the row apart from the others and stays with it.
	ID string
	// Cells are in the order of the columns.
	Cells []Cell
	// Find is what typing on the list looks for. Empty means the texts of the
	// row's text cells.
	Find string
}

// Cell is one field of a row, its words ready to show.
type Cell struct {
	Text, Below string
	Bold        bool
	// Ink is the colour of Text; empty means ordinary text.
	Ink scene.Ink
	// Draw fills a cell of a PictureColumn.
	Draw Drawing
}

// Space inside a row, in points.
const (
	rowMargin = 12.0
	columnGap = 14.0
)

// span is where a column lies in a row.
type span struct{ x, w float64 }

// What a column that shares the rest gets at least, and to what share of
// their width text columns shrink to give it that on a small screen.
const (
	leastShared = 220.0
	leastText   = 0.6
)

// spans lays out columns over a width.
func spans(columns []Column, width, scale float64) []span {
	free, texts, sharing := width-2*rowMargin-columnGap*float64(max(0, len(columns)-1)), 0.0, 0.0
	for _, c := range columns {
		w := float64(c.Width) * scale
		free -= w
		if c.Width == 0 {
			sharing++
		} else if c.Kind == TextColumn {
			texts += w
		}
	}
	shrunk := 1.0
	if lacking := sharing*leastShared*scale - free; lacking > 0 && texts > 0 {
		shrunk = max(leastText, 1-lacking/texts)
		free += texts * (1 - shrunk)
	}
	out, x := make([]span, len(columns)), rowMargin
	for i, c := range columns {
		w := float64(c.Width) * scale
		switch {
		case c.Width == 0:
			w = max(0, free/sharing)
		case c.Kind == TextColumn:
			w *= shrunk
		}
		out[i] = span{x, w}
		x += w + columnGap
	}
	return out
}

// sizes are the text sizes in use, from the theme.
type sizes struct{ text, small, sub, scale float64 }

// ordinaryText is the text size at which column widths are given.
const ordinaryText = 13

func themeSizes() sizes {
	text := float64(theme.Size(theme.SizeNameText))
	return sizes{
		text:  text,
		small: float64(theme.Size(theme.SizeNameCaptionText)),
		sub:   float64(theme.Size(theme.SizeNameSubHeadingText)),
		scale: text / ordinaryText,
	}
}

// rowScene draws the cells of one row.
func rowScene(columns []Column, row Row, w, h float64, z sizes) scene.Scene {
	s := scene.Scene{W: w, H: h}
	for i, at := range spans(columns, w, z.scale) {
		if i >= len(row.Cells) || at.w <= 0 {
			continue
		}
		cell := row.Cells[i]
		switch columns[i].Kind {
		case PictureColumn:
			if cell.Draw != nil {
				s.Place(cell.Draw(at.w, h), at.x, 0)
			}
		case VerdictColumn:
			verdictCell(&s, cell, at, h, z)
		default:
			textCell(&s, cell, columns[i].Right, at, h, z)
		}
	}
	return s
}

func verdictCell(s *scene.Scene, cell Cell, at span, h float64, z sizes) {
	if cell.Text == "" {
		return
	}
	mark := z.text + 2
	s.Place(scene.VerdictMark(cell.Text, mark), at.x, (h-mark)/2)
	left := mark + 8
	s.Shapes = append(s.Shapes, scene.Words{
		X: at.x + left, Y: h/2 + z.text*0.36, Size: z.text, Bold: true,
		Text: scene.Shortened(cell.Text, z.text, true, at.w-left), Ink: scene.VerdictInk(cell.Text),
	})
}

func textCell(s *scene.Scene, cell Cell, right bool, at span, h float64, z sizes) {
	ink := cell.Ink
	if ink == "" {
		ink = scene.Text
	}
	if cell.Below == "" && h >= tallRow*z.scale {
		if lines := wrapped(cell.Text, z.text, cell.Bold, at.w); len(lines) > 1 {
			s.Shapes = append(s.Shapes,
				aligned(lines[0], z.text, cell.Bold, ink, right, at, h/2-3),
				aligned(strings.Join(lines[1:], " "), z.text, cell.Bold, ink, right, at, h/2+z.text+1))
			return
		}
	}
	first := h/2 + z.text*0.36
	if cell.Below != "" {
		first = h/2 - 3
		s.Shapes = append(s.Shapes, aligned(cell.Below, z.small, false, scene.Faint, right, at, h/2+z.small+2))
	}
	s.Shapes = append(s.Shapes, aligned(cell.Text, z.text, cell.Bold, ink, right, at, first))
}

// aligned is one line of text in a column, cut to its width.
func aligned(text string, size float64, bold bool, ink scene.Ink, right bool, at span, y float64) scene.Words {
	w := scene.Words{X: at.x, Y: y, Size: size, Bold: bold, Ink: ink, Text: scene.Shortened(text, size, bold, at.w)}
	if right {
		w.X, w.Align = at.x+at.w, scene.Right
	}
	return w
}

// headScene draws the titles over the columns. typed is what the person has
// typed to find a row; it stands in place of the first title.
func headScene(columns []Column, typed string, w, h float64, z sizes) scene.Scene {
	s := scene.Scene{W: w, H: h}
	shown := false
	for i, at := range spans(columns, w, z.scale) {
		c := columns[i]
		switch {
		case typed != "" && !shown && c.Kind == TextColumn:
			shown = true
			s.Shapes = append(s.Shapes, aligned("to “"+typed+"”", z.small, true, scene.Text, false, at, h-6))
		case c.Head != nil:
			s.Place(c.Head(at.w, h), at.x, 0)
		case c.Title != "":
			s.Shapes = append(s.Shapes, aligned(c.Title, z.small, false, scene.Faint, c.Right, at, h-6))
		}
	}
	return s
}
