package intake

import (
	"slices"
	"strings"
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

	free  bool // any text answers, though there are choices
	lines []*line
}

// Free reports whether any text answers the question.
func (q Question) Free() bool { return q.free || len(q.Choices) == 0 }

// Answers are what was answered, by the keys of the questions.
type Answers map[string]string

// inquiry collects questions and knows the answers given.
type inquiry struct {
	answers Answers
	byKey   map[string]*Question
	order   []string
}

// ask returns the answer to a question for a line, or makes the line wait
// for it. An answer that is none of the choices is asked for again.
func (q *inquiry) ask(l *line, asked Question, example string) (string, bool) {
	if answer, ok := q.answered(asked); ok {
		return answer, true
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
	if !slices.Contains(held.lines, l) {
		held.lines = append(held.lines, l)
		l.waits = append(l.waits, held)
	}
	return "", false
}

func (q *inquiry) answered(asked Question) (string, bool) {
	given := strings.TrimSpace(q.answers[asked.Key])
	if given == "" {
		return "", false
	}
	for _, c := range asked.Choices {
		if strings.EqualFold(c.Value, given) {
			return c.Value, true
		}
	}
	return given, asked.Free()
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
			if l.fate() == waiting {
				asked.Rows = append(asked.Rows, l.number())
			}
		}
		if len(asked.Rows) == 0 {
			continue
		}
		slices.Sort(asked.Rows)
		asked.Rows = slices.Compact(asked.Rows)
		if asked.Examples == nil {
			asked.Examples = []string{}
		}
		if asked.Choices == nil {
			asked.Choices = []Choice{}
		}
		open = append(open, asked)
	}
	return open
}
