package gas

import (
	"fmt"
	"slices"
)

// amountUnit is a unit of an amount of gas or of mass, and how much of the
// first unit it is.
type amountUnit struct {
	spellings []string
	is        float64
}

var (
	litreUnits = []amountUnit{
		{[]string{"l", "litre", "litres", "liter", "liters"}, 1},
		{[]string{"ml", "cc", "millilitres", "milliliters"}, 1e-3},
		{[]string{"m3", "m³", "cubic metres", "cubic meters"}, 1000},
		{[]string{"ft3", "ft³", "cu ft", "cuft", "cf", "cubic feet"}, 28.316846592}, // NIST SP 811, appendix B.8
	}
	massUnits = []amountUnit{
		{[]string{"kg", "kilo", "kilos", "kilogram", "kilograms"}, 1},
		{[]string{"g", "gram", "grams"}, 1e-3},
		{[]string{"lb", "lbs", "pound", "pounds"}, kilogramsPerPound},
		{[]string{"oz", "ounce", "ounces"}, kilogramsPerPound / 16},
	}
)

// The most that is read: ten of the largest cylinders, and a full vessel of
// liquid oxygen on its cart.
const (
	mostLitres    = 200_000
	mostKilograms = 500
)

// ParseLitres reads an amount of gas or a volume: "682 L", "0,55 m3",
// "244 ft3", "16.5 mL". A number without a unit, and one whose separator can be
// read in two ways, come back as a *Question; less gas is the careful side.
func ParseLitres(text string) (Litres, error) {
	values, err := parseAmount(text, litreUnits, mostLitres, "an amount of gas", "682 L")
	if err != nil || len(values) == 1 {
		return Litres(first(values)), err
	}
	q := &Question{Text: text, Asks: "is the mark between thousands or before decimals?"}
	for _, v := range values {
		q.Candidates = append(q.Candidates, Candidate{Says: trimmed(v, 3) + " L", Litres: Litres(v)})
	}
	return 0, q // the first is the smaller
}

// ParseMillilitres reads the bolus of a pulse device, "16.5 mL".
func ParseMillilitres(text string) (Millilitres, error) {
	l, err := ParseLitres(text)
	return Millilitres(l * 1000), err
}

// ParseKilograms reads a mass: "38 kg", "84 lb", "38,5 kg". What is unclear
// comes back as a *Question as from ParseLitres; no candidate is careful, since
// a scale shows what is full and a plate what is empty.
func ParseKilograms(text string) (Kilograms, error) {
	values, err := parseAmount(text, massUnits, mostKilograms, "a mass", "38 kg")
	if err != nil || len(values) == 1 {
		return Kilograms(first(values)), err
	}
	q := &Question{Text: text, Asks: "is the mark between thousands or before decimals?", Careful: noneCareful}
	for _, v := range values {
		q.Candidates = append(q.Candidates, Candidate{Says: trimmed(v, 3) + " kg", Mass: Kilograms(v)})
	}
	return 0, q
}

// parseAmount returns what a number with one of units behind it can mean, in
// the first unit and from the least up.
func parseAmount(text string, units []amountUnit, most float64, what, example string) ([]float64, error) {
	number, unit := splitNumeral(tidy(text))
	n, err := readNumeral(number)
	if err != nil {
		return nil, fmt.Errorf("%q is not %s. Write it as %s", text, what, example)
	}
	if unit == "" && n.decimal != 0 {
		return nil, ask(text, "in which unit? Write it as "+example)
	}
	is := 1.0
	if unit != "" {
		i := slices.IndexFunc(units, func(u amountUnit) bool { return slices.Contains(u.spellings, unit) })
		if i < 0 {
			return nil, fmt.Errorf("%q: %q is not a unit here. Write it as %s", text, unit, example)
		}
		is = units[i].is
	}
	values := []float64{n.decimal * is}
	if n.open() {
		values = append(values, n.grouped*is)
	}
	values = slices.DeleteFunc(values, func(v float64) bool { return !(v >= 0) || v > most })
	if len(values) == 0 {
		return nil, fmt.Errorf("%q is outside 0 to %s %s. Check the number and its unit", text, grouped(most), units[0].spellings[0])
	}
	return values, nil
}

func first(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	return values[0]
}
