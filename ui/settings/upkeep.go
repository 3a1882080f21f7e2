package settings

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// upkeepRules are the maintenance things need.
var upkeepRules = rowsOf[delivery.UpkeepRule]{
	id: "upkeep", what: "maintenance",
	get: func(p delivery.Programme) []delivery.UpkeepRule { return p.Upkeep },
	set: func(p *delivery.Programme, rows []delivery.UpkeepRule) { p.Upkeep = rows },
	says: func(_ delivery.Programme, r delivery.UpkeepRule) (string, string) {
		var every []string
		if r.Hours > 0 {
			every = append(every, fmt.Sprintf("every %s h", decimals(r.Hours)))
		}
		if r.Days > 0 {
			every = append(every, fmt.Sprintf("every %d days", r.Days))
		}
		return r.What, join(strings.TrimSpace(string(r.Kind)+" "+r.Model), strings.Join(every, " or "))
	},
	asks: func(_ delivery.Programme, r delivery.UpkeepRule) []ask.Field {
		var kinds []ask.Option
		for _, k := range inventory.Kinds() {
			kinds = append(kinds, ask.Option{Value: string(k), Label: string(k)})
		}
		hours, days := "", ""
		if r.Hours > 0 {
			hours = decimals(r.Hours)
		}
		if r.Days > 0 {
			days = fmt.Sprint(r.Days)
		}
		return []ask.Field{
			{Key: "name", Label: "What", Value: r.What, Hint: "inner filter, service: as the maker's manual calls it"},
			{Key: "kind", Label: "Of a", Kind: ask.Pick, Options: kinds, Value: string(r.Kind)},
			{Key: "model", Label: "Model", Value: r.Model, Hint: "empty: every model"},
			{Key: "hours", Label: "Every", Kind: ask.Number, Unit: "h", Value: hours, Hint: "of the meter; empty: not by hours"},
			{Key: "days", Label: "or every", Kind: ask.Number, Unit: "days", Value: days, Hint: "empty: not by date"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.UpkeepRule {
		rule := delivery.UpkeepRule{What: r.Need("name", "write what is done"), Kind: inventory.Kind(a.Text("kind")), Model: a.Text("model")}
		if !slices.Contains(inventory.Kinds(), rule.Kind) {
			r.Fail("kind", errors.New("choose what it is done to"))
		}
		if n := r.Number("hours", "h", 1, 1e6); n != nil {
			rule.Hours = *n
		}
		if n := r.Number("days", "days", 1, 36500); n != nil {
			rule.Days = int(math.Round(*n))
		}
		if rule.Hours == 0 && rule.Days == 0 && len(r.Wrong()) == 0 {
			r.Fail("hours", errors.New("write how often: by hours, by days, or both"))
		}
		return rule
	},
}
