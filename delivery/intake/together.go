package intake

import (
	"fmt"
	"slices"
)

// fewAlike is how many questions of a group are asked one by one. More of them
// are put together into one, which can still be taken apart.
const fewAlike = 3

const oneByOne = "one by one"

// groups say what the questions of a group have in common.
var groups = map[string]string{
	"serial":   "%d groups of serials are easily taken for one another. What holds for all of them?",
	"lot":      "%d groups of lots are easily taken for one another. What holds for all of them?",
	"noughts":  "%d serials end in noughts, as numbers do that a spreadsheet made of serials (9.01E+09, 12E7). What are they?",
	"flow":     "%d flows are written as a range. Which was ordered?",
	"deceased": "%d persons are called deceased. Does their oxygen count as stopped?",
}

// whole is the one question in the place of all of its group.
func (q Question) whole(alike []Question) Question {
	all := Question{Key: "all:" + q.group, Asks: fmt.Sprintf(groups[q.group], len(alike)), Examples: []string{}, Rows: []int{}, Choices: []Choice{}}
	for _, one := range alike {
		for _, c := range one.Choices {
			means := one.means[c.Value]
			if means != "" && !slices.ContainsFunc(all.Choices, func(had Choice) bool { return had.Value == means }) {
				all.Choices = append(all.Choices, Choice{Value: means, Says: "for " + one.Examples[0] + ": " + c.Value})
			}
		}
		for _, example := range one.Examples[:1] {
			all.show(example)
		}
		all.Rows = append(all.Rows, one.Rows...)
		all.lines = append(all.lines, one.lines...)
	}
	all.Choices = append(all.Choices, Choice{Value: oneByOne, Says: "each is asked about by itself"})
	return all
}

// together puts the questions of a group into one where they are many.
func (q *inquiry) together(open []Question) []Question {
	alike := map[string][]Question{}
	for _, one := range open {
		if one.group != "" && len(one.Examples) > 0 && !q.apart[one.group] {
			alike[one.group] = append(alike[one.group], one)
		}
	}
	var list []Question
	put := map[string]bool{}
	for _, one := range open {
		switch all := alike[one.group]; {
		case len(all) <= fewAlike || len(one.Examples) == 0:
			list = append(list, one)
		case !put[one.group]:
			put[one.group] = true
			list = append(list, one.whole(all))
		}
	}
	if list == nil {
		return []Question{}
	}
	return list
}

// forAll returns the answer that was given to all questions of a group. One
// that it does not fit is asked about by itself.
func (q *inquiry) forAll(l *line, asked Question, example string) (string, bool) {
	if asked.group == "" {
		return "", false
	}
	all := Question{Key: "all:" + asked.group, Asks: fmt.Sprintf(groups[asked.group], fewAlike+1), free: true}
	answer, ok := q.given(l, all)
	if !ok {
		answer, ok = q.remembered(l, all, example)
	}
	if !ok {
		return "", false
	}
	q.apart[asked.group] = true
	for _, c := range asked.Choices {
		if asked.means[c.Value] == answer {
			q.decide(l, asked, c.Value)
			return c.Value, true
		}
	}
	return "", false
}
