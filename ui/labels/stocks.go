package labels

import (
	"strings"

	"lungwort/labels/paper"
)

// papers are the kinds of label paper, in the order of paper.Stocks: "A4",
// "Letter", "Roll".
func papers() []string {
	var kinds []string
	for _, s := range paper.Stocks {
		if kind := paperOf(s); len(kinds) == 0 || kinds[len(kinds)-1] != kind {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// paperOf is what a stock's labels are on: the first word of its name.
func paperOf(s paper.Stock) string {
	kind, _, _ := strings.Cut(s.Name, ",")
	return kind
}

// sizeOf is the size of a stock's labels: the last words of its name.
func sizeOf(s paper.Stock) string {
	return strings.TrimSpace(s.Name[strings.LastIndex(s.Name, ",")+1:])
}

// unitOf is the unit a stock's size is given in.
func unitOf(s paper.Stock) string {
	if strings.HasSuffix(s.Name, " in") {
		return "in"
	}
	return "mm"
}

// stocksOn are the stocks on a kind of paper.
func stocksOn(kind string) []paper.Stock {
	var on []paper.Stock
	for _, s := range paper.Stocks {
		if paperOf(s) == kind {
			on = append(on, s)
		}
	}
	return on
}
