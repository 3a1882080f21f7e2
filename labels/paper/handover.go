package paper

import (
	"fmt"
	"io"
	"strconv"
	"time"
)

// HandOver is the receipt for a kit that a person takes home from the ward.
type HandOver struct {
	Head
	Name         string
	Identifiers  []string // besides the name
	Address      []string // where they sleep tonight, in lines
	Place        string   // "ward 4 West"
	At           time.Time
	HandedBy     string // who hands over, with their role
	Order        string // the ordered flows, as the clinician wrote them
	FlowSet      string // the flow set at hand-over, "2 L/min"
	Kit          []KitItem
	Next         string    // what comes next: "Concentrator today 17:10, run 3"
	NextBy       time.Time // by when it must have come (act-by); zero for none
	Numbers      []Phone   // whom to ring, after the emergency number
	TaughtBy     string    // who showed the valve and the flow; empty leaves the line to fill in
	Language     string    // in which it was shown
	FireDistance string    // as in RunSheet
}

// KitItem is one thing of a kit as it is handed over or comes back.
type KitItem struct {
	Item
	Gauge  string    // "1,400 psi"; empty for what has none
	ReadAt time.Time // when the gauge was read
}

// Print writes the receipt.
func (h HandOver) Print(w io.Writer) (Result, error) {
	s, err := newSheet(h.Head, h.Format, "Hand-over receipt", "Hand-over receipt  ·  "+moment(h.At))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.again = "Hand-over to " + h.Name
	s.whose(h.Name, h.Identifiers, h.Address)
	s.facts([]fact{
		{"handed over at", h.Place}, {"by", h.HandedBy}, {"flow set", h.FlowSet},
		{"ordered flow (the clinician decides)", h.Order}, {"next", h.Next}, {"must have come by", momentBeside(h.NextBy, h.At)},
	}, 3)
	s.heading("Lent, not given: it stays the programme's and comes home", 24)
	s.kit(h.Kit, h.At)
	s.numbersToRing(h.Numbers)
	s.notice(cautions(h.FireDistance))
	s.teachBackOnWard(h)
	s.signatures("I have received the things above and been shown how to use them.",
		"signature of the person or who acts for them", "signature of who hands over")
	return s.finish(w)
}

// whose names the person and the address.
func (s *sheet) whose(name string, identifiers, address []string) {
	s.y += s.paragraph(s.left(), s.y, title, s.width(), name, 2)
	for _, line := range identifiers[:min(len(identifiers), 4)] {
		s.y += s.paragraph(s.left(), s.y, strong, s.width(), line, 1)
	}
	for _, line := range address[:min(len(address), 6)] {
		s.y += s.paragraph(s.left(), s.y, strong, s.width(), line, 1)
	}
	s.y += 2
}

// kit lists things with their serials, codes and readings.
func (s *sheet) kit(items []KitItem, now time.Time) {
	say := s.tongue.Say
	columns := []column{
		{say("kit.count"), 18}, {say("kit.what"), 58}, {say("kit.tag"), 34}, {say("kit.serial"), 32}, {say("kit.gauge"), s.width() - 160}, {say("kit.code"), 18},
	}
	var rows [][]cell
	for _, i := range items {
		gauge := stack{}
		if i.Gauge != "" {
			gauge = stack{said{strong, i.Gauge}, said{small, momentBeside(i.ReadAt, now)}}
		}
		rows = append(rows, []cell{
			said{strong, strconv.Itoa(i.quantity())}, said{body, i.What}, said{strong, i.Tag}, said{body, i.Serial},
			gauge, coded{i.Code, 13},
		})
	}
	s.table(columns, rows)
}

// numbersToRing repeats the emergency number in front, large.
func (s *sheet) numbersToRing(numbers []Phone) {
	s.heading("Whom to ring, day and night", 30)
	list := append([]Phone{{"cannot breathe, chest pain, fire, or no oxygen left", s.head.Emergency}}, numbers...)
	for _, p := range list[:min(len(list), mostNumbers)] {
		s.need(heading.leading())
		s.fitted(s.left(), s.y, heading, 52, p.Number)
		s.fitted(s.left()+54, s.y+0.6, strong, s.width()-54, p.Whose)
		s.y += heading.leading()
	}
	s.y += 1
}

// teachBackOnWard is the same three steps as at home, on the ward.
func (s *sheet) teachBackOnWard(h HandOver) {
	s.heading("Shown back by the person or carer, without help", 20)
	s.ticks([]string{"opened the valve", "set the flow", "felt the gas come"}, 3)
	words := "shown by"
	if h.TaughtBy != "" {
		words = fmt.Sprintf("shown by %s", h.TaughtBy)
	}
	language := "language"
	if h.Language != "" {
		language = "language: " + h.Language
	}
	s.blanks([]blank{{words, 70}, {language, 60}, {"emergency numbers left with", 60}}, 10)
}

// signatures is where both sides sign.
func (s *sheet) signatures(words, theirs, ours string) {
	s.heading(words, 32)
	s.blanks([]blank{{theirs, 80}, {"printed name", 60}, {"relationship", 30}, {"date and time", 30}}, 14)
	s.blanks([]blank{{ours, 80}, {"printed name, role", 90}, {"date and time", 30}}, 12)
}
