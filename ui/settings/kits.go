package settings

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// kits are the lists a person's kit is built from. A list is written as
// "1 concentrator, 2 cylinder US-E".
var kits = rowsOf[delivery.Kit]{
	id: "kits", what: "kit list",
	get: func(p delivery.Programme) []delivery.Kit { return p.Kits },
	set: func(p *delivery.Programme, rows []delivery.Kit) { p.Kits = rows },
	says: func(_ delivery.Programme, k delivery.Kit) (string, string) {
		upto := ""
		if k.Upto > 0 {
			upto = "up to " + k.Upto.String()
		}
		return k.Name, join(upto, writeItems(k.Items), writeSupplies(k.Supplies))
	},
	asks: func(_ delivery.Programme, k delivery.Kit) []ask.Field {
		upto := ""
		if k.Upto > 0 {
			upto = k.Upto.String()
		}
		return []ask.Field{
			{Key: "name", Label: "Name", Value: k.Name},
			{Key: "upto", Label: "Up to", Kind: ask.Flow, Value: upto, Hint: "the highest ordered flow it is for; empty: any. The first list that fits is taken"},
			{Key: "items", Label: "Items", Value: writeItems(k.Items), Hint: "as 1 concentrator, 2 cylinder US-E, 1 regulator"},
			{Key: "supplies", Label: "Supplies", Value: writeSupplies(k.Supplies), Hint: "as 2 cannula, 1 extension tubing"},
		}
	},
	read: func(r *ask.Reader, p delivery.Programme, a ask.Answers) delivery.Kit {
		k := delivery.Kit{Name: r.Need("name", "write what the list is called")}
		if upto := r.Flow("upto"); upto != nil {
			k.Upto = *upto
		}
		var err error
		r.Need("items", "write at least one item")
		k.Items, err = readItems(p.Sizes, a.Text("items"))
		r.Fail("items", err)
		k.Supplies, err = readSupplies(a.Text("supplies"))
		r.Fail("supplies", err)
		return k
	},
}

// substitutes are what goes out in place of a cylinder of which none is ready.
var substitutes = rowsOf[delivery.Instead]{
	id: "instead", what: "substitute",
	get: func(p delivery.Programme) []delivery.Instead { return p.Instead },
	set: func(p *delivery.Programme, rows []delivery.Instead) { p.Instead = rows },
	says: func(_ delivery.Programme, i delivery.Instead) (string, string) {
		return "no " + string(i.Of) + " ready", fmt.Sprintf("%d %s instead", i.Count, i.Take)
	},
	asks: func(_ delivery.Programme, i delivery.Instead) []ask.Field {
		take := ""
		if i.Count > 0 {
			take = fmt.Sprintf("%d %s", i.Count, i.Take)
		}
		return []ask.Field{
			{Key: "of", Label: "In place of a", Value: string(i.Of), Hint: "region and letter, as US-M60"},
			{Key: "take", Label: "Take", Value: take, Hint: "as 3 US-E; the bridge and the cover are worked out with what goes out"},
		}
	},
	read: func(r *ask.Reader, p delivery.Programme, a ask.Answers) delivery.Instead {
		size := func(key, text string) gas.SizeCode {
			found, known := p.Sizes.LookUp(gas.SizeCode(strings.TrimSpace(text)))
			if !known {
				r.Fail(key, fmt.Errorf("“%s” is no size of cylinder: write region and letter, as US-E", text))
			}
			return found.Code
		}
		i := delivery.Instead{Of: size("of", a.Text("of"))}
		n, what, err := counted(a.Text("take"))
		r.Fail("take", err)
		if err == nil {
			i.Count, i.Take = n, size("take", what)
		}
		return i
	},
}

func writeItems(items []delivery.Wanted) string {
	words := make([]string, len(items))
	for i, w := range items {
		words[i] = strings.TrimSpace(fmt.Sprintf("%d %s %s", w.Count, w.Kind, w.Size))
		if w.Rated > 0 {
			words[i] += " " + w.Rated.String()
		}
	}
	return strings.Join(words, ", ")
}

func writeSupplies(supplies []inventory.Handful) string {
	words := make([]string, len(supplies))
	for i, s := range supplies {
		words[i] = fmt.Sprintf("%d %s", s.Count, s.Supply)
	}
	return strings.Join(words, ", ")
}

// counted reads "2 cannula" as 2 and "cannula".
func counted(text string) (int, string, error) {
	number, what, _ := strings.Cut(strings.TrimSpace(text), " ")
	n, err := strconv.Atoi(number)
	if what = strings.TrimSpace(what); err != nil || n < 1 || n > 100 || what == "" {
		return 0, "", fmt.Errorf("“%s” does not say how many of what: write it as 2 cannula", strings.TrimSpace(text))
	}
	return n, what, nil
}

func readItems(sizes gas.Table, text string) ([]delivery.Wanted, error) {
	var items []delivery.Wanted
	for _, part := range parts(text) {
		n, what, err := counted(part)
		if err != nil {
			return nil, err
		}
		w := delivery.Wanted{Count: n}
		kind, more, _ := strings.Cut(what, " ")
		w.Kind = inventory.Kind(strings.ToLower(kind))
		if !slices.Contains(inventory.Kinds(), w.Kind) {
			return nil, fmt.Errorf("“%s” is no kind of item: write concentrator, cylinder, regulator or oximeter", kind)
		}
		if err := detail(sizes, &w, strings.TrimSpace(more)); err != nil {
			return nil, err
		}
		items = append(items, w)
	}
	return items, nil
}

// detail reads the size of a cylinder, or the flow a concentrator must give.
func detail(sizes gas.Table, w *delivery.Wanted, text string) (err error) {
	switch {
	case w.Kind == inventory.Cylinder:
		size, ok := sizes.LookUp(gas.SizeCode(text))
		if !ok {
			return fmt.Errorf("“%s” is no size of cylinder: write region and letter, as US-E", text)
		}
		w.Size = size.Code
	case text == "":
	case w.Kind == inventory.Concentrator:
		w.Rated, err = gas.ParseFlow(text)
	default:
		return fmt.Errorf("“%s” can't be said of a %s", text, w.Kind)
	}
	return err
}

func readSupplies(text string) ([]inventory.Handful, error) {
	var supplies []inventory.Handful
	for _, part := range parts(text) {
		n, what, err := counted(part)
		if err != nil {
			return nil, err
		}
		supplies = append(supplies, inventory.Handful{Supply: what, Count: n})
	}
	return supplies, nil
}

// parts are what stands between the commas.
func parts(text string) []string {
	return slices.DeleteFunc(strings.Split(text, ","), func(s string) bool { return strings.TrimSpace(s) == "" })
}
