package settings

import (
	"errors"
	"fmt"
	"math"

	"lungwort/delivery"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

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

var roadClasses = rowsOf[delivery.RoadClass]{
	id: "road", what: "road class",
	get: func(p delivery.Programme) []delivery.RoadClass { return p.Roads },
	set: func(p *delivery.Programme, rows []delivery.RoadClass) { p.Roads = rows },
	says: func(_ delivery.Programme, r delivery.RoadClass) (string, string) {
		return r.Name, join(fmt.Sprintf("%g km of a ride at %g km/h", r.Km, r.Kmh), r.Source)
	},
	asks: func(_ delivery.Programme, r delivery.RoadClass) []ask.Field {
		number := func(v float64) string {
			if v == 0 {
				return ""
			}
			return fmt.Sprint(v)
		}
		return []ask.Field{
			{Key: "name", Label: "Roads", Value: r.Name, Hint: "as streets of the town"},
			{Key: "km", Label: "Of each ride", Kind: ask.Number, Unit: "km", Value: number(r.Km), Hint: "after the classes above; what is left goes at the driving speed"},
			{Key: "kmh", Label: "Speed", Kind: ask.Number, Unit: "km/h", Value: number(r.Kmh)},
			{Key: "source", Label: "Source", Value: r.Source, Hint: "as own trip logs, spring 2026"},
		}
	},
	read: func(r *ask.Reader, _ delivery.Programme, _ ask.Answers) delivery.RoadClass {
		c := delivery.RoadClass{Name: r.Need("name", "write what roads they are"), Source: r.Need("source", "write where the speed comes from")}
		r.Need("km", "write how much of a ride")
		r.Need("kmh", "write the speed")
		if n := r.Number("km", "km", 0, 1000); n != nil {
			c.Km = *n
		}
		if n := r.Number("kmh", "km/h", 1, 200); n != nil {
			c.Kmh = *n
		}
		return c
	},
}

var slowHours = rowsOf[delivery.SlowHours]{
	id: "slow", what: "slow hours",
	get: func(p delivery.Programme) []delivery.SlowHours { return p.Slow },
	set: func(p *delivery.Programme, rows []delivery.SlowHours) { p.Slow = rows },
	says: func(_ delivery.Programme, s delivery.SlowHours) (string, string) {
		return s.From + " to " + s.Until, join(delivery.Weekdays(s.Days), fmt.Sprintf("driving takes %d %% of the usual time", s.Percent), s.Source)
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
			{Key: "source", Label: "Source", Value: s.Source, Hint: "where that comes from"},
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
		s.Source = a.Text("source")
		return s
	},
}
