package paper

import (
	"cmp"
	"io"
	"strconv"
	"time"

	"lungwort/labels/tongue"
)

// HandOver is the receipt for a kit that a person takes home from the ward.
type HandOver struct {
	Head
	Tongue       tongue.Tongue // of the household
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
	s, err := spokenSheet(h.Head, h.Tongue, "Hand-over receipt", "hand.title")
	if err != nil {
		return Result{}, err
	}
	say := s.tongue.Say
	s.title += "  ·  " + s.tongue.Moment(h.At)
	s.newPage()
	s.again = h.Name
	s.whose(h.Name, h.Identifiers, h.Address)
	s.facts([]fact{
		{say("hand.place"), h.Place}, {say("hand.by"), h.HandedBy}, {say("hand.flow"), h.FlowSet},
		{say("hand.ordered"), h.Order}, {say("hand.next"), h.Next}, {say("hand.due"), s.momentBeside(h.NextBy, h.At)},
	}, 3)
	s.heading(say("hand.lent"), 24)
	s.kit(h.Kit, h.At)
	s.numbersToRing(h.Numbers)
	s.notice(say("hand.caution", "distance", cmp.Or(h.FireDistance, say("hand.distance"))))
	s.teachBackOnWard(h)
	s.spokenSignature("hand.sign", "sign.theirs")
	s.blanks([]blank{{say("hand.ours"), 80}, {say("sign.role"), 90}, {say("sign.when"), 30}}, 12)
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
			gauge = stack{said{strong, i.Gauge}, said{small, s.momentBeside(i.ReadAt, now)}}
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
	s.heading(s.tongue.Say("ring.title"), 30)
	list := append([]Phone{{s.tongue.Say("ring.emergency"), s.head.Emergency}}, numbers...)
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
	say := s.tongue.Say
	s.heading(say("teach.title"), 20)
	s.ticks([]string{say("teach.valve"), say("teach.flow"), say("teach.gas")}, 3)
	word := func(key, value string) string {
		if value == "" {
			return say(key)
		}
		return say(key) + ": " + value
	}
	s.blanks([]blank{{word("teach.by", h.TaughtBy), 70}, {word("teach.language", h.Language), 60}, {say("teach.numbers"), 60}}, 10)
}
