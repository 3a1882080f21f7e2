package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
)

// OnePerson asks whether two records are one person. It comes from who they
// are, not from facts.
const OnePerson inventory.Clash = "one-person"

// Owner is who has to settle a question.
type Owner string

// The owners of questions.
const (
	Clinician   Owner = "clinician"
	Coordinator Owner = "coordinator"
	Warehouse   Owner = "warehouse"
)

// A question about whether a person had gas is settled within safetyWithin,
// any other within a day. Common practice, no source.
const (
	safetyWithin   = 2 * time.Hour
	questionWithin = 24 * time.Hour
)

// Choice is one way to settle a question: which evidence counts, and what is to
// be done then. Nothing is done by choosing.
type Choice struct {
	Value string `json:"value"`
	Next  string `json:"next"`
	// Because is what in the book speaks for it, or that nothing does.
	Because string `json:"because,omitempty"`
}

// sort is what all questions of a clash share.
type sort struct {
	title   string
	owner   Owner
	within  time.Duration
	choices []Choice
}

var sorts = map[inventory.Clash]sort{
	inventory.FullAsEmpty: {"Came back full", Clinician, safetyWithin, []Choice{
		{Value: "had gas", Next: "Write down from what. The cylinder goes to the bench."},
		{Value: "had no gas", Next: "Open an incident and keep cylinder and regulator as they are. The clinician sees the person today."},
		{Value: "another's cylinder", Next: "Find whose it was; correct both loans."},
	}},
	inventory.HoursDown: {"Hours went down", Warehouse, questionWithin, []Choice{
		{Value: mixedSerial, Next: "Read the plates of both machines and take back the reading of the wrong one."},
		{Value: newBoard, Next: "Enter the repair; hours count from the new reading."},
		{Value: misread, Next: "Take the wrong reading back on the machine's page."},
	}},
	inventory.GaugeRose: {"Gauge rose without a fill", Warehouse, questionWithin, []Choice{
		{Value: "filled", Next: "Enter the fill with its lot and date: the fill is the drug."},
		{Value: misread, Next: "Take the wrong reading back on the cylinder's page."},
		{Value: mixedSerial, Next: "Read the stamps of both cylinders and take back the reading of the wrong one."},
	}},
	inventory.TwoPlaces: {"In two places", Coordinator, questionWithin, []Choice{
		{Value: "the later", Next: "Take the earlier fact back if it never was so."},
		{Value: "the earlier", Next: "Take the later fact back on the item's page."},
		{Value: "both", Next: "Enter what happened between, with its time."},
	}},
	inventory.LentTwice: {"Lent twice", Coordinator, questionWithin, []Choice{
		{Value: "the later", Next: "Enter how it came back from the first person, with its time."},
		{Value: "the earlier", Next: "Take the second loan back; find what that person really has."},
		{Value: "both", Next: "Enter the return between the two loans, with its time."},
	}},
	inventory.LateFact: {"Keyed late, against later facts", Coordinator, questionWithin, []Choice{
		{Value: "the late fact", Next: "Take back or correct what was recorded before."},
		{Value: "the facts before", Next: "Take the late fact back."},
		{Value: "both", Next: "Enter what happened between, with its time."},
	}},
	inventory.Contradiction: {"Facts disagree", Coordinator, questionWithin, []Choice{
		{Value: "the later", Next: "Take the earlier fact back if it never was so."},
		{Value: "the earlier", Next: "Take the later fact back."},
		{Value: "both", Next: "Enter what happened between, with its time."},
	}},
	ChargeRunning: {"Charge after a death", Coordinator, questionWithin, []Choice{
		{Value: "stopped", Next: "Keep the paper that says from which day."},
		{Value: "nothing was charged", Next: "Nothing more is to be done."},
	}},
	OnePerson: {"Two records, perhaps one person", Coordinator, questionWithin, []Choice{
		{Value: "one person", Next: "The loans go on under one record; call both wards about the order in force."},
		{Value: "two persons", Next: "Both records stay. Label each machine with its person."},
	}},
}

// Inquiry is a question with everything that is needed to settle it.
type Inquiry struct {
	inventory.Question
	Item   *inventory.Item  `json:"-"` // nil: about persons alone
	Person *Person          `json:"-"` // nil: about an item nobody had
	Other  *Person          `json:"-"` // who may be the same person
	Facts  []inventory.Fact `json:"-"` // the evidence, oldest first
	// Because is what speaks for each answer, where the book can tell.
	Because map[string]string `json:"-"`
}

// Title returns what the question is about in a few words.
func (q Inquiry) Title() string { return sorts[q.Clash].title }

// Owner returns who has to settle the question.
func (q Inquiry) Owner() Owner { return sorts[q.Clash].owner }

// Due returns when the question is to be settled.
func (q Inquiry) Due() time.Time { return q.Opened.Add(sorts[q.Clash].within) }

// Choices returns the ways to settle the question, each with what speaks for it.
func (q Inquiry) Choices() []Choice {
	all := slices.Clone(sorts[q.Clash].choices)
	for n := range all {
		all[n].Because = q.Because[all[n].Value]
	}
	return all
}

// About names what the question is about: the item and, short, the persons.
func (q Inquiry) About() string {
	var about []string
	if q.Item != nil {
		about = append(about, q.Item.Label())
	}
	for _, p := range []*Person{q.Person, q.Other} {
		if p != nil {
			about = append(about, p.Short())
		}
	}
	return strings.Join(about, " · ")
}

// ByDue orders questions by when they are due.
func ByDue(list []Inquiry) {
	slices.SortStableFunc(list, func(a, b Inquiry) int {
		return cmp.Or(a.Due().Compare(b.Due()), cmp.Compare(a.Key, b.Key))
	})
}

// choice returns a way to settle a question of a clash.
func choice(clash inventory.Clash, value string) (Choice, bool) {
	all := sorts[clash].choices
	i := slices.IndexFunc(all, func(c Choice) bool { return c.Value == value })
	if i < 0 {
		return Choice{}, false
	}
	return all[i], true
}

// choicesInWords lists the ways to settle a question of a clash.
func choicesInWords(clash inventory.Clash) string {
	var values []string
	for _, c := range sorts[clash].choices {
		values = append(values, fmt.Sprintf("%q", c.Value))
	}
	return strings.Join(values, ", ")
}
