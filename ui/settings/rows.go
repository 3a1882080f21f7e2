package settings

import (
	"slices"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// list is a setting of several rows: depots, vehicles, the rota.
type list interface {
	key() string
	thing() string // what one row is, "depot"
	most() int     // rows it can have; 0: any number
	size(delivery.Programme) int
	show(p delivery.Programme, i int) (name, says string)
	// fields asks for row i; one past the end is a new row.
	fields(p delivery.Programme, i int) []ask.Field
	// put writes row i; one past the end is a new row.
	put(p *delivery.Programme, i int, a ask.Answers) ask.Wrong
	drop(p *delivery.Programme, i int)
}

// rowsOf is a list of rows of one type.
type rowsOf[T any] struct {
	id, what string
	limit    int
	get      func(delivery.Programme) []T
	set      func(*delivery.Programme, []T)
	says     func(delivery.Programme, T) (name, says string)
	asks     func(delivery.Programme, T) []ask.Field
	read     func(r *ask.Reader, p delivery.Programme, a ask.Answers) T
	// blank is what a new row begins with; nil: nothing.
	blank func(delivery.Programme) T
}

func (l rowsOf[T]) key() string                   { return l.id }
func (l rowsOf[T]) thing() string                 { return l.what }
func (l rowsOf[T]) most() int                     { return l.limit }
func (l rowsOf[T]) size(p delivery.Programme) int { return len(l.get(p)) }

func (l rowsOf[T]) show(p delivery.Programme, i int) (string, string) {
	return l.says(p, l.get(p)[i])
}

func (l rowsOf[T]) fields(p delivery.Programme, i int) []ask.Field {
	if rows := l.get(p); i < len(rows) {
		return l.asks(p, rows[i])
	}
	var row T
	if l.blank != nil {
		row = l.blank(p)
	}
	return l.asks(p, row)
}

func (l rowsOf[T]) put(p *delivery.Programme, i int, a ask.Answers) ask.Wrong {
	r := ask.Read(a)
	row := l.read(r, *p, a)
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	rows := slices.Clone(l.get(*p)) // what is in force keeps its own
	if i >= len(rows) {
		rows = append(rows, row)
	} else {
		rows[i] = row
	}
	l.set(p, rows)
	return nil
}

func (l rowsOf[T]) drop(p *delivery.Programme, i int) {
	if rows := l.get(*p); i < len(rows) {
		l.set(p, slices.Delete(slices.Clone(rows), i, i+1))
	}
}
