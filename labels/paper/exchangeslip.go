package paper

import (
	"io"
	"strconv"
	"strings"
	"time"

	"lungwort/labels/tongue"
)

// ExchangeSlip is what was exchanged with a filling plant and signed for: by
// count for what is rented, by serial for what is ours.
type ExchangeSlip struct {
	Head
	Tongue tongue.Tongue // of the depot; none is English
	Plant  string
	Depot  string
	Driver string // who signed for the plant
	By     string // who signed for us
	Theirs string // the plant's own number of the slip
	At     time.Time
	Lines  []SlipLine
	Went   []Item
	Came   []Item
	Notes  []SlipNote
}

// SlipLine counts the cylinders of one owner and size.
type SlipLine struct {
	Owner, Size string
	Out, In     int
}

// SlipNote is what did not fit, and the next step.
type SlipNote struct{ Says, Next string }

// Print writes the slip.
func (x ExchangeSlip) Print(w io.Writer) (Result, error) {
	s, err := spokenSheet(x.Head, x.Tongue, "Exchange slip", "slip.title")
	if err != nil {
		return Result{}, err
	}
	say := s.tongue.Say
	s.title += "  ·  " + s.tongue.Moment(x.At)
	s.newPage()
	s.again = say("slip.with", "plant", x.Plant)
	s.facts([]fact{
		{say("slip.plant"), x.Plant}, {say("slip.depot"), x.Depot}, {say("slip.at"), s.tongue.Day(x.At) + " " + clock(x.At)},
		{say("slip.driver"), x.Driver}, {say("slip.us"), x.By}, {say("slip.theirs"), x.Theirs},
	}, 3)
	s.slipCounts(x.Lines)
	s.slipNotes(x.Notes)
	s.slipItems(say("slip.went"), x.Went)
	s.slipItems(say("slip.came"), x.Came)
	s.heading(say("slip.listed"), 30)
	s.blanks([]blank{{say("slip.sign.plant"), 80}, {say("sign.name"), 80}, {say("sign.when"), 40}}, 14)
	s.blanks([]blank{{say("slip.sign.us"), 80}, {say("sign.role"), 80}, {say("sign.when"), 40}}, 14)
	return s.finish(w)
}

func (s *sheet) slipCounts(lines []SlipLine) {
	say := s.tongue.Say
	s.heading(say("slip.counted"), 20)
	var rows [][]cell
	for _, l := range lines {
		rows = append(rows, []cell{
			said{body, l.Owner}, said{strong, l.Size}, said{strong, strconv.Itoa(l.Out)}, said{strong, strconv.Itoa(l.In)}, said{strong, s.signed(l.In - l.Out)},
		})
	}
	s.table([]column{{say("slip.owner"), s.width() - 120}, {say("slip.size"), 30}, {say("slip.out"), 30}, {say("slip.in"), 30}, {say("slip.difference"), 30}}, rows)
}

// signed is a number with its sign, or the word for none.
func (s *sheet) signed(n int) string {
	switch {
	case n > 0:
		return "+" + strconv.Itoa(n)
	case n < 0:
		return "–" + strconv.Itoa(-n)
	}
	return s.tongue.Say("slip.even")
}

func (s *sheet) slipNotes(notes []SlipNote) {
	if len(notes) == 0 {
		return
	}
	s.heading(s.tongue.Say("slip.exceptions"), 16)
	var rows [][]cell
	for _, n := range notes {
		rows = append(rows, []cell{said{strong, n.Says}, said{body, n.Next}})
	}
	s.table([]column{{s.tongue.Say("slip.unfit"), s.width() / 2}, {s.tongue.Say("tag.next"), s.width() / 2}}, rows)
}

// slipItems lists cylinders three beside each other: a truck brings many.
func (s *sheet) slipItems(title string, items []Item) {
	if len(items) == 0 {
		return
	}
	const across = 3
	s.heading(title, 14)
	wide := s.width() / across
	columns := make([]column, across)
	for i := range columns {
		columns[i] = column{s.tongue.Say("slip.item"), wide}
	}
	var rows [][]cell
	for from := 0; from < len(items); from += across {
		row := make([]cell, across)
		for i := range row {
			row[i] = said{}
			if from+i < len(items) {
				item := items[from+i]
				row[i] = stack{said{strong, item.Tag}, said{small, strings.Join(present(item.Serial, item.What), " · ")}}
			}
		}
		rows = append(rows, row)
	}
	s.table(columns, rows)
}
