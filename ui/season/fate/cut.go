package fate

import "time"

// Cut is a power cut of one line, as it really is.
type Cut struct {
	N    int // of its line
	Line string
	Span
	// Foretold is the end that was announced the day before; zero: nothing was.
	Foretold time.Time
	Heard    time.Time // the power company tells the desk, of one not announced
}

// cuts draws the power cuts of a line.
func (s Seed) cuts(d district, until time.Time) []Cut {
	r := s.Dice("cuts", d.line)
	var all []Cut
	between := 365 / cutsYearly
	for at := Begins.Add(days(between * r.ExpFloat64())); at.Before(until); at = at.Add(days(between * r.ExpFloat64())) {
		c := Cut{N: len(all), Line: d.line, Span: Span{From: at}}
		lasts := about(r, cutMedian, cutSpread)
		if r.Float64() < cutForetold { // works on the line, by day, which overrun or end early
			c.From = time.Date(at.Year(), at.Month(), at.Day(), 8+r.IntN(3), 0, 0, 0, at.Location())
			lasts = 2 + 6*r.Float64()
			c.Foretold = c.From.Add(minutes(60 * lasts))
			lasts = about(r, lasts, 0.25)
		}
		c.Until = c.From.Add(minutes(max(10, 60*lasts)))
		c.Heard = c.From.Add(minutes(30 + 90*r.Float64()))
		if len(all) > 0 && !c.From.After(all[len(all)-1].Until.Add(24*time.Hour)) {
			continue // the last one is hardly over
		}
		all = append(all, c)
	}
	return all
}
