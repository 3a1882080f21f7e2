package settings

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

var vehicles = rowsOf[delivery.Vehicle]{
	id: "vehicles", what: "vehicle",
	get: func(p delivery.Programme) []delivery.Vehicle { return p.Vehicles },
	set: func(p *delivery.Programme, rows []delivery.Vehicle) { p.Vehicles = rows },
	says: func(p delivery.Programme, v delivery.Vehicle) (string, string) {
		depot := v.Depot
		if s, ok := p.Site(v.Depot); ok {
			depot = s.Title
		}
		pair := ""
		if v.Pair {
			pair = "two on board"
		}
		return v.Name, join(depot, v.Driver, v.From+" to "+v.Until, room(v),
			strings.Join(v.Languages, ", "), pair, delivery.Breaks(v.Breaks), strings.Join(v.Papers, ", "))
	},
	asks:  vehicleFields,
	read:  vehicle,
	blank: func(delivery.Programme) delivery.Vehicle { return delivery.Vehicle{From: "08:00", Until: "18:00"} },
}

func vehicleFields(p delivery.Programme, v delivery.Vehicle) []ask.Field {
	var from []ask.Option
	for _, s := range p.Depots {
		from = append(from, ask.Option{Value: s.Name, Label: s.Title})
	}
	pair, pieces, kg, space := "no", "", "", ""
	if v.Pair {
		pair = "yes"
	}
	if v.Name != "" {
		pieces, kg = fmt.Sprint(v.Pieces), decimals(v.Kg)
	}
	if v.Litres > 0 {
		space = decimals(v.Litres)
	}
	return []ask.Field{
		{Key: "name", Label: "Name", Value: v.Name, Hint: "runs and facts refer to it; it stays"},
		{Key: "depot", Label: "Starts from", Kind: ask.Pick, Options: from, Value: v.Depot},
		{Key: "driver", Label: "Driver", Value: v.Driver},
		{Key: "from", Label: "Shift from", Value: v.From},
		{Key: "until", Label: "Shift until", Value: v.Until},
		{Key: "pieces", Label: "Pieces", Kind: ask.Number, Value: pieces, Hint: "things it carries at once"},
		{Key: "kg", Label: "Cylinders", Kind: ask.Number, Unit: "kg", Value: kg, Hint: "gross mass it may carry; transport rules and local codes decide"},
		{Key: "litres", Label: "Load space", Kind: ask.Number, Unit: "l", Value: space, Hint: "litres; blank: not reckoned with"},
		{Key: "breaks", Label: "Breaks", Value: delivery.Breaks(v.Breaks), Hint: "when each may begin and how long, as 12:00-13:30 30 min; 17:00-18:00 15 min"},
		{Key: "papers", Label: "On board", Value: strings.Join(v.Papers, ", "), Hint: "papers and signs, as shipping paper, emergency guide; see Transport"},
		{Key: "trained", Label: "Driver trained", Value: v.Trained, Hint: "the day of the last training, as 2026-03-06"},
		{Key: "languages", Label: "Languages", Value: strings.Join(v.Languages, ", "), Hint: "spoken on board besides the programme's, with commas between"},
		{Key: "pair", Label: "Two on board", Kind: ask.Pick, Options: ask.YesNo(), Value: pair},
	}
}

func vehicle(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Vehicle {
	v := delivery.Vehicle{
		Name: r.Need("name", "write its name"), Depot: r.Need("depot", "choose the depot; add one under Depots if there is none"),
		Driver: a.Text("driver"), Pair: a.Is("pair", "yes"),
	}
	var err error
	v.From, err = clock(a.Text("from"))
	r.Fail("from", err)
	v.Until, err = clock(a.Text("until"))
	r.Fail("until", err)
	r.Need("pieces", "write how many things it carries")
	r.Need("kg", "write how many kilograms of cylinders it may carry")
	if n := r.Number("pieces", "", 1, 1000); n != nil {
		v.Pieces = int(math.Round(*n))
	}
	if n := r.Number("kg", "kg", 0, 20000); n != nil {
		v.Kg = *n
	}
	if n := r.Number("litres", "l", 1, 100000); n != nil {
		v.Litres = *n
	}
	v.Breaks, err = delivery.ReadBreaks(a.Text("breaks"))
	r.Fail("breaks", err)
	v.Trained, err = date(a.Text("trained"))
	r.Fail("trained", err)
	v.Papers, v.Languages = words(a.Text("papers")), words(a.Text("languages"))
	if len(r.Wrong()) == 0 && v.Until <= v.From {
		r.Fail("until", errors.New("the shift ends before it begins"))
	}
	return v
}

// room says what a vehicle carries at once.
func room(v delivery.Vehicle) string {
	says := fmt.Sprintf("%d pieces, %s kg of cylinders", v.Pieces, decimals(v.Kg))
	if v.Litres > 0 {
		says += ", " + decimals(v.Litres) + " l"
	}
	return says
}

// words are what stands between commas, without blanks around.
func words(text string) []string {
	var list []string
	for _, part := range parts(text) {
		list = append(list, strings.TrimSpace(part))
	}
	return list
}

// date reads a day; nothing gives none.
func date(text string) (string, error) {
	if text == "" {
		return "", nil
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return "", fmt.Errorf("“%s” is not a day: write it as 2026-03-06", text)
	}
	return day.Format(time.DateOnly), nil
}
