package paper

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/labels/scene"
)

// rowFace is small so that a night's homes stay a few pages.
var (
	rowFace = face{size: 8.5}
	rowBold = face{size: 9, bold: true}
)

// households lists every home; those that hold take less room.
func (s *sheet) households(n NightPack) {
	columns := []column{
		{"no.", 8}, {"verdict", 26}, {"home", 59}, {"gas there", 90}, {"", 32}, {"next", s.width() - 215},
	}
	axis := scene.Axis(n.Printed, n.Horizon, columns[4].inside(), float64(s.headerHeight())*pointsPerMM)
	header := func() {
		x, y := s.left()+cellPad, s.y
		for _, c := range columns[:4] {
			x += c.width
		}
		s.tableHeader(columns)
		s.picture(x, y, axis)
	}
	for i, h := range n.Households {
		row := h.row(i+1, n, columns[4].inside())
		tall := s.rowHeight(columns, row)
		if i == 0 {
			s.need(s.headerHeight() + tall)
		}
		if s.need(tall) || i == 0 {
			header()
		}
		s.tableRow(columns, row, tall)
	}
}

// row is a household's row; a ribbon fills the given width in points.
func (h Household) row(number int, n NightPack, ribbonWidth float64) []cell {
	tall := 40.0
	home := stack{said{rowBold, h.Name}, said{rowFace, h.Street}, said{rowFace, phones(h.Phones)}}
	gas := stack{said{rowFace, h.kit()}, said{rowBold, h.cover()}, said{rowFace, h.reading(n.Printed)}}
	next := stack{said{rowBold, h.Do}, said{rowFace, strings.Join(present(h.visit(n.Printed), h.Nearest), "; ")}}
	if h.Verdict == scene.Holds {
		tall = 22
		home = stack{said{rowBold, strings.Join(present(h.Name, h.Street), ", ")}, said{rowFace, phones(h.Phones)}}
		gas = stack{said{rowFace, h.kit()}, said{rowFace, h.cover() + "; " + h.reading(n.Printed)}}
		next = stack{said{rowFace, strings.Join(present(h.Do, h.visit(n.Printed)), "; ")}}
	}
	ribbon := h.Ribbon
	ribbon.Now, ribbon.Horizon = n.Printed, n.Horizon
	return []cell{
		said{rowBold, strconv.Itoa(number)},
		stack{
			beside{drawn{scene.VerdictMark(h.Verdict, 11)}, said{rowBold, h.Verdict}},
			said{rowFace, h.actBy(n.Printed)},
		},
		home, gas, drawn{scene.Ribbon(ribbon, ribbonWidth, tall)}, next,
	}
}

// kit is what the person breathes from and at what flow.
func (h Household) kit() string { return strings.Join(present(h.Flow, h.There), "; ") }

func (h Household) actBy(now time.Time) string {
	if h.ActBy.IsZero() {
		return ""
	}
	return "act by " + momentBeside(h.ActBy, now)
}

// phones sets the numbers in one line, the first to ring first.
func phones(phones []Phone) string {
	var said []string
	for _, p := range phones {
		said = append(said, strings.Join(present(p.Number, p.Whose), " "))
	}
	return strings.Join(said, " · ")
}

// cover is how long the gas lasts, its safe end in front.
func (h Household) cover() string {
	switch {
	case h.NoCover:
		return "cover not known: ask for a reading"
	case h.CoverFar > h.Cover:
		return fmt.Sprintf("lasts %s to %s", span(max(h.Cover, 0)), span(h.CoverFar))
	}
	return "lasts " + span(max(h.Cover, 0))
}

// reading is what the cover rests on, with its age.
func (h Household) reading(now time.Time) string {
	if h.ReadAt.IsZero() {
		return "no reading"
	}
	return fmt.Sprintf("%s, %s", h.Reading, age(h.ReadAt, now))
}

func (h Household) visit(now time.Time) string {
	if h.NextVisit.IsZero() {
		return ""
	}
	return strings.Join(present("visit "+momentBeside(h.NextVisit, now), h.VisitBy), ", ")
}
