package sheet

import (
	"regexp"
	"time"
)

// asOfLayout is how the head of a sheet says when its facts were so.
const asOfLayout = "Mon 2006-01-02 15:04 -07:00"

// Given is what the head of a sheet that this program gave out says of it.
type Given struct {
	What string    // Out.What
	AsOf time.Time // to the minute
}

// headOfOurs is the line above the headings of a sheet given out.
var headOfOurs = regexp.MustCompile(`^Facts as of (\w{3} \d{4}-\d\d-\d\d \d\d:\d\d [+-]\d\d:\d\d), given out by Lungwort: (.+)$`)

// asOfLine says when the facts were so, and what was given out, so that the
// sheet is known when it comes back.
func (o Out) asOfLine() string {
	line := "Facts as of " + o.AsOf.Format(asOfLayout)
	if o.What != "" {
		line += ", given out by Lungwort: " + o.What
	}
	return line
}

// GivenOut reports whether the table is a sheet that this program gave out,
// and what its head says. Its rows may have been edited since.
func GivenOut(t Table) (Given, bool) {
	const headLines = 5
	for _, r := range t.Rows[:min(len(t.Rows), headLines)] {
		for _, c := range r.Cells {
			m := headOfOurs.FindStringSubmatch(c.Text)
			if m == nil {
				continue
			}
			asOf, err := time.Parse(asOfLayout, m[1])
			return Given{m[2], asOf}, err == nil
		}
	}
	return Given{}, false
}

// Shown returns text as a cell shows it once it went out in a sheet and came
// back.
func Shown(text string) string { return clean(storable(text)) }
