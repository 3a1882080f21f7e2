package labels

import (
	"slices"
	"strings"

	"lungwort/labels/paper"
)

// ownPaper is the kind of the programme's own label papers.
const ownPaper = "Own"

// papers are the kinds of label paper, in the order of paper.Stocks: "A4",
// "Letter", "Roll", and "Own" where the programme has some.
func (m *Model) papers() []string {
	var kinds []string
	for _, s := range slices.Concat(paper.Stocks, m.own) {
		if kind := m.paperOf(s); !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// paperOf is what a stock's labels are on: the first word of its name, unless
// it is the programme's own.
func (m *Model) paperOf(s paper.Stock) string {
	if m.isOwn(s) {
		return ownPaper
	}
	kind, _, _ := strings.Cut(s.Name, ",")
	return kind
}

func (m *Model) isOwn(s paper.Stock) bool {
	return slices.ContainsFunc(m.own, func(own paper.Stock) bool { return own.Name == s.Name })
}

// sizeOf is the size of a stock's labels: the last words of its name; one of
// the programme's own goes by its name.
func (m *Model) sizeOf(s paper.Stock) string {
	if m.isOwn(s) {
		return s.Name
	}
	size := strings.TrimSpace(s.Name[strings.LastIndex(s.Name, ",")+1:])
	return strings.TrimSuffix(size, " "+unitOf(s))
}

// unitOf is the unit a stock's size is given in.
func unitOf(s paper.Stock) string {
	if strings.HasSuffix(s.Name, " in") {
		return "in"
	}
	return "mm"
}

// stocksOn are the stocks on a kind of paper.
func (m *Model) stocksOn(kind string) []paper.Stock {
	var on []paper.Stock
	for _, s := range slices.Concat(paper.Stocks, m.own) {
		if m.paperOf(s) == kind {
			on = append(on, s)
		}
	}
	return on
}
