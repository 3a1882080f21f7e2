package paper

import (
	"fmt"
	"strings"
)

// AnswerCard is one urgent answer on paper, as it stands on the screen.
type AnswerCard struct {
	About     string // "Power out everywhere for 8 h"
	Verdict   string
	Says      string
	Low, High string // of the number asked for; empty: none
	Help      string
	Do        []string // in order
	Assumed   []string
	Facts     []string
}

// mostSteps bounds a card on paper; a longer one says how much more there is.
const mostSteps = 12

// answerCards are drawn below each other, each beginning on the page where its
// first lines fit.
func (s *sheet) answerCards(cards []AnswerCard) {
	for _, c := range cards {
		s.heading(c.About, 30)
		s.say(strong, c.Verdict+": "+c.Says)
		facts := []string{"help: " + c.Help}
		if c.Low != "" {
			facts = append([]string{fmt.Sprintf("plan on %s, %s to %s", c.Low, c.Low, c.High)}, facts...)
		}
		s.say(body, strings.Join(facts, "; "))
		for i, step := range c.Do[:min(len(c.Do), mostSteps)] {
			s.need(rowFace.leading())
			s.say(rowFace, fmt.Sprintf("%d. %s", i+1, step))
		}
		if more := len(c.Do) - mostSteps; more > 0 {
			s.say(caption, fmt.Sprintf("and %d more: ask the desk", more))
		}
		if rests := append(append([]string{}, c.Assumed...), c.Facts...); len(rests) > 0 {
			s.say(small, strings.Join(rests, " · "))
		}
		s.y += 2
	}
}
