package paper

import (
	"io"
	"strconv"
	"strings"
	"time"
)

// ExchangeSlip is what was exchanged with a filling plant and signed for: by
// count for what is rented, by serial for what is ours.
type ExchangeSlip struct {
	Head
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
	s, err := newSheet(x.Head, x.Format, "Exchange slip", "Exchange slip  ·  "+moment(x.At))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.again = "Exchange with " + x.Plant
	s.facts([]fact{
		{"filling plant", x.Plant}, {"our depot", x.Depot}, {"exchanged", s.tongue.Day(x.At) + " " + clock(x.At)},
		{"signed for the plant", x.Driver}, {"for us", x.By}, {"number of their slip", x.Theirs},
	}, 3)
	s.heading("Counted, by owner and size", 20)
	var rows [][]cell
	for _, l := range x.Lines {
		rows = append(rows, []cell{
			said{body, l.Owner}, said{strong, l.Size}, said{strong, strconv.Itoa(l.Out)}, said{strong, strconv.Itoa(l.In)}, said{strong, signed(l.In - l.Out)},
		})
	}
	s.table([]column{{"owner", s.width() - 120}, {"size", 30}, {"went out", 30}, {"came in", 30}, {"difference", 30}}, rows)
	s.slipNotes(x.Notes)
	s.slipItems("Went out, by serial", x.Went)
	s.slipItems("Came in, by serial", x.Came)
	s.heading("Exchanged as listed", 30)
	s.blanks([]blank{{"signature for the plant", 80}, {"printed name", 80}, {"date and time", 40}}, 14)
	s.blanks([]blank{{"signature for us", 80}, {"printed name, role", 80}, {"date and time", 40}}, 14)
	return s.finish(w)
}

// signed is a number with its sign; none is "even".
func signed(n int) string {
	switch {
	case n > 0:
		return "+" + strconv.Itoa(n)
	case n < 0:
		return "–" + strconv.Itoa(-n)
	}
	return "even"
}

func (s *sheet) slipNotes(notes []SlipNote) {
	if len(notes) == 0 {
		return
	}
	s.heading("Signed with these exceptions", 16)
	var rows [][]cell
	for _, n := range notes {
		rows = append(rows, []cell{said{strong, n.Says}, said{body, n.Next}})
	}
	s.table([]column{{"what did not fit", s.width() / 2}, {"next", s.width() / 2}}, rows)
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
		columns[i] = column{"tag, serial, what", wide}
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
