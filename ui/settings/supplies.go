package settings

import (
	"fmt"
	"math"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// supplyLevels are under how many of a supply are ordered anew.
var supplyLevels = rowsOf[delivery.SupplyLevel]{
	id: "supplies", what: "supply",
	get: func(p delivery.Programme) []delivery.SupplyLevel { return p.Supplies },
	set: func(p *delivery.Programme, rows []delivery.SupplyLevel) { p.Supplies = rows },
	says: func(_ delivery.Programme, l delivery.SupplyLevel) (string, string) {
		return l.Supply, fmt.Sprintf("order under %d", l.Reorder)
	},
	asks: func(_ delivery.Programme, l delivery.SupplyLevel) []ask.Field {
		level := ""
		if l.Supply != "" {
			level = fmt.Sprint(l.Reorder)
		}
		return []ask.Field{
			{Key: "name", Label: "Supply", Value: l.Supply, Hint: "by the name of the kit lists: cannula"},
			{Key: "level", Label: "Order under", Kind: ask.Number, Value: level, Hint: "so many left in all stores"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, _ ask.Answers) delivery.SupplyLevel {
		l := delivery.SupplyLevel{Supply: r.Need("name", "write what it is called")}
		r.Need("level", "write under how many it is ordered")
		if n := r.Number("level", "", 0, 1e6); n != nil {
			l.Reorder = int(math.Round(*n))
		}
		return l
	},
}
