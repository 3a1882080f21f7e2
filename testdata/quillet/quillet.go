// Package quillet is the demo scenario: the Quillet Isles, a group of invented
// islands far out at sea whose hospital lends home oxygen. No person, place or
// number in it is real.
//
// The scenario lives in files as a programme would have them: places.json
// (the settings), islands.geojson (what maps are drawn from), items.csv and
// people.csv (the lists taken in), ward.csv (a list with rows that have to be
// asked about) and day.txt (what happened on the last day, one act a line).
// They are written as if the demo's day were 4 March 2025. At shifts them:
// every day in the files moves by as many days as lie between that day and the
// day asked for, birthdays excepted, and the times of day.txt count from the
// very moment asked for, so that a window opened at any hour shows a living
// day.
package quillet

import (
	"bytes"
	"embed"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/outline"
)

//go:embed *.json *.csv *.txt *.geojson
var files embed.FS

// written is the day the files are written for.
var written = time.Date(2025, time.March, 4, 0, 0, 0, 0, time.UTC)

// Scene is the scenario as it stands at one moment.
type Scene struct{ now time.Time }

// At returns the scenario whose present is now, on the clock of now's offset.
func At(now time.Time) Scene { return Scene{now.Truncate(time.Minute)} }

// Now returns the present of the scene.
func (s Scene) Now() time.Time { return s.now }

// Opening returns when the book begins: before the first list is taken in.
func (s Scene) Opening() time.Time { return s.midnight(-weeksBack * 7).Add(8 * time.Hour) }

// weeksBack is how far the story of the isles reaches back.
const weeksBack = 11

// midnight returns the start of the day so many days after the scene's.
func (s Scene) midnight(days int) time.Time {
	y, m, d := s.now.Date()
	return time.Date(y, m, d+days, 0, 0, 0, 0, s.now.Location())
}

// dated finds the days of the files; birthdays lie before them. A day is
// alone, or has a time in UTC that stands for the clock on the isles.
var dated = regexp.MustCompile(`\b20(?:2[4-9]|3[0-9])-\d\d(-\d\d)?(T\d\d:\d\d:\d\dZ)?\b`)

// shifted returns a file with its days moved to the scene's.
func (s Scene) shifted(name string) ([]byte, error) {
	text, err := files.ReadFile(name)
	if err != nil {
		return nil, err
	}
	return dated.ReplaceAllFunc(text, func(day []byte) []byte { return []byte(s.shift(string(day))) }), nil
}

func (s Scene) shift(text string) string {
	layout := time.DateOnly
	switch len(text) {
	case len("2006-01"):
		layout = "2006-01"
	case len(time.RFC3339) - len("07:00"):
		layout = time.RFC3339
	}
	t, err := time.Parse(layout, text)
	if err != nil {
		return text
	}
	y, m, d := t.Date()
	wy, wm, wd := written.Date()
	ny, nm, nd := s.now.Date()
	if layout == "2006-01" {
		return time.Date(y+ny-wy, m+nm-wm, 1, 0, 0, 0, 0, time.UTC).Format(layout)
	}
	between := time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Sub(time.Date(wy, wm, wd, 0, 0, 0, 0, time.UTC))
	days := int(between / (24 * time.Hour))
	return time.Date(ny, nm, nd+days, t.Hour(), t.Minute(), t.Second(), 0, s.now.Location()).Format(layout)
}

// Outline returns coast, roads and towns of the isles.
func (s Scene) Outline() (outline.Outline, error) {
	text, err := files.ReadFile(OutlineFile)
	if err != nil {
		return outline.Outline{}, err
	}
	return outline.Read(bytes.NewReader(text))
}

// OutlineFile is the file of the isles' outline.
const OutlineFile = "islands.geojson"

// Places returns the settings of the programme.
func (s Scene) Places() (delivery.Programme, error) {
	text, err := s.shifted("places.json")
	if err != nil {
		return delivery.Programme{}, err
	}
	// Ferries are written as people say them: "35m", kilometres, "daily 08:00".
	places := struct {
		delivery.Programme
		Ferries []struct {
			Between [2]string         `json:"between"`
			Takes   string            `json:"takes"`
			Km      int64             `json:"km"`
			Ports   [2]delivery.Point `json:"ports"`
			Departs [2]string         `json:"departs"`
		} `json:"ferries"`
	}{Programme: delivery.NewProgramme()}
	if err := json.Unmarshal(text, &places); err != nil {
		return delivery.Programme{}, fmt.Errorf("places.json: %w", err)
	}
	p := places.Programme
	for _, f := range places.Ferries {
		takes, err := time.ParseDuration(f.Takes)
		if err != nil {
			return delivery.Programme{}, fmt.Errorf("places.json: %w", err)
		}
		ferry := delivery.Ferry{Between: f.Between, Takes: takes, Metres: f.Km * 1000, Ports: f.Ports}
		for side, times := range f.Departs {
			if ferry.Departs[side], err = delivery.ReadDepartures(times); err != nil {
				return p, fmt.Errorf("places.json: %w", err)
			}
		}
		p.Ferries = append(p.Ferries, ferry)
	}
	return p, nil
}

// List is one spreadsheet and when it is taken in.
type List struct {
	Name string
	At   time.Time
	CSV  []byte
}

// Items returns the list of things, taken in when the book begins.
func (s Scene) Items() (List, error) {
	text, err := s.shifted("items.csv")
	return List{"items.csv", s.Opening().Add(time.Hour), text}, err
}

// Ward returns the list that came down from the wards this morning; some of
// its rows have to be asked about.
func (s Scene) Ward() (List, error) {
	text, err := s.shifted("ward.csv")
	return List{"ward.csv", s.now.Add(-3*time.Hour - 10*time.Minute), text}, err
}

// People returns the lists of persons as the wards sent them down: for each
// day on which oxygen was ordered, the people of that day, taken in at noon.
func (s Scene) People() ([]List, error) {
	text, err := s.shifted("people.csv")
	if err != nil {
		return nil, err
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("people.csv: %w", err)
	}
	ordered := slices.Index(rows[0], "Ordered")
	var lists []List
	for from := 1; from < len(rows); {
		day, _, _ := strings.Cut(rows[from][ordered], " ")
		until := from
		for until < len(rows) && strings.HasPrefix(rows[until][ordered], day) {
			until++
		}
		noon, err := time.ParseInLocation(time.DateOnly, day, s.now.Location())
		if err != nil {
			return nil, fmt.Errorf("people.csv: %w", err)
		}
		var page bytes.Buffer
		if err := csv.NewWriter(&page).WriteAll(append(rows[:1:1], rows[from:until]...)); err != nil {
			return nil, err
		}
		lists = append(lists, List{"people.csv", noon.Add(12 * time.Hour), page.Bytes()})
		from = until
	}
	return lists, nil
}
