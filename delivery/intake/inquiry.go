package intake

import (
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
)

// Choice is one answer a question offers.
type Choice struct {
	Value string `json:"value"`
	Says  string `json:"says"`
}

// Question is something only a person can tell. One answer serves all its
// rows. A question without choices, or with Free, takes any text.
type Question struct {
	Key      string   `json:"key"` // stable: the same list asks under the same key
	Asks     string   `json:"asks"`
	Examples []string `json:"examples"`
	Choices  []Choice `json:"choices"`
	Rows     []int    `json:"rows"`

	free  bool              // any text answers, though there are choices
	once  bool              // the answer is about this very file, not about how its source writes
	still bool              // no row waits for it: something holds until it is answered
	fits  func(string) bool // whether an answer to an earlier list can be so for this one; nil: it can
	group string            // questions of one group are put together when they are many
	means map[string]string // what a choice comes to for all questions of the group
	lines []*line
}

// Free reports whether any text answers the question.
func (q Question) Free() bool { return q.free || len(q.Choices) == 0 }

// Answers are what was answered, by the keys of the questions.
type Answers map[string]string

// Decision is an answer that was kept.
type Decision struct {
	delivery.SheetAnswer
	By string
	At time.Time
}

// Reused is a question that a kept answer settled.
type Reused struct {
	Question
	Answer string    `json:"answer"`
	By     string    `json:"by"`
	At     time.Time `json:"at"`
}

// inquiry collects questions and knows the answers given, now and before.
type inquiry struct {
	answers Answers
	before  map[string][]Decision // by question
	byKey   map[string]*Question
	order   []string
	kept    []Reused
	decided []delivery.SheetAnswer
	settled map[string]bool // keys of the answers given
	reused  map[string]int  // keys to where they are in kept
	apart   map[string]bool // groups that are asked about one by one
}

func newInquiry(answers Answers, before []Decision) *inquiry {
	q := &inquiry{
		answers: answers, before: map[string][]Decision{}, byKey: map[string]*Question{},
		kept: []Reused{}, settled: map[string]bool{}, reused: map[string]int{}, apart: map[string]bool{},
	}
	for _, d := range before {
		q.before[d.Question] = append(q.before[d.Question], d)
	}
	return q
}

// ask returns the answer to a question for a line, or makes the line wait
// for it. An answer that is none of the choices is asked for again.
func (q *inquiry) ask(l *line, asked Question, example string) (string, bool) {
	answer, held := q.raise(l, asked, example)
	if held != nil && !slices.Contains(l.waits, held) {
		l.waits = append(l.waits, held)
	}
	return answer, held == nil
}

// offer returns the answer to a question for which the line does not wait.
func (q *inquiry) offer(l *line, asked Question, example string) (string, bool) {
	asked.still = true
	answer, held := q.raise(l, asked, example)
	return answer, held == nil
}

// raise returns the answer to a question, or the question, open now.
func (q *inquiry) raise(l *line, asked Question, example string) (string, *Question) {
	if answer, ok := q.forAll(l, asked, example); ok {
		return answer, nil
	}
	if answer, ok := q.given(l, asked); ok {
		return answer, nil
	}
	if answer, ok := q.remembered(l, asked, example); ok {
		return answer, nil
	}
	held := q.byKey[asked.Key]
	if held == nil {
		held = &asked
		q.byKey[asked.Key] = held
		q.order = append(q.order, asked.Key)
		if given := strings.TrimSpace(q.answers[asked.Key]); given != "" {
			held.Asks += " “" + given + "” is no answer to this."
		}
	}
	held.show(example)
	if n := len(held.lines); n == 0 || held.lines[n-1] != l {
		held.lines = append(held.lines, l)
	}
	return "", held
}

// given returns the answer given to this reading.
func (q *inquiry) given(l *line, asked Question) (string, bool) {
	answer, ok := asked.accepts(q.answers[asked.Key])
	if ok {
		q.decide(l, asked, answer)
	}
	return answer, ok
}

// decide notes an answer that is to be kept, if it is not kept already.
func (q *inquiry) decide(l *line, asked Question, answer string) {
	if q.settled[asked.Key] {
		return
	}
	q.settled[asked.Key] = true
	if before, same := q.lookUp(l, asked); !same || before.Answer != answer {
		q.decided = append(q.decided, delivery.SheetAnswer{
			List: l.list.source(), File: l.list.content(), Question: asked.name(l.list), Asks: asked.Asks, Answer: answer,
		})
	}
}

// remembered returns the answer given to this very file before, or to an
// earlier one from the same source.
func (q *inquiry) remembered(l *line, asked Question, example string) (string, bool) {
	if len(q.before) == 0 {
		return "", false
	}
	at, met := q.reused[asked.Key]
	if !met {
		before, _ := q.lookUp(l, asked)
		answer, ok := asked.accepts(before.Answer)
		if !ok {
			return "", false
		}
		at = len(q.kept)
		q.reused[asked.Key] = at
		q.kept = append(q.kept, Reused{Question: asked, Answer: answer, By: before.By, At: before.At})
	}
	k := &q.kept[at]
	k.show(example)
	if n := len(k.Rows); n == 0 || k.Rows[n-1] != l.number() {
		k.Rows = append(k.Rows, l.number())
	}
	return k.Answer, true
}

// lookUp finds the last answer that was kept for the file, else for its source.
func (q *inquiry) lookUp(l *line, asked Question) (Decision, bool) {
	all := q.before[asked.name(l.list)]
	if len(all) == 0 {
		return Decision{}, false
	}
	if i := slices.IndexFunc(all, func(d Decision) bool { return d.File == l.list.content() }); i >= 0 {
		return all[i], true
	}
	i := slices.IndexFunc(all, func(d Decision) bool { return d.List == l.list.source() })
	if i < 0 || asked.once || asked.fits != nil && !asked.fits(all[i].Answer) {
		return Decision{}, false
	}
	return all[i], true
}

// accepts returns an answer as the question takes it.
func (q Question) accepts(given string) (string, bool) {
	given = strings.TrimSpace(given)
	if given == "" {
		return "", false
	}
	for _, c := range q.Choices {
		if strings.EqualFold(c.Value, given) {
			return c.Value, true
		}
	}
	return given, q.Free()
}

// show keeps a few different examples.
func (q *Question) show(example string) {
	const shown = 5
	if example != "" && len(q.Examples) < shown && !slices.Contains(q.Examples, example) {
		q.Examples = append(q.Examples, example)
	}
}

// open returns the questions that rows still wait for: a line that is refused
// or left out anyway waits for nothing.
func (q *inquiry) open() []Question {
	open := []Question{}
	for _, key := range q.order {
		asked := *q.byKey[key]
		for _, l := range asked.lines {
			if l.fate() == waiting || asked.still && l.fate() == clear {
				asked.Rows = append(asked.Rows, l.number())
			}
		}
		if len(asked.Rows) == 0 {
			continue
		}
		if asked.Examples == nil {
			asked.Examples = []string{}
		}
		if asked.Choices == nil {
			asked.Choices = []Choice{}
		}
		open = append(open, asked)
	}
	open = q.together(open)
	for i := range open {
		slices.Sort(open[i].Rows)
		open[i].Rows = slices.Compact(open[i].Rows)
	}
	return open
}
