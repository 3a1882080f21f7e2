package paper

import (
	"fmt"
	"io"
	"strconv"
	"time"

	"lungwort/labels/scene"
)

// OutageList is the list for a power cut: every home it touches in the order
// of the calls, each with lines to write down what the call heard.
type OutageList struct {
	Head
	Where   string    // "on Mill line"
	From    time.Time // of the power cut, or of printing when it is under way
	Until   time.Time // as far as power is counted out
	Verdict string    // of the worst home
	Says    string    // "3 of 12 homes run out within 8 h"
	Do      []string  // in order
	Stock   string    // what is ready
	Homes   []OutageHome
}

// OutageHome is one home on the list.
type OutageHome struct {
	Verdict string
	Name    string
	Street  string
	Phones  []Phone
	Gas     string // what is there, with the age of the reading and the flow
	Cover   time.Duration
	NoCover bool      // nobody can say
	Ends    time.Time // zero when nobody can say
	Call    time.Time // when to call next
	Next    string
	Ribbon  scene.RibbonData
}

// Print writes the list, lying.
func (o OutageList) Print(w io.Writer) (Result, error) {
	title := fmt.Sprintf("Power cut %s, %s to %s", o.Where, moment(o.From), moment(o.Until))
	s, err := newSheet(o.Head, o.Format.turned(), "Outage list", title)
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.y += 1
	s.say(heading, o.Verdict+": "+o.Says)
	for i, step := range o.Do {
		s.say(body, fmt.Sprintf("%d  %s", i+1, step))
	}
	s.say(small, o.Stock+". Ask each: does the concentrator run; what do gauge and flow meter show; was the flow turned down to save gas "+
		"(that goes to the clinician). Breathless, or gas at its end: emergency number first. No flame near oxygen, candles too.")
	s.y += 1.5
	s.outageHomes(o)
	return s.finish(w)
}

func (s *sheet) outageHomes(o OutageList) {
	columns := []column{
		{"no.", 8}, {"home", 54}, {"lasts", 42}, {"gas to the end of it", 42}, {"next", s.width() - 241},
		{"called at", 18}, {"found", 30}, {"gauge, flow", 26}, {"again at", 21},
	}
	var rows [][]cell
	for i, h := range o.Homes {
		rows = append(rows, h.row(i+1, o.Printed, columns[3].inside()))
	}
	s.table(columns, rows)
}

// row is a home's row: what is known, then boxes and room for the call.
func (h OutageHome) row(number int, now time.Time, ribbonWidth float64) []cell {
	lasts, ends := "not known: ask for a reading", ""
	if !h.NoCover {
		lasts, ends = span(max(h.Cover, 0)), "until "+momentBeside(h.Ends, now)
	}
	found := stack{}
	for _, what := range []string{"runs", "on backup", "turned down", "no answer"} {
		found = append(found, ticked{said{rowFace, what}})
	}
	return []cell{
		said{rowBold, strconv.Itoa(number)},
		stack{said{rowBold, h.Name}, said{rowFace, h.Street}, said{rowFace, phones(h.Phones)}},
		stack{
			beside{drawn{scene.VerdictMark(h.Verdict, 11)}, said{rowBold, h.Verdict + ", " + lasts}},
			said{rowFace, ends}, said{rowFace, h.Gas},
		},
		drawn{scene.Ribbon(h.Ribbon, ribbonWidth, 40)},
		stack{said{rowBold, h.Next}, said{rowFace, "call " + momentBeside(h.Call, now)}},
		space{}, found, space{}, space{},
	}
}
