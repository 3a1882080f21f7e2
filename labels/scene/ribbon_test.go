package scene_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/labels/scene"
)

var islands = time.FixedZone("", -4*60*60)

// now is an invented Tuesday afternoon.
var now = time.Date(2026, time.November, 24, 16, 20, 0, 0, islands)

func in(hours float64) time.Time { return now.Add(time.Duration(hours * float64(time.Hour))) }

func forecast(low, mid, high float64) scene.RibbonData {
	return scene.RibbonData{Now: now, Horizon: 6 * time.Hour, Low: in(low), Mid: in(mid), High: in(high)}
}

type row struct {
	name, verdict string
	data          scene.RibbonData
}

// rows are the households every case of the ribbon stands for.
func rows() []row {
	with := func(d scene.RibbonData, change func(*scene.RibbonData)) scene.RibbonData {
		change(&d)
		return d
	}
	hollow := scene.RibbonData{
		Now: now, Horizon: 6 * time.Hour, Hollow: true,
		CoverLow: 3 * time.Hour, CoverMid: 4 * time.Hour, CoverHigh: 5 * time.Hour,
	}
	return []row{
		{"dry by every reckoning", scene.Dry, with(forecast(-2, -1, -0.5), func(d *scene.RibbonData) { d.ActBy = in(-2); d.Visits = []time.Time{in(0.5)} })},
		{"late help", scene.Short, with(forecast(0.9, 1.2, 1.6), func(d *scene.RibbonData) { d.ActBy = in(0.9); d.Visits = []time.Time{in(1.5)} })},
		{"help beyond the edge", scene.Short, with(forecast(1, 1.3, 1.8), func(d *scene.RibbonData) { d.ActBy = in(1); d.Visits = []time.Time{in(9)} })},
		{"old reading", scene.Unknown, with(forecast(0.2, 2.5, 5.6), func(d *scene.RibbonData) {
			d.Unknown, d.ActBy = true, in(0.2)
			d.Outages = []scene.Span{{From: in(-2), To: in(4)}}
		})},
		{"nothing known", scene.Unknown, scene.RibbonData{Now: now, Horizon: 6 * time.Hour, Unknown: true}},
		{"outage, close", scene.Tight, with(forecast(2.4, 3, 3.7), func(d *scene.RibbonData) {
			d.ActBy, d.Visits = in(2.4), []time.Time{in(2.1)}
			d.Outages = []scene.Span{{To: in(4)}}
		})},
		{"in good time, then collected", scene.Holds, with(forecast(3.4, 4.1, 5), func(d *scene.RibbonData) { d.ActBy = in(3.4); d.Visits = []time.Time{in(1.9), in(5.8)} })},
		{"lasts beyond the edge", scene.Holds, with(forecast(5, 7, 9), func(d *scene.RibbonData) { d.ActBy = in(7) })},
		{"concentrator runs", scene.Holds, hollow},
		{"announced outage", scene.Short, with(hollow, func(d *scene.RibbonData) {
			d.ActBy = in(5)
			d.Outages = []scene.Span{{From: in(2), To: time.Time{}}}
		})},
		{"concentrator, old gauge", scene.Unknown, with(hollow, func(d *scene.RibbonData) { d.Unknown = true })},
		{"overdue visit", scene.Tight, with(forecast(2, 2.5, 3), func(d *scene.RibbonData) { d.ActBy = in(2); d.Visits = []time.Time{in(-0.3), in(1)} })},
	}
}

// list draws all rows as a watch list does.
func list(horizon time.Duration, w, h float64) scene.Scene {
	all := rows()
	const left, head = 230, 24
	s := scene.Scene{W: left + w + 20, H: head + h*float64(len(all))}
	s.Place(scene.Axis(now, horizon, w, head), left, 0)
	for i, r := range all {
		y := head + h*float64(i)
		r.data.Horizon = horizon
		s.Place(scene.VerdictMark(r.verdict, 16), 8, y+h/2-8)
		s.Shapes = append(s.Shapes,
			scene.Words{X: 32, Y: y + h/2 + 4, Size: 12, Text: r.name, Ink: scene.Text},
			scene.Line{X1: 0, Y1: y + h, X2: s.W, Y2: y + h, Width: 1, Ink: scene.Rule})
		s.Place(scene.Ribbon(r.data, w, h), left, y)
	}
	return s
}

func TestRibbonsLookRight(t *testing.T) {
	look(t, "ribbon-key", scene.RibbonKey(900, 20))
	wantInside(t, "ribbon key", scene.RibbonKey(300, 20))
	look(t, "ribbons-6h", list(6*time.Hour, 520, 56))
	look(t, "ribbons-24h", list(24*time.Hour, 520, 44))
	look(t, "ribbons-72h", list(72*time.Hour, 380, 24))
}

func TestRibbonGolden(t *testing.T) {
	for _, r := range rows() {
		s := scene.Ribbon(r.data, 360, 44)
		golden(t, "ribbon-"+strings.NewReplacer(",", "", " ", "-").Replace(r.name), s)
		wantInside(t, r.name, s)
	}
}

func TestRibbonStaysInsideWhateverItShows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) time.Time {
			if rapid.Bool().Draw(t, name+" given") {
				return now.Add(time.Duration(rapid.Int64Range(-100, 100).Draw(t, name)) * time.Hour)
			}
			return time.Time{}
		}
		data := scene.RibbonData{
			Now: now, Horizon: time.Duration(rapid.Int64Range(1, 5000).Draw(t, "horizon")) * time.Minute,
			Low: at("low"), Mid: at("mid"), High: at("high"), ActBy: at("act-by"),
			Visits: []time.Time{at("visit 1"), at("visit 2")}, Outages: []scene.Span{{From: at("from"), To: at("to")}},
			Hollow: rapid.Bool().Draw(t, "hollow"), Unknown: rapid.Bool().Draw(t, "unknown"),
			CoverLow:  time.Duration(rapid.Int64Range(0, 200).Draw(t, "cover low")) * time.Hour,
			CoverHigh: time.Duration(rapid.Int64Range(0, 200).Draw(t, "cover high")) * time.Hour,
		}
		w, h := rapid.Float64Range(60, 1400).Draw(t, "w"), rapid.Float64Range(8, 120).Draw(t, "h")
		wantInside(t, "ribbon", scene.Ribbon(data, w, h))
		wantInside(t, "axis", scene.Axis(now, data.Horizon, w, 24))
	})
}

// The picture must say what the verdict says: help after act-by is red, help in
// time is not, and only the first visit is help.
func TestOnlyLateHelpIsRed(t *testing.T) {
	for _, c := range []struct {
		name   string
		actBy  time.Time
		visits []time.Time
		want   bool
	}{
		{"after act-by", in(1), []time.Time{in(1.5)}, true},
		{"at act-by", in(1), []time.Time{in(1)}, false},
		{"before act-by", in(2), []time.Time{in(1)}, false},
		{"second visit after act-by", in(2), []time.Time{in(1), in(3)}, false},
		{"no act-by", time.Time{}, []time.Time{in(3)}, false},
		{"beyond the edge", in(1), []time.Time{in(30)}, true},
	} {
		data := forecast(1, 2, 3)
		data.ActBy, data.Visits = c.actBy, c.visits
		got := strings.Contains(dump(scene.Ribbon(data, 360, 44)), string(scene.Alarm))
		assert.Equal(t, c.want, got, "%s: red flag", c.name)
	}
}

func TestAxisNamesHoursAndDays(t *testing.T) {
	for _, c := range []struct {
		horizon time.Duration
		want    string
	}{
		{6 * time.Hour, "17:00 18:00 19:00 20:00 21:00 22:00"},
		{24 * time.Hour, "18:00 21:00 Wed 25 03:00 06:00 09:00 12:00 15:00"},
		{72 * time.Hour, "Wed 25 12:00 Thu 26 12:00 Fri 27 12:00"},
	} {
		assert.Equal(t, c.want, labels(scene.Ticks(now, c.horizon)), "%v from %v", c.horizon, now)
	}
}

// In New York the clocks went back at 02:00 on 1 November 2026 (US Energy
// Policy Act of 2005: first Sunday in November), so 01:00 comes twice; on 8
// March 2026 02:00 does not come at all.
func TestAxisAcrossClockChanges(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	back := time.Date(2026, time.October, 31, 22, 30, 0, 0, zone)
	assert.Equal(t, "23:00 Sun 1 01:00 01:00 02:00 03:00", labels(scene.Ticks(back, 6*time.Hour)))
	forth := time.Date(2026, time.March, 7, 23, 30, 0, 0, zone)
	assert.Equal(t, "Sun 8 01:00 03:00 04:00 05:00 06:00", labels(scene.Ticks(forth, 6*time.Hour)))
}

func labels(ticks []scene.Tick) string {
	var words []string
	for _, t := range ticks {
		words = append(words, t.Label)
	}
	return strings.Join(words, " ")
}

func TestVerdictsDifferInShape(t *testing.T) {
	seen := map[string]string{}
	for _, v := range []string{scene.Holds, scene.Tight, scene.Short, scene.Dry, scene.Unknown} {
		s := scene.VerdictMark(v, 16)
		wantInside(t, v, s)
		golden(t, "verdict-"+v, s)
		shape := strings.ReplaceAll(dump(s), string(scene.VerdictInk(v)), "ink")
		assert.Empty(t, seen[shape], "%s looks like %s without colour", v, seen[shape])
		seen[shape] = v
	}
}
