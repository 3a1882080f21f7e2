package paper

import (
	"fmt"
	"io"

	"lungwort/labels/scene"
)

// MeasurePages are what the programme is judged by: each measure with its
// definition, so that a figure is never read without what it counts.
type MeasurePages struct {
	Head
	Measures []MeasureBlock
}

// MeasureBlock is one measure.
type MeasureBlock struct {
	Name       string
	Says       string   // the figure in words, what is open counted as open
	Few        bool     // too few cases to say much
	Definition string   // what is counted
	Parts      []string // by cause, kind or reason; may be empty
	Months     scene.MonthData
}

// monthsTall is the height of a measure's picture in points.
const monthsTall = 116

// Print writes the pages, upright.
func (m MeasurePages) Print(w io.Writer) (Result, error) {
	s, err := newSheet(m.Head, m.Format, "Measures", fmt.Sprintf("What the programme is judged by, %s", moment(m.Printed)))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.say(small, "What is not finished counts as open, never as left out. Under each month stands how many cases it has; a hollow bar has few. "+
		"Whiskers: from half to the tail where a measure is a time, the 95 % band where it is a share.")
	for _, block := range m.Measures {
		s.measure(block)
	}
	return s.finish(w)
}

// measure draws one measure, whole on a page.
func (s *sheet) measure(b MeasureBlock) {
	const words MM = 16 // the figure, and a definition of two lines
	tall := MM(0)
	if len(b.Months.Months) > 0 {
		tall = MM(mm(monthsTall)) + 2
	}
	s.heading(b.Name, words+tall+MM(len(b.Parts))*small.leading())
	says := b.Says
	if b.Few {
		says += " (few cases)"
	}
	s.say(strong, says)
	s.say(small, b.Definition)
	if tall > 0 {
		s.picture(s.left(), s.y+1, scene.MonthChart(b.Months, float64(s.width())*pointsPerMM, monthsTall))
		s.y += tall
	}
	for _, part := range b.Parts {
		s.say(small, part)
	}
	s.y += 2
}
