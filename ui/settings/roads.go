package settings

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory/gas"
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
		return v.Name, join(depot, v.Driver, v.From+" to "+v.Until, fmt.Sprintf("%d pieces, %s kg of cylinders", v.Pieces, decimals(v.Kg)),
			strings.Join(v.Languages, ", "), pair)
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
	pair, pieces, kg := "no", "", ""
	if v.Pair {
		pair = "yes"
	}
	if v.Name != "" {
		pieces, kg = fmt.Sprint(v.Pieces), decimals(v.Kg)
	}
	return []ask.Field{
		{Key: "name", Label: "Name", Value: v.Name, Hint: "runs and facts refer to it; it stays"},
		{Key: "depot", Label: "Starts from", Kind: ask.Pick, Options: from, Value: v.Depot},
		{Key: "driver", Label: "Driver", Value: v.Driver},
		{Key: "from", Label: "Shift from", Value: v.From},
		{Key: "until", Label: "Shift until", Value: v.Until},
		{Key: "pieces", Label: "Pieces", Kind: ask.Number, Value: pieces, Hint: "things it carries at once"},
		{Key: "kg", Label: "Cylinders", Kind: ask.Number, Unit: "kg", Value: kg, Hint: "gross mass it may carry; transport rules and local codes decide"},
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
	if len(r.Wrong()) == 0 && v.Until <= v.From {
		r.Fail("until", errors.New("the shift ends before it begins"))
	}
	for _, language := range strings.Split(a.Text("languages"), ",") {
		if language = strings.TrimSpace(language); language != "" {
			v.Languages = append(v.Languages, language)
		}
	}
	return v
}

var ferries = rowsOf[delivery.Ferry]{
	id: "ferries", what: "ferry",
	get: func(p delivery.Programme) []delivery.Ferry { return p.Ferries },
	set: func(p *delivery.Programme, rows []delivery.Ferry) { p.Ferries = rows },
	says: func(_ delivery.Programme, f delivery.Ferry) (string, string) {
		wait := "the wait included"
		if n := len(f.Departs[0]) + len(f.Departs[1]); n > 0 {
			wait = fmt.Sprintf("%d departures a week", n)
		}
		return f.Between[0] + " and " + f.Between[1], join(spell(f.Takes)+", "+wait, decimals(float64(f.Metres)/1000)+" km")
	},
	asks: ferryFields,
	read: ferry,
}

func ferryFields(_ delivery.Programme, f delivery.Ferry) []ask.Field {
	takes, km := "", ""
	if f.Takes > 0 {
		takes, km = spell(f.Takes), decimals(float64(f.Metres)/1000)+" km"
	}
	const quay = "latitude, longitude of the quay; asked for with departures"
	return []ask.Field{
		{Key: "one", Label: "Between", Value: f.Between[0], Hint: "the area, as the places and addresses name it"},
		{Key: "other", Label: "And", Value: f.Between[1]},
		{Key: "takes", Label: "Takes", Value: takes, Hint: "the passage, as 40 min; without departures the wait too"},
		{Key: "far", Label: "Distance", Value: km, Hint: "as 9 km"},
		{Key: "out", Label: "Leaves the first", Value: delivery.Departures(f.Departs[0]), Hint: "as Mon-Fri 07:30 12:00; Sat Sun 09:00, or daily 08:00; blank: at any hour"},
		{Key: "home", Label: "Leaves the other", Value: delivery.Departures(f.Departs[1])},
		{Key: "quay", Label: "First quay", Value: where(f.Ports[0]), Hint: quay},
		{Key: "far quay", Label: "Other quay", Value: where(f.Ports[1]), Hint: quay},
	}
}

func ferry(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Ferry {
	f := delivery.Ferry{Between: [2]string{r.Need("one", "write the area"), r.Need("other", "write the other area")}}
	if f.Between[0] != "" && f.Between[0] == f.Between[1] {
		r.Fail("other", errors.New("a ferry joins two different areas"))
	}
	var err error
	f.Takes, err = gas.ParseDuration(a.Text("takes"))
	r.Fail("takes", err)
	km, err := amount(a.Text("far"), unit{"km", 1}, unit{"mi", 1.609344}, unit{"m", 0.001})
	r.Fail("far", err)
	f.Metres = int64(math.Round(km * 1000))
	for side, key := range []string{"out", "home"} {
		f.Departs[side], err = delivery.ReadDepartures(a.Text(key))
		r.Fail(key, err)
	}
	for side, key := range []string{"quay", "far quay"} {
		f.Ports[side], err = point(a.Text(key))
		r.Fail(key, err)
	}
	return f
}

var slowHours = rowsOf[delivery.SlowHours]{
	id: "slow", what: "slow hours",
	get: func(p delivery.Programme) []delivery.SlowHours { return p.Slow },
	set: func(p *delivery.Programme, rows []delivery.SlowHours) { p.Slow = rows },
	says: func(_ delivery.Programme, s delivery.SlowHours) (string, string) {
		return s.From + " to " + s.Until, join(delivery.Weekdays(s.Days), fmt.Sprintf("driving takes %d %% of the usual time", s.Percent))
	},
	asks: func(_ delivery.Programme, s delivery.SlowHours) []ask.Field {
		percent := ""
		if s.Percent > 0 {
			percent = fmt.Sprint(s.Percent)
		}
		return []ask.Field{
			{Key: "days", Label: "Days", Value: delivery.Weekdays(s.Days), Hint: "as Mon-Fri, or daily"},
			{Key: "from", Label: "From", Value: s.From},
			{Key: "until", Label: "Until", Value: s.Until},
			{Key: "percent", Label: "Takes", Kind: ask.Number, Unit: "%", Value: percent, Hint: "of the usual time: 140 for 7 min where 5 are usual"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.SlowHours {
		var s delivery.SlowHours
		var err error
		s.Days, err = delivery.ReadWeekdays(r.Need("days", "write the days, as Mon-Fri, or daily"))
		r.Fail("days", err)
		s.From, err = clock(a.Text("from"))
		r.Fail("from", err)
		s.Until, err = clock(a.Text("until"))
		r.Fail("until", err)
		r.Need("percent", "write what a drive takes of the usual time")
		if n := r.Number("percent", "%", 100, 500); n != nil {
			s.Percent = int(math.Round(*n))
		}
		return s
	},
}
