package scene_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

// cylinderHome is a home on cylinders whose gas ends a little before the van.
func cylinderHome() scene.ChartData {
	d := scene.ChartData{
		From: in(-64), Now: now, To: in(56), Full: 1360, Reserve: 136,
		Readings: []scene.ChartReading{
			{At: in(-62), Litres: 460, Key: "1"}, {At: in(-50), Litres: 210, Told: true, Key: "2"},
			{At: in(-46), Litres: 1340, Fresh: true, Key: "3"}, {At: in(-30), Litres: 1130, Told: true, Key: "4"},
			{At: in(-14), Litres: 905, Told: true, Key: "5"}, {At: in(-3), Litres: 700, Key: "6"},
		},
		ActBy:   in(18),
		Visits:  []scene.ChartVisit{{At: in(22), Says: "swap, run 3"}, {At: in(46), Says: "check-in"}},
		Outages: []scene.Span{{From: in(-12), To: in(-4)}},
	}
	for i := range 57 {
		left := 660.0
		d.Forecast = append(d.Forecast, scene.ChartForecast{
			At: in(float64(i)), Low: max(left-float64(i)*33, 0), Mid: max(left-float64(i)*20, 0), High: max(left-float64(i)*11, 0),
		})
	}
	return d
}

func TestGasChart(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*scene.ChartData)
		w, h   float64
	}{
		{"gaschart", func(*scene.ChartData) {}, 600, 300},
		{"gaschart-narrow", func(*scene.ChartData) {}, 330, 220},
		{"gaschart-no-readings", func(d *scene.ChartData) { d.Readings, d.Forecast, d.Full, d.Reserve = nil, nil, 0, 0 }, 600, 260},
		{"gaschart-bridge", bridge, 600, 280},
		{"gaschart-trip", func(d *scene.ChartData) {
			d.Trips = []scene.ChartTrip{{Span: scene.Span{From: in(24), To: in(30)}, Where: "clinic"}}
		}, 760, 300},
	} {
		d := cylinderHome()
		c.change(&d)
		s := scene.GasChart(d, c.w, c.h)
		look(t, c.name, s)
		golden(t, c.name, s)
		wantInside(t, c.name, s)
	}
}

// bridge makes d a small cylinder in use for an hour, with act-by gone by.
func bridge(d *scene.ChartData) {
	d.From, d.To, d.Full, d.Outages = in(-1.2), in(1.2), 340, nil
	d.Readings = []scene.ChartReading{{At: in(-1), Litres: 300, Key: "1"}, {At: in(-0.3), Litres: 150, Told: true, Key: "2"}}
	d.Forecast = nil
	for i := range 13 {
		at := float64(i) / 10
		d.Forecast = append(d.Forecast, scene.ChartForecast{At: in(at), Low: max(60-at*240, 0), Mid: max(80-at*240, 0), High: max(120-at*180, 0)})
	}
	d.ActBy, d.Visits = in(-0.1), []scene.ChartVisit{{At: in(0.6), Says: "concentrator"}}
}

// The scale reaches over everything it must show, in round steps of 1, 2 or 5.
func TestGasChartScaleIsRoundAndHighEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := cylinderHome()
		d.Full = rapid.Float64Range(0.5, 20000).Draw(t, "full")
		for i := range d.Readings {
			d.Readings[i].Litres = rapid.Float64Range(0, d.Full).Draw(t, "litres")
		}
		s := scene.GasChart(d, rapid.Float64Range(160, 1200).Draw(t, "w"), rapid.Float64Range(140, 600).Draw(t, "h"))
		wantInside(t, "gas chart", s)
		assert.Len(t, s.Spots, len(d.Readings))
	})
}

func itemLife() scene.LifeData {
	day := func(days, hour float64) time.Time {
		return now.Add(time.Duration((days*24 + hour) * float64(time.Hour)))
	}
	return scene.LifeData{
		Now: now,
		Events: []scene.LifeEvent{
			{At: day(-24, -4), Place: "plant", Says: "fill L2409A", Key: "a"},
			{At: day(-22, -2), Place: "depot", Says: "2,050 psi", Key: "b"},
			{At: day(-18, 0), Place: "ward store", Key: "c"},
			{At: day(-17, -0.5), Place: "Gull Row 14", Says: "lent", Key: "d"},
			{At: day(-10, 2), Says: "1,900 psi", Replaced: true, Key: "e"},
			{At: day(-10, 2.2), Says: "1,400 psi", Key: "f"},
			{At: day(-2, -5), Place: "dirty bay", Says: "back, 300 psi", Key: "g"},
			{At: day(-1, -6), Place: "bench", Says: "clean, seal ok", Key: "h"},
			{At: day(-1, -4), Place: "depot bay 2", Says: "ready", Key: "i"},
		},
		Persons: []scene.LifePerson{{From: day(-17, -0.5), To: day(-2, -5), Name: "Ines A."}},
	}
}

func TestLifeLine(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*scene.LifeData)
		w, h   float64
	}{
		{"lifeline", func(*scene.LifeData) {}, 1080, 130},
		{"lifeline-narrow", func(*scene.LifeData) {}, 420, 130},
		{"lifeline-still-lent", func(d *scene.LifeData) { d.Events = d.Events[:4]; d.Persons[0].To = time.Time{} }, 640, 120},
		{"lifeline-one-fact", func(d *scene.LifeData) { d.Events, d.Persons = d.Events[:1], nil }, 640, 120},
	} {
		d := itemLife()
		c.change(&d)
		s := scene.LifeLine(d, c.w, c.h)
		look(t, c.name, s)
		golden(t, c.name, s)
		wantInside(t, c.name, s)
	}
}

func TestLifeLineKeepsTheLatestInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := scene.LifeData{Now: now}
		at := in(-5000)
		for i := range rapid.IntRange(1, 60).Draw(t, "events") {
			at = at.Add(time.Duration(rapid.IntRange(0, 4000).Draw(t, "minutes")) * time.Minute)
			d.Events = append(d.Events, scene.LifeEvent{At: at, Place: "depot", Says: "reading", Key: fmt.Sprint(i)})
		}
		d.Persons = []scene.LifePerson{{From: d.Events[0].At, Name: "Tobin K."}}
		s := scene.LifeLine(d, rapid.Float64Range(160, 1400).Draw(t, "w"), 120)
		wantInside(t, "life line", s)
		assert.NotEmpty(t, s.Spots)
		for i := 1; i < len(s.Spots); i++ {
			assert.Greater(t, s.Spots[i].X, s.Spots[i-1].X, "events stand in their order")
		}
		assert.Equal(t, d.Events[len(d.Events)-1].Key, s.Spots[len(s.Spots)-1].Key, "the latest event is shown")
	})
}

// quiet returns an invented chart out at sea.
func quiet() scene.MapData {
	ring := func(lat, lon, tall, wide float64) []scene.Position {
		return []scene.Position{
			{Lat: lat + tall, Lon: lon - wide*0.2}, {Lat: lat + tall*0.8, Lon: lon + wide*0.5}, {Lat: lat + tall*0.1, Lon: lon + wide},
			{Lat: lat - tall*0.6, Lon: lon + wide*0.7}, {Lat: lat - tall, Lon: lon + wide*0.1}, {Lat: lat - tall*0.7, Lon: lon - wide*0.8},
			{Lat: lat - tall*0.1, Lon: lon - wide*0.7}, {Lat: lat + tall*0.3, Lon: lon - wide},
		}
	}
	home := func(lat, lon float64, name, verdict string) scene.MapHome {
		return scene.MapHome{At: scene.Position{Lat: lat, Lon: lon}, Name: name, Verdict: verdict, Key: name}
	}
	depot := scene.Position{Lat: 44.02, Lon: -38.05}
	return scene.MapData{
		Coast:  [][]scene.Position{ring(44, -38, 0.12, 0.2), ring(44.17, -37.72, 0.05, 0.06)},
		Depots: []scene.MapDepot{{At: depot, Name: "Depot", Key: "depot"}},
		Homes: []scene.MapHome{
			home(44.05, -37.95, "Gull Row 14", scene.Short), home(44.055, -37.94, "Gull Row 20", scene.Holds), home(43.95, -38.1, "Slip House 3", scene.Short),
			home(44.16, -37.72, "Upper Ness 2", scene.Unknown), home(43.97, -37.9, "Kiln Brae 1", scene.Tight), home(43.94, -37.96, "Kelp Street 22", scene.Dry),
		},
		Routes: []scene.MapRoute{
			{Stops: []scene.Position{depot, {Lat: 44.05, Lon: -37.95}, {Lat: 44.16, Lon: -37.72}, depot}},
			{Stops: []scene.Position{depot, {Lat: 43.95, Lon: -38.1}, {Lat: 43.94, Lon: -37.96}, {Lat: 43.97, Lon: -37.9}, depot}},
		},
	}
}

func TestMap(t *testing.T) {
	s := scene.Map(quiet(), 640, 440)
	look(t, "map", s)
	golden(t, "map", s)
	wantInside(t, "map", s)
	wantInside(t, "one place", scene.Map(scene.MapData{Homes: quiet().Homes[:1]}, 200, 200))
	wantInside(t, "nothing", scene.Map(scene.MapData{}, 200, 200))
}

// At 60° a degree of longitude is half as long as one of latitude: the cosine.
func TestMapKeepsShapes(t *testing.T) {
	at := func(lat, lon float64) scene.MapHome { return scene.MapHome{At: scene.Position{Lat: lat, Lon: lon}} }
	s := scene.Map(scene.MapData{Homes: []scene.MapHome{at(59.5, 0), at(60.5, 0), at(60, -1), at(60, 1)}}, 400, 400)
	tall, wide := s.Spots[0].Y-s.Spots[1].Y, s.Spots[3].X-s.Spots[2].X
	assert.InDelta(t, tall, wide, tall*0.001, "one degree of latitude, two of longitude at 60°")
}
