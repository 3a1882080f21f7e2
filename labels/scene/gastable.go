package scene

import (
	"slices"
	"strings"
	"time"
)

// ChartRow is one row of a gas chart written as a table.
type ChartRow struct {
	At     time.Time
	What   string
	Litres string // empty where the row is no amount
	Key    string // of a reading: what it opens
	Ink    Ink
}

// Rows returns what the chart shows as a table in order of time, for whoever
// reads rather than looks.
func (d ChartData) Rows() []ChartRow {
	rows := d.amountRows()
	say := func(at time.Time, what string, ink Ink) {
		if !at.IsZero() {
			rows = append(rows, ChartRow{At: at, What: what, Ink: ink})
		}
	}
	say(d.Now, "now", Text)
	actBy := Text
	if !d.ActBy.After(d.Now) {
		actBy = Alarm
	}
	say(d.ActBy, "act by", actBy)
	for i, v := range d.Visits {
		ink := Text
		if i == 0 && Late(v.At, d.ActBy) {
			ink = Alarm
		}
		say(v.At, "visit: "+v.Says, ink)
	}
	for _, o := range d.Outages {
		say(o.From, "power out", Caution)
		say(o.To, "power back, as told", Text)
	}
	for _, t := range d.Trips {
		say(t.From, strings.TrimSuffix("leaves on a trip: "+t.Where, ": "), Caution)
		say(t.To, "back from the trip, as planned", Text)
	}
	rows = slices.DeleteFunc(rows, func(r ChartRow) bool { return r.At.Before(d.From) || r.At.After(d.To) })
	slices.SortStableFunc(rows, func(a, b ChartRow) int { return a.At.Compare(b.At) })
	return rows
}

// amountRows are the readings and the forecast.
func (d ChartData) amountRows() []ChartRow {
	var rows []ChartRow
	for i, r := range d.Readings {
		row := ChartRow{At: r.At, What: "read", Litres: thousands(r.Litres) + " L", Key: r.Key, Ink: Text}
		if r.Told {
			row.What = "told"
		}
		if r.Fresh && i > 0 {
			row.What += ", cylinders came or went before"
		}
		rows = append(rows, row)
	}
	for _, f := range d.Forecast {
		row := ChartRow{At: f.At, What: "forecast: safe end, middle, far end", Ink: Gas,
			Litres: thousands(f.Low) + ", " + thousands(f.Mid) + ", " + thousands(f.High) + " L"}
		if f.Low == f.High {
			row.What, row.Litres = "forecast", thousands(f.Mid)+" L"
		}
		rows = append(rows, row)
	}
	return rows
}

// When writes the time of a row as the chart does.
func (r ChartRow) When() string { return clock(r.At) }
