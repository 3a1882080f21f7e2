package settings

import (
	"slices"
	"strconv"

	"lungwort/delivery"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// sizes are the programme's own sizes of cylinders, beside those that come with
// the program.
var sizes = rowsOf[gas.Size]{
	id: "sizes", what: "size",
	get: func(p delivery.Programme) []gas.Size { return p.Sizes },
	set: func(p *delivery.Programme, rows []gas.Size) { p.Sizes = rows },
	says: func(_ delivery.Programme, s gas.Size) (string, string) {
		return string(s.Code), join(s.Sources(), s.Valve)
	},
	asks: func(_ delivery.Programme, s gas.Size) []ask.Field {
		valve := ask.Field{Key: "valve", Label: "Valve", Kind: ask.Pick, Value: s.Valve}
		for _, v := range gas.Valves() {
			valve.Options = append(valve.Options, ask.Option{Value: v, Label: v})
		}
		return []ask.Field{
			{Key: "name", Label: "Region", Value: s.Region, Hint: "in one word, as US: one letter is another cylinder elsewhere"},
			{Key: "letter", Label: "Letter", Value: s.Letter, Hint: "as people call it, as E"},
			{Key: "contents", Label: "Holds", Value: figure(float64(s.Contents), " L"), Hint: "full, as its label says: 682 L"},
			{Key: "full", Label: "Full at", Kind: ask.Gauge, Value: figure(s.Service.PSI(), ""), Hint: "stamped on its shoulder"},
			{Key: "water", Label: "Water volume", Value: figure(s.WaterVolume, " L"), Hint: "as 4.6 L; empty: not known"},
			{Key: "empty", Label: "Empty mass", Value: figure(s.EmptyMass, " kg"), Hint: "with its valve, as 3.6 kg; empty: not known. Vehicles are loaded by it"},
			valve,
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) gas.Size {
		r.Need("contents", "write what a full one holds, as 682 L")
		r.Need("full", "write what the gauge of a full one shows")
		entered := delivery.SetSize{Region: r.Need("name", "write the region, as US"), Letter: r.Need("letter", "write the letter, as E"), Valve: a.Text("valve")}
		if l := litres(r, "contents"); l != nil {
			entered.Contents = *l
		}
		if full := r.Gauge("full"); full != nil {
			entered.Full = *full
		}
		entered.Water = litres(r, "water")
		if text := a.Text("empty"); text != "" {
			kg, err := gas.ParseKilograms(text)
			r.Fail("empty", err)
			entered.Empty = &kg
		}
		size, err := entered.Size()
		if len(r.Wrong()) == 0 {
			r.Fail("contents", err)
		}
		return size
	},
}

// litres returns an amount; nil when none is written.
func litres(r *ask.Reader, key string) *gas.Litres {
	if r.Text(key) == "" {
		return nil
	}
	l, err := gas.ParseLitres(r.Text(key))
	r.Fail(key, err)
	return &l
}

// figure writes a number of a size, and nothing where none is known.
func figure(v float64, unit string) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + unit
}

// sized are the codes of sizes that are not there any more.
func dropped(before, after gas.Table) []gas.SizeCode {
	var gone []gas.SizeCode
	for _, s := range before {
		_, shipped := gas.LookUp(s.Code)
		if !shipped && !slices.ContainsFunc(after, func(o gas.Size) bool { return o.Code == s.Code }) {
			gone = append(gone, s.Code)
		}
	}
	return gone
}
