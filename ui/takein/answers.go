package takein

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory"
)

// Asked is one question as the list shows it.
type Asked struct {
	Key      string
	Asks     string
	Examples string
	Rows     string
	Answer   string // empty while it is open
	Before   string // when and by whom it was answered for an earlier list
	Choices  []intake.Choice
	Free     bool // any text answers it
}

// Asked are the questions, the open ones first, then those answered, which
// can be answered anew.
func (m *Model) Asked() []Asked {
	if m.Reading == nil {
		return nil
	}
	var list []Asked
	for _, q := range m.Reading.Questions {
		list = append(list, asked(q, ""))
	}
	for _, q := range m.settled {
		open := slices.ContainsFunc(m.Reading.Questions, func(o intake.Question) bool { return o.Key == q.Key })
		if !open {
			list = append(list, asked(q, m.answers[q.Key]))
		}
	}
	for _, k := range m.Reading.Reused {
		a := asked(k.Question, k.Answer)
		a.Before = fmt.Sprintf("answered on %s by %s", k.At.Format("2 Jan 2006"), k.By)
		list = append(list, a)
	}
	return list
}

func asked(q intake.Question, answer string) Asked {
	return Asked{
		Key: q.Key, Asks: q.Asks, Examples: strings.Join(q.Examples, ", "), Rows: numbers(q.Rows),
		Answer: answer, Choices: q.Choices, Free: q.Free(),
	}
}

// numbers lists the numbers of rows, the first few and how many more.
func numbers(rows []int) string {
	const shown = 8
	words := make([]string, 0, shown)
	for _, row := range rows[:min(len(rows), shown)] {
		words = append(words, fmt.Sprint(row))
	}
	if more := len(rows) - len(words); more > 0 {
		return fmt.Sprintf("%s and %d more", strings.Join(words, ", "), more)
	}
	return strings.Join(words, ", ")
}

// Answer answers a question, keeps the answer for later lists, and reads the
// lists anew: rows that waited for it are clear now, or ask the next thing.
func (m *Model) Answer(key, value string) {
	value = strings.TrimSpace(value)
	if m.Reading == nil || m.Under != "" || value == "" {
		return
	}
	questions := slices.Clone(m.Reading.Questions)
	for _, k := range m.Reading.Reused {
		questions = append(questions, k.Question)
	}
	for _, q := range questions {
		if q.Key == key {
			m.settled = append(slices.DeleteFunc(m.settled, func(s intake.Question) bool { return s.Key == key }), q)
		}
	}
	m.answers = maps.Clone(m.answers)
	m.answers[key] = value
	hand := m.work.Hand(inventory.Keyed)
	tell := m.tell()
	m.start("Reading anew", func(ctx context.Context) (*intake.Reading, error) {
		r, err := m.understand(ctx, m.tables, tell)
		if err == nil && len(r.Decided()) > 0 {
			_, err = m.work.Desk.Do(ctx, hand, delivery.AnswerSheet{Answers: r.Decided()})
		}
		return r, err
	}, m.show)
}
