package paper

import (
	"fmt"
	"io"
	"strings"
	"time"

	"lungwort/labels/scene"
)

// NightPack is the state of every household on paper, for the person on call
// when there is no network: most urgent first, then a page to answer a call from,
// then answers about all of them together, the names in order, lines to write on.
type NightPack struct {
	Head
	Horizon    time.Duration // how far the ribbons look ahead from Printed
	Duty       []Duty        // who is on call, in the order to ring them
	Stock      []SpareStock  // where full cylinders and machines are tonight
	Households []Household   // most urgent first; printed in this order
	Ring       RingCard      // to answer a call from
	Cards      []AnswerCard  // what concerns all homes together
}

// Duty is one person on call.
type Duty struct {
	What     string // "coordinator", "clinician", "driver with van 2"
	Who      string
	Phone    string
	From, To time.Time // both zero: at any hour
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
	s.ringCard(n.Ring)
	if len(n.Cards) > 0 {
		s.newPage()
		s.answerCards(n.Cards)
	}
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
		hours := "at any hour"
		if !d.From.IsZero() {
			hours = weekdayClock(d.From) + " to " + weekdayClock(d.To)
		}
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
