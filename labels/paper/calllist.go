package paper

import (
	"fmt"
	"io"
	"strconv"
	"time"
)

// CallList is a list of calls, in the order in which to make
// them, each with room to write what was heard.
type CallList struct {
	Head
	Name  string // "Calls due"
	Calls []CallLine
	Asks  []string // the script, in its order
	Bands string   // what is done with the numbers
}

// CallLine is one call on the list.
type CallLine struct {
	Verdict  string
	Name     string
	Phones   []Phone // the one to try first stands first
	Language string
	Why      string
	By       time.Time
	Ask      string // beside the usual questions
	Ordered  string
}

// Print writes the list, lying.
func (l CallList) Print(w io.Writer) (Result, error) {
	s, err := newSheet(l.Head, l.Format.turned(), l.Name, fmt.Sprintf("%s, %s: %d", l.Name, moment(l.Printed), len(l.Calls)))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.y += 1
	for _, ask := range l.Asks {
		s.say(body, ask)
	}
	s.say(small, l.Bands+". A saturation without the flow it was taken on says nothing. Breathless or worse: emergency number first, whatever the numbers say. Flow is the clinician's to change, never ours.")
	s.y += 1.5
	columns := []column{
		{"no.", 8}, {"call", 58}, {"why, and what to ask", s.width() - 237}, {"called at", 18}, {"worse?", 16},
		{"SpO2 on flow", 28}, {"gauge, hours", 28}, {"said, to bring", 41}, {"told whom, when", 40},
	}
	rows := make([][]cell, len(l.Calls))
	for i, c := range l.Calls {
		rows[i] = []cell{
			said{rowBold, strconv.Itoa(i + 1)},
			stack{said{rowBold, c.Name}, said{rowFace, phones(c.Phones)}, said{rowFace, spoken(c.Language)}, said{rowFace, c.Ordered}},
			stack{said{rowBold, c.Verdict + ": " + c.Why + ", by " + momentBeside(c.By, l.Printed)}, said{rowFace, c.Ask}},
			space{14}, stack{ticked{said{rowFace, "no"}}, ticked{said{rowFace, "yes"}}}, space{}, space{}, space{}, space{},
		}
	}
	s.table(columns, rows)
	return s.finish(w)
}

func spoken(language string) string {
	if language == "" {
		return ""
	}
	return "speaks " + language
}

// ConcernList is what the clinician has not heard of yet, each with its facts
// and room for whom, when and the reply.
type ConcernList struct {
	Head
	Concerns   []ConcernLine
	Clinicians []Phone // whom to ring, in that order
}

// ConcernLine is one matter of one person.
type ConcernLine struct {
	Name    string
	Ordered string
	Says    string
	Facts   string
	Since   time.Time
	Now     bool // can't wait
}

// Print writes the list, lying.
func (l ConcernList) Print(w io.Writer) (Result, error) {
	s, err := newSheet(l.Head, l.Format.turned(), "To tell the clinician", fmt.Sprintf("To tell the clinician, %s: %d", moment(l.Printed), len(l.Concerns)))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.y += 1
	s.say(heading, phones(l.Clinicians))
	s.say(small, "What was seen, not what to do: flow, saturation and stopping are the clinician's. Write whom you told and when, and key it in under Calls.")
	s.y += 1.5
	columns := []column{
		{"no.", 8}, {"who", 48}, {"what was seen", 76}, {"facts", s.width() - 232}, {"told whom", 34}, {"when", 20}, {"reply", 46},
	}
	rows := make([][]cell, len(l.Concerns))
	for i, c := range l.Concerns {
		saw := said{rowFace, c.Says}
		if c.Now {
			saw = said{rowBold, "now: " + c.Says}
		}
		rows[i] = []cell{
			said{rowBold, strconv.Itoa(i + 1)},
			stack{said{rowBold, c.Name}, said{rowFace, c.Ordered}},
			stack{saw, said{rowFace, "since " + momentBeside(c.Since, l.Printed)}},
			said{rowFace, c.Facts}, space{14}, space{}, space{},
		}
	}
	s.table(columns, rows)
	return s.finish(w)
}
