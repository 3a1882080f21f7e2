package intake

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// sort is what a list is about.
type sort string

const (
	ofThings sort = "item list"
	ofPeople sort = "person list"
	ledger   sort = "ledger"
)

// list is one sheet that was understood.
type list struct {
	table   sheet.Table
	sort    sort
	mapping sheet.Mapping
	lines   []*line
	days    days
	given   sheet.Given // of a sheet of ours
	from    string      // sign of the source, once it was asked for
	holds   string      // sign of the content, once it was asked for
}

// name names the list for a sentence and for the keys of questions.
func (l *list) name() string {
	stem, _, _ := strings.Cut(l.table.File, ".")
	if l.table.Name == "" || l.table.Name == stem || l.table.Name == l.table.File {
		return l.table.File
	}
	return l.table.File + ", " + l.table.Name
}

// recognise finds out what sort of list a table is.
func recognise(t sheet.Table) (*list, error) {
	asPeople, notPeople := sheet.Map(t, people, nil)
	asThings, notThings := sheet.Map(t, things, nil)
	named := has(asPeople, "name") || has(asPeople, "family")
	l := &list{table: t}
	var ours bool
	if l.given, ours = sheet.GivenOut(t); ours && !comesBack(l.given.What) {
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%s is the %s as Lungwort gave it out, for reading only.", l.name(), l.given.What),
			"Change the book on its screens; items, loans and people can be edited in a sheet and taken in.")
	}
	if l.given.What == OurItems || l.given.What == OurLoans {
		named = false // who has an item is told by the book
	}
	switch {
	case notPeople == nil && named && (!has(asThings, "serial") || len(asPeople.Columns) >= len(asThings.Columns)):
		l.sort, l.mapping = ofPeople, asPeople
		if has(asPeople, "date out") {
			l.sort = ledger
		}
	case notThings == nil && has(asThings, "serial"):
		l.sort, l.mapping = ofThings, asThings
	default:
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%s is neither an item list nor a person list.", l.name()),
			"An item list needs a column Serial; a person list a column Name, or Family name and Given name.")
	}
	for _, row := range l.mapping.Body(t) {
		l.lines = append(l.lines, &line{list: l, row: row})
	}
	return l, nil
}

// comesBack reports whether a sheet of ours can be edited and taken in.
func comesBack(what string) bool { return what == OurItems || what == OurLoans || what == OurPeople }

func has(m sheet.Mapping, key string) bool {
	if _, found := m.Columns[key]; found {
		return true
	}
	return slices.ContainsFunc(m.Doubtful, func(d sheet.Doubtful) bool { return slices.Contains(d.Keys, key) })
}

// settleHeadings asks about the headings in doubt; every row waits for the
// answers, because every row holds such a cell.
func (l *list) settleHeadings(q *inquiry) {
	for _, d := range l.mapping.Doubtful {
		choices := []Choice{}
		for _, key := range d.Keys {
			choices = append(choices, Choice{key, meaning(key)})
		}
		choices = append(choices, Choice{"none", "leave the column out"})
		for _, line := range l.lines {
			answer, ok := q.ask(line, Question{
				Key: fmt.Sprintf("column:%s:%s", l.name(), d.Heading), Asks: d.Asks, Choices: choices,
			}, line.row.Cell(d.Column).Text)
			if ok && answer != "none" {
				l.mapping.Columns[answer], l.mapping.Headings[answer] = d.Column, d.Heading
			}
		}
	}
}

func meaning(key string) string {
	if words := means[key]; words != "" {
		return words
	}
	return key
}

// columns says what each column was taken for.
func (l *list) columns() []Column {
	taken := map[int]string{}
	for key, column := range l.mapping.Columns {
		taken[column] = key
	}
	var all []Column
	for i := range l.mapping.Width {
		if key, ok := taken[i]; ok {
			all = append(all, Column{l.name(), l.mapping.Headings[key], meaning(key)})
		}
	}
	for _, d := range l.mapping.Doubtful {
		if taken[d.Column] == "" {
			all = append(all, Column{l.name(), d.Heading, "asked about"})
		}
	}
	for _, heading := range l.mapping.Unmapped {
		all = append(all, Column{l.name(), heading, "not used"})
	}
	return all
}
