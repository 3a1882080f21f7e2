package paper

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/labels/scene"
)

// NightPack is the state of every household on paper, for the person on call
// when there is no network: most urgent first, then the names in order, then
// lines to write on.
type NightPack struct {
	Head
	Horizon    time.Duration // how far the ribbons look ahead from Printed
	Duty       []Duty        // who is on call, in the order to ring them
	Stock      []SpareStock  // where full cylinders and machines are tonight
	Households []Household   // most urgent first; printed in this order
}

// Duty is one person on call.
type Duty struct {
	What     string // "coordinator", "clinician", "driver with van 2"
	Who      string
	Phone    string
	From, To time.Time
}

// SpareStock is what lies ready at one place.
type SpareStock struct {
	Where string // "Slipway depot, key with the porter"
	What  string // "14 E full, 6 D full, 3 concentrators"
	Phone string // who opens
}

// Household is one person's oxygen as it was known when the pack was printed.
type Household struct {
	Verdict   string // one of scene's five
	Name      string
	Street    string
	Phones    []Phone
	Flow      string        // "3 L/min at rest, 4 walking"
	There     string        // "concentrator running; 1 E"
	Reading   string        // "E 1,800 psi"
	ReadAt    time.Time     // when the reading was taken; zero when there is none
	Cover     time.Duration // safe end of how long the gas lasts at the flow in use, from Printed
	CoverFar  time.Duration // its far end
	NoCover   bool          // nothing can be said; Cover and CoverFar are then not printed
	ActBy     time.Time     // zero for none
	NextVisit time.Time     // zero for none
	VisitBy   string        // "run 3, stop 2"
	Nearest   string        // nearest spare stock: "Slipway depot, 11 min"
	Do        string        // the next action in words
	Ribbon    scene.RibbonData
}

// Print writes the night pack, lying.
func (n NightPack) Print(w io.Writer) (Result, error) {
	title := "Night pack, " + n.Printed.Format("Mon 2 Jan 2006") + ": " + n.counts()
	s, err := newSheet(n.Head, n.Format.turned(), "Night pack", title)
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.duty(n)
	s.households(n)
	s.finder(n.Households)
	s.nightLog()
	return s.finish(w)
}

// counts says how many homes stand where, worst first.
func (n NightPack) counts() string {
	count := map[string]int{}
	for _, h := range n.Households {
		count[h.Verdict]++
	}
	said := []string{fmt.Sprintf("%d homes", len(n.Households))}
	for _, verdict := range []string{scene.Dry, scene.Short, scene.Unknown, scene.Tight, scene.Holds} {
		if count[verdict] > 0 {
			said = append(said, fmt.Sprintf("%d %s", count[verdict], verdict))
		}
	}
	return strings.Join(said, ", ")
}

// duty says who can be rung tonight and where spare gas lies.
func (s *sheet) duty(n NightPack) {
	var who, where []fact
	for _, d := range n.Duty {
		hours := weekdayClock(d.From) + " to " + weekdayClock(d.To)
		who = append(who, fact{d.Phone, strings.Join(present(d.What, d.Who, hours), ", ")})
	}
	for _, p := range n.Stock {
		where = append(where, fact{p.Phone, strings.Join(present(p.Where, p.What), ": ")})
	}
	half := s.width() / 2
	tall := max(
		s.numbers(s.left(), half-3, "On call", who),
		s.numbers(s.left()+half, half, "Spare gas and machines", where),
	)
	s.y += tall + 1
	s.say(small, "Bar: gas in the home, fading from its safe end to its far end. Hollow: cover if the concentrator stopped now. "+
		"▼ gas must be there. Flag: planned visit. Hatching: power out. Flow is the clinician's to change, never ours.")
	s.y += 1
}

// mostNumbers bounds the lists on the first page; a longer one says so.
const mostNumbers = 10

// numbers lists phone numbers with what answers there, and returns the height.
func (s *sheet) numbers(x, wide MM, name string, list []fact) MM {
	const phone MM = 27
	y := s.y
	s.words(x, y, heading, name)
	y += heading.leading()
	for _, f := range list[:min(len(list), mostNumbers)] {
		s.fitted(x, y, strong, phone-1, f.word)
		y += max(s.paragraph(x+phone, y, body, wide-phone, f.value, 2), body.leading())
	}
	if more := len(list) - mostNumbers; more > 0 {
		s.words(x, y, caption, fmt.Sprintf("and %d more: ask the desk", more))
		y += caption.leading()
	}
	return y - s.y
}

// rowFace is small so that a night's homes stay a few pages.
var (
	rowFace = face{size: 8.5}
	rowBold = face{size: 9, bold: true}
)

// households lists every home; those that hold take less room.
func (s *sheet) households(n NightPack) {
	columns := []column{
		{"no.", 10}, {"verdict", 25}, {"home", 61}, {"gas there", 89}, {"", 48}, {"next", s.width() - 233},
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
		next = stack{said{rowFace, strings.Join(present(h.Do, h.visit(n.Printed), h.Nearest), "; ")}}
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
		return "no visit"
	}
	return strings.Join(present("visit "+momentBeside(h.NextVisit, now), h.VisitBy), ", ")
}

// finder lists the names in order with the number of their row, since callers
// say their name and not their urgency.
func (s *sheet) finder(households []Household) {
	type entry struct {
		name, street string
		number       int
	}
	entries := make([]entry, len(households))
	for i, h := range households {
		entries[i] = entry{h.Name, h.Street, i + 1}
	}
	slices.SortStableFunc(entries, func(a, b entry) int {
		return strings.Compare(strings.ToLower(lastWordFirst(a.name)), strings.ToLower(lastWordFirst(b.name)))
	})
	const columns = 4
	wide := s.width() / columns
	s.heading("Names in order, with their number in this pack", 20)
	for len(entries) > 0 {
		rows := max(int((s.bottom()-s.y)/rowFace.leading()), 1)
		rows = min(rows, (len(entries)+columns-1)/columns)
		top := s.y
		for i, e := range entries[:min(len(entries), rows*columns)] {
			x, y := s.left()+MM(i/rows)*wide, top+MM(i%rows)*rowFace.leading()
			s.words(x, y, caption, strconv.Itoa(e.number))
			s.fitted(x+10, y, rowFace, wide-12, strings.Join(present(lastWordFirst(e.name), e.street), " · "))
		}
		entries = entries[min(len(entries), rows*columns):]
		s.y = top + MM(rows)*rowFace.leading()
		if len(entries) > 0 {
			s.newPage()
		}
	}
}

// lastWordFirst turns "Ines Achterberg" into "Achterberg, Ines".
func lastWordFirst(name string) string {
	words := strings.Fields(name)
	if len(words) < 2 || strings.Contains(name, ",") {
		return name
	}
	last := len(words) - 1
	return words[last] + ", " + strings.Join(words[:last], " ")
}

// nightLog is a page to write on, keyed in on the next day with its true times.
func (s *sheet) nightLog() {
	s.newPage()
	s.words(s.left(), s.y, heading, "What happened tonight (key it in tomorrow, with these times)")
	s.y += heading.leading()
	s.say(body, "Ask: who is there; which cylinder, gauge and unit; flow set now; does the machine run; other cylinders; smoking or flame near. "+
		"Breathless, or gas at its end: emergency number first, then the clinician, then the van.")
	s.y += 1
	columns := []column{
		{"time", 20}, {"no.", 14}, {"who rang", 38}, {"gauge, unit", 27}, {"flow now", 22}, {"machine", 22},
		{"said and done", s.width() - 203}, {"ring again", 26}, {"by", 18}, {"keyed", 16},
	}
	var rows [][]cell
	for range int((s.bottom() - s.y - s.headerHeight()) / 11) {
		row := make([]cell, len(columns))
		for i := range row {
			row[i] = space{11 - 2*cellPad - 0.01}
		}
		row[len(row)-1] = ticked{}
		rows = append(rows, row)
	}
	s.table(columns, rows)
}
