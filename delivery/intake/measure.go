package intake

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"

	"lungwort/inventory/gas"
	"lungwort/inventory/sheet"
)

// settled takes the error of a quantity: a question with candidates is asked,
// anything else refuses the row. It returns the candidate that was chosen.
func (r *reader) settled(l *line, key, text string, err error) (gas.Candidate, bool) {
	var q *gas.Question
	if !errors.As(err, &q) || len(q.Candidates) == 0 {
		l.refuse("%s: %s", l.heading(key), strings.TrimSuffix(err.Error(), ".")+".")
		return gas.Candidate{}, false
	}
	choices := make([]Choice, len(q.Candidates))
	for i, c := range q.Candidates {
		choices[i] = Choice{Value: c.Says}
		if i == q.Careful {
			choices[i].Says = "the careful one"
		}
	}
	answer, ok := r.ask(l, Question{
		Key:     fmt.Sprintf("%s:%s:%s", key, l.list.name(), text),
		Asks:    fmt.Sprintf("%s says “%s”: %s", l.heading(key), text, q.Asks),
		Choices: choices,
	}, text)
	for _, c := range q.Candidates {
		if ok && c.Says == answer {
			return c, true
		}
	}
	return gas.Candidate{}, false
}

// flow reads a flow; nil is unknown.
func (r *reader) flow(l *line, key string) *gas.Flow {
	text := l.text(key)
	if text == "" {
		return nil
	}
	flow, err := gas.ParseFlow(withUnit(text, l.list.mapping.Units[key]))
	if err != nil {
		if low, high, isRange := flowRange(text); isRange && key == "rest" {
			return r.between(l, low, high)
		}
		c, ok := r.settled(l, key, text, err)
		if !ok {
			return nil
		}
		flow = c.Flow
	}
	if flow > mostAtHome {
		l.refuse("%s: %s is more than home kit gives. Ask the prescriber for flow and unit.", l.heading(key), flow)
		return nil
	}
	return &flow
}

// mostAtHome is the highest flow an order may have; see delivery.Ordered.
const mostAtHome gas.Flow = 25

var betweenFlows = regexp.MustCompile(`[-–—−]|\bto\b`)

// flowRange parts an order given as a range into its ends.
func flowRange(text string) (low, high gas.Flow, isRange bool) {
	var q *gas.Question
	_, err := gas.ParseFlow(text)
	if !errors.As(err, &q) || len(q.Candidates) != 2 || !betweenFlows.MatchString(text) {
		return 0, 0, false
	}
	a, b := q.Candidates[0].Flow, q.Candidates[1].Flow
	return min(a, b), max(a, b), a != b
}

// between asks what an order given as a range means. With the lower flow at
// rest the higher one is for exertion; both count for cover.
func (r *reader) between(l *line, low, high gas.Flow) *gas.Flow {
	text := l.text("rest")
	split := fmt.Sprintf("%s at rest, %s on exertion", low, high)
	answer, ok := r.ask(l, Question{
		Key:  "flow:" + l.list.name() + ":" + text,
		Asks: fmt.Sprintf("%s says “%s”. Which flow was ordered?", l.heading("rest"), text),
		Choices: []Choice{
			{high.String(), "at rest as well: the careful one for cover"},
			{split, "as the prescriber may have meant it: ask"},
		},
		group: "flow", means: map[string]string{high.String(): "the higher flow at rest", split: "the lower flow at rest, the higher on exertion"},
	}, text)
	switch {
	case !ok:
		return nil
	case answer == split:
		l.exertion = &high
		return &low
	}
	return &high
}

// unitFirst is a measure whose unit stands in front.
var unitFirst = regexp.MustCompile(`^([A-Za-z]+)\s*([\d.,' ]+)$`)

// withUnit puts the unit of the heading to a bare number.
func withUnit(text, unit string) string {
	if m := unitFirst.FindStringSubmatch(text); m != nil {
		return m[2] + " " + m[1]
	}
	if unit != "" && strings.Trim(text, "0123456789.,' ") == "" {
		return text + " " + unit
	}
	return text
}

// The answers to what a word in a gauge column means.
const (
	atFull  = "full pressure"
	notRead = "not read"
	atZero  = "zero"
)

// pressure reads one gauge reading of a cylinder whose full pressure is
// known; nil is unknown.
func (r *reader) pressure(l *line, key, text string, full gas.Pressure) *gas.Pressure {
	text = strings.TrimSpace(text)
	if text == "" || unknown(text) {
		return nil
	}
	unit := l.list.mapping.Units[key]
	if unit == "" && strings.Trim(text, "0123456789.,' ") == "" && strings.Trim(text, "0., ") != "" {
		var ok bool
		if unit, ok = r.unit(l, key, text); !ok {
			return nil
		}
	}
	p, err := gas.ParseGauge(withUnit(text, unit), full)
	if err == nil {
		return &p
	}
	switch strings.ToLower(text) {
	case "full", "f":
		return r.wordOnGauge(l, key, text, Choice{atFull, "the gauge showed the full pressure of the size"}, full)
	case "empty", "mt", "e":
		return r.wordOnGauge(l, key, text, Choice{atZero, "the gauge showed zero"}, 0)
	}
	c, ok := r.settled(l, key, text, err)
	if !ok {
		return nil
	}
	return &c.Pressure
}

func (r *reader) unit(l *line, key, text string) (string, bool) {
	return r.ask(l, Question{
		Key:     fmt.Sprintf("unit:%s:%s", l.list.name(), l.heading(key)),
		Asks:    fmt.Sprintf("In which unit are the numbers of the column %s?", l.heading(key)),
		Choices: []Choice{{"psi", "2,000 is a full cylinder"}, {"bar", "137 is a full cylinder"}, {"kPa", "13,800 is a full cylinder"}, {"MPa", "13.8 is a full cylinder"}},
	}, text)
}

// wordOnGauge asks what a conclusion in a gauge column stands for. A cylinder
// is never taken for full or empty without a reading.
func (r *reader) wordOnGauge(l *line, key, text string, c Choice, p gas.Pressure) *gas.Pressure {
	answer, ok := r.ask(l, Question{
		Key:     fmt.Sprintf("gauge:%s:%s", l.list.name(), strings.ToLower(text)),
		Asks:    fmt.Sprintf("%s says “%s”, which is no reading. What did the gauge show?", l.heading(key), text),
		Choices: []Choice{c, {notRead, "nobody read it: the contents are unknown"}},
	}, text)
	if !ok || answer == notRead {
		return nil
	}
	return &p
}

// betweenValues are the signs that part several values in a cell.
var betweenValues = regexp.MustCompile(`\s*[;\n&+]\s*|,\s+|\s+/\s+|\s+and\s+`)

// readings parts a cell with the readings of several cylinders.
func readings(text string, cylinders int) []string {
	if cylinders < 2 || text == "" {
		return []string{text}
	}
	parts := betweenValues.Split(text, -1)
	if len(parts) == 1 {
		if tight := strings.Split(text, ","); len(tight) == cylinders && len(tight[0]) > 3 {
			return tight
		}
	}
	return parts
}

// meter reads an hours meter; nil is unknown.
func (r *reader) meter(l *line, key string) *float64 {
	text := l.text(key)
	if text == "" {
		return nil
	}
	d, err := gas.ParseHours(text)
	if err != nil {
		c, ok := r.settled(l, key, text, err)
		if !ok {
			return nil
		}
		d = c.Hours
	}
	h := float64(d) / float64(time.Hour)
	return &h
}

// number reads a plain number within bounds; nil is unknown. Words beside it
// must be among those allowed.
func (r *reader) number(l *line, key string, least, most float64, allowed ...string) *float64 {
	v, words, found, err := sheet.ParseNumber(l.cell(key))
	switch {
	case err != nil:
		l.refuse("%s %s", l.heading(key), err)
		return nil
	case !found:
		return nil
	case words != "" && !containsFold(allowed, words):
		l.refuse("%s “%s”: what “%s” means is not known. Write the number alone.", l.heading(key), l.text(key), words)
		return nil
	case v < least || v > most:
		l.refuse("%s “%s” is outside %g to %g.", l.heading(key), l.text(key), least, most)
		return nil
	}
	return &v
}

func containsFold(list []string, word string) bool {
	for _, w := range list {
		if strings.EqualFold(w, word) {
			return true
		}
	}
	return false
}
