package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory/refusal"
)

// Break is a rest in a vehicle's shift.
type Break struct {
	From    string `json:"from"`  // the earliest it begins, 15:04
	Until   string `json:"until"` // the latest it begins
	Minutes int    `json:"minutes"`
}

// Rest is a break as a run has it.
type Rest struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
}

// mostBreaks is how many breaks a shift may have.
const mostBreaks = 3

// ReadBreaks reads breaks as people write them: when each may begin and how
// long it is, as "12:00-13:30 30 min; 16:00-17:00 15 min". Nothing gives none.
func ReadBreaks(text string) ([]Break, error) {
	var all []Break
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		begins, takes, _ := strings.Cut(part, " ")
		from, until, _ := strings.Cut(begins, "-")
		first, err1 := time.Parse("15:04", from)
		last, err2 := time.Parse("15:04", until)
		length, err3 := time.ParseDuration(strings.NewReplacer(" ", "", "min", "m").Replace(takes))
		if err1 != nil || err2 != nil || err3 != nil {
			return nil, fmt.Errorf("“%s” is not a break: write when it may begin and how long it is, as 12:00-13:30 30 min", part)
		}
		b := Break{From: first.Format("15:04"), Until: last.Format("15:04"), Minutes: int(length / time.Minute)}
		if err := b.check(); err != nil {
			return nil, err
		}
		all = append(all, b)
	}
	if len(all) > mostBreaks {
		return nil, fmt.Errorf("%d breaks, where a shift may have %d", len(all), mostBreaks)
	}
	return all, nil
}

// Breaks writes breaks as ReadBreaks reads them.
func Breaks(all []Break) string {
	parts := make([]string, len(all))
	for i, b := range all {
		parts[i] = fmt.Sprintf("%s-%s %d min", b.From, b.Until, b.Minutes)
	}
	return strings.Join(parts, "; ")
}

func (b Break) check() error {
	from, ok1 := clockOn(time.Time{}, b.From)
	until, ok2 := clockOn(time.Time{}, b.Until)
	if !ok1 || !ok2 || until.Before(from) || b.Minutes < 1 || b.Minutes > 4*60 {
		return refusal.New(refusal.Invalid, fmt.Sprintf("A break of %d min from %s until %s can't be.", b.Minutes, b.From, b.Until),
			"Give when it may begin and how long it is, as 12:00-13:30 30 min.")
	}
	return nil
}

// checkBreaks refuses breaks nobody can plan with.
func (v Vehicle) checkBreaks() error {
	for i, b := range v.Breaks {
		if err := b.check(); err != nil {
			return err
		}
		if i > 0 && b.From < v.Breaks[i-1].Until {
			return refusal.New(refusal.Invalid, fmt.Sprintf("Two breaks of %s may begin at once.", v.Name), "Let one begin after the other, in order.")
		}
	}
	if len(v.Breaks) > mostBreaks {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s has %d breaks in a shift.", v.Name, len(v.Breaks)), fmt.Sprintf("Give %d at most.", mostBreaks))
	}
	return nil
}

// breaks returns the breaks that are still ahead of a vehicle which can't leave
// before a time, in seconds of the day.
func (pl Planner) breaks(v Vehicle, leaves int64) []route.Break {
	var ahead []route.Break
	for _, b := range v.Breaks {
		from, ok1 := clockOn(pl.midnight(), b.From)
		until, ok2 := clockOn(pl.midnight(), b.Until)
		if latest := pl.seconds(until); ok1 && ok2 && latest > leaves {
			ahead = append(ahead, route.Break{Earliest: pl.seconds(from), Latest: latest, Length: int64(b.Minutes) * 60})
		}
	}
	return ahead
}

// rests returns the breaks of a planned route.
func (pl Planner) rests(all []route.Rest) []Rest {
	var rests []Rest
	for _, r := range all {
		rests = append(rests, Rest{pl.clock(r.Start), pl.clock(r.Start + r.Length)})
	}
	return rests
}
