package paper

import "lungwort/labels/scene"

// column is a column of a table.
type column struct {
	heading string
	width   MM
}

// inside is the width of a column's inside in points, for a scene drawn in it.
func (c column) inside() float64 { return float64(c.width-2*cellPad) * pointsPerMM }

// cell is what stands in one field of a table.
type cell interface {
	height(d *document, width MM) MM
	draw(d *document, x, y, width MM)
}

// cellLines bounds a cell: a row must never outgrow its page, and the mark at
// the cut sends the reader to the book.
const cellLines = 10

// said is text in a cell, broken to its width.
type said struct {
	face face
	text string
}

func (c said) height(d *document, width MM) MM {
	return MM(len(d.lines(c.face, c.text, width, cellLines))) * c.face.leading()
}

func (c said) draw(d *document, x, y, width MM) {
	d.paragraph(x, y, c.face, width, c.text, cellLines)
}

// ticked is a box to tick, with text beside it.
type ticked struct{ said }

const tickGap MM = 1.5

func (c ticked) height(d *document, width MM) MM {
	return max(tickSide+0.5, c.said.height(d, width-tickSide-tickGap))
}

func (c ticked) draw(d *document, x, y, width MM) {
	d.tick(x, y+0.2)
	c.said.draw(d, x+tickSide+tickGap, y+0.3, width-tickSide-tickGap)
}

// coded is a QR code of the given side.
type coded struct {
	payload string
	side    MM
}

func (c coded) height(*document, MM) MM {
	if c.payload == "" {
		return 0
	}
	return c.side
}

func (c coded) draw(d *document, x, y, _ MM) {
	if c.payload != "" {
		d.code(x, y, c.side, c.payload)
	}
}

// drawn is a picture; scenes bring their own size.
type drawn struct{ scene.Scene }

func (c drawn) height(*document, MM) MM { return MM(mm(c.H)) }

func (c drawn) draw(d *document, x, y, _ MM) { d.picture(x, y, c.Scene) }

// beside is a picture with words to its right.
type beside struct {
	drawn
	said
}

func (c beside) height(d *document, width MM) MM {
	return max(c.drawn.height(d, width), c.said.height(d, width-c.shift()))
}

func (c beside) draw(d *document, x, y, width MM) {
	c.drawn.draw(d, x, y, 0)
	c.said.draw(d, x+c.shift(), y-0.2, width-c.shift())
}

func (c beside) shift() MM { return MM(mm(c.W)) + tickGap }

// space is left free to write in by hand.
type space struct{ tall MM }

func (c space) height(*document, MM) MM { return c.tall }

func (c space) draw(*document, MM, MM, MM) {}

// stack is cells on top of each other.
type stack []cell

func (c stack) height(d *document, width MM) MM {
	var sum MM
	for _, part := range c {
		sum += part.height(d, width)
	}
	return sum
}

func (c stack) draw(d *document, x, y, width MM) {
	for _, part := range c {
		part.draw(d, x, y, width)
		y += part.height(d, width)
	}
}

const (
	cellPad   MM = 1.2
	tableRule MM = 0.25
)

// table draws rows under a header that is repeated on every page the table
// reaches. A row stays on one page.
func (s *sheet) table(columns []column, rows [][]cell) {
	headed := false
	for _, row := range rows {
		tall := s.rowHeight(columns, row)
		if !headed {
			s.need(s.headerHeight() + tall)
		}
		if s.need(tall) || !headed {
			s.tableHeader(columns)
			headed = true
		}
		s.tableRow(columns, row, tall)
	}
}

func (s *sheet) headerHeight() MM { return caption.leading() + 2*cellPad - 0.8 }

func (s *sheet) tableHeader(columns []column) {
	x, tall := s.left(), s.headerHeight()
	s.ground(x, s.y, s.spread(columns), tall, light)
	for _, c := range columns {
		s.fitted(x+cellPad, s.y+cellPad-0.4, caption, c.width-cellPad, c.heading)
		x += c.width
	}
	s.rule(s.left(), s.y+tall, x, s.y+tall, 2*tableRule, black)
	s.y += tall
}

func (s *sheet) spread(columns []column) MM {
	var sum MM
	for _, c := range columns {
		sum += c.width
	}
	return sum
}

func (s *sheet) rowHeight(columns []column, row []cell) MM {
	var tall MM
	for i, c := range row {
		tall = max(tall, c.height(s.document, columns[i].width-2*cellPad))
	}
	return tall + 2*cellPad
}

func (s *sheet) tableRow(columns []column, row []cell, tall MM) {
	x := s.left()
	for i, c := range row {
		c.draw(s.document, x+cellPad, s.y+cellPad, columns[i].width-2*cellPad)
		x += columns[i].width
		if i < len(row)-1 {
			s.rule(x, s.y, x, s.y+tall, tableRule, 170)
		}
	}
	s.y += tall
	s.rule(s.left(), s.y, x, s.y, tableRule, black)
}
