package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// week begins on Monday.
var week = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

const everyDay = "daily"

// short is a weekday in three letters.
func short(d time.Weekday) string { return d.String()[:3] }

// ReadDepartures reads a timetable as people write it: days, then times, as
// "Mon-Fri 07:30 12:00; Sat Sun 09:00" or "daily 08:00". Nothing gives none.
// The error says which part is not understood.
func ReadDepartures(text string) ([]Departure, error) {
	var all []Departure
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		words := strings.Fields(strings.ReplaceAll(part, ",", " "))
		first := slices.IndexFunc(words, func(w string) bool { return w[0] >= '0' && w[0] <= '9' })
		if len(words) == 0 {
			continue
		}
		if first < 0 {
			return nil, fmt.Errorf("“%s” names no time: write it as daily 08:00 12:30", strings.TrimSpace(part))
		}
		days := week
		if first > 0 {
			var err error
			if days, err = weekdays(words[:first]); err != nil {
				return nil, err
			}
		}
		for _, word := range words[first:] {
			at, err := time.Parse("15:04", word)
			if err != nil {
				return nil, fmt.Errorf("“%s” is not a time of day: write it as 07:30", word)
			}
			for _, d := range days {
				all = with(all, Departure{Day: d, At: at.Format("15:04")})
			}
		}
	}
	slices.SortFunc(all, func(a, b Departure) int {
		if a.Day != b.Day {
			return slices.Index(week, a.Day) - slices.Index(week, b.Day)
		}
		return strings.Compare(a.At, b.At)
	})
	return all, nil
}

// ReadWeekdays reads days, as "Mon-Fri, Sun"; daily gives none, which is every
// day.
func ReadWeekdays(text string) ([]time.Weekday, error) {
	days, err := weekdays(strings.Fields(strings.ReplaceAll(text, ",", " ")))
	if len(days) == len(week) {
		return nil, err
	}
	return days, err
}

func weekdays(words []string) ([]time.Weekday, error) {
	var days []time.Weekday
	for _, word := range words {
		if strings.EqualFold(word, everyDay) {
			return week, nil
		}
		from, until, span := strings.Cut(word, "-")
		if !span {
			until = from
		}
		first, last := weekday(from), weekday(until)
		if first < 0 || last < first {
			return nil, fmt.Errorf("“%s” are not days of the week: write Mon-Fri, Sat or daily", word)
		}
		for _, d := range week[first : last+1] {
			days = with(days, d)
		}
	}
	slices.SortFunc(days, func(a, b time.Weekday) int { return slices.Index(week, a) - slices.Index(week, b) })
	return days, nil
}

// weekday returns the place of a day in the week; -1 for none.
func weekday(word string) int {
	return slices.IndexFunc(week, func(d time.Weekday) bool {
		return strings.EqualFold(word, short(d)) || strings.EqualFold(word, d.String())
	})
}

// Weekdays writes days as ReadWeekdays reads them.
func Weekdays(days []time.Weekday) string {
	if len(days) == 0 || len(days) == len(week) {
		return everyDay
	}
	var words []string
	for i := 0; i < len(week); i++ {
		last := i
		for last < len(week) && slices.Contains(days, week[last]) {
			last++
		}
		switch {
		case last == i+1:
			words = append(words, short(week[i]))
		case last > i:
			words = append(words, short(week[i])+"-"+short(week[last-1]))
		}
		i = max(i, last)
	}
	return strings.Join(words, " ")
}

// Departures writes a timetable as ReadDepartures reads it: days that share
// their times together.
func Departures(all []Departure) string {
	times := make(map[time.Weekday]string)
	for _, d := range all {
		times[d.Day] += " " + d.At
	}
	var parts []string
	told := make(map[time.Weekday]bool)
	for _, d := range week {
		if times[d] == "" || told[d] {
			continue
		}
		var alike []time.Weekday
		for _, o := range week {
			if times[o] == times[d] {
				alike, told[o] = append(alike, o), true
			}
		}
		parts = append(parts, Weekdays(alike)+times[d])
	}
	return strings.Join(parts, "; ")
}
