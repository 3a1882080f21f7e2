package intake

import (
	"cmp"
	"context"
	"fmt"
	"iter"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// Column says what one column was taken for.
type Column struct {
	List    string `json:"list"`
	Heading string `json:"heading"`
	Means   string `json:"means"`
}

// Refusal is a row that can't be taken in, with the reason.
type Refusal struct {
	Row int    `json:"row"`
	Why string `json:"why"`
}

// Reading is what was understood of the tables of one intake, and what would
// be written. Every row that shows anything is taken, waits for an answer,
// is refused, or is left out with a notice.
type Reading struct {
	Rows      int        `json:"rows"`
	Taken     int        `json:"taken"`
	Questions []Question `json:"questions"`
	Reused    []Reused   `json:"reused"` // questions that were answered before
	Refused   []Refusal  `json:"refused"`
	Findings  []string   `json:"findings"` // what the list says, and can't be, or needs somebody
	Notices   []string   `json:"notices"`  // what was left out or assumed
	Changes   []string   `json:"changes"`  // what would be otherwise in the book, a sentence each
	Columns   []Column   `json:"columns"`

	// TookIn is the number under which the clear rows were written; zero
	// before that.
	TookIn inventory.FactID `json:"took_in,omitempty"`

	Waiting int   `json:"-"` // rows with a question
	LeftOut int   `json:"-"`
	People  []Who `json:"-"` // everybody the rows name, new or known
	Added   Added `json:"-"`
	Changed int   `json:"-"` // known things and persons of which something changes

	acts    []delivery.Act
	decided []delivery.SheetAnswer
	lists   []*list
}

// Who is one person the rows name.
type Who struct {
	Name   string
	Record string
	Known  bool // the book has the person
	Rows   []int
}

// Added counts what the clear rows would add to the book.
type Added struct {
	Things, Persons, Facts int
}

// Acts returns the acts that write the clear rows, to be done in one
// transaction at the time of the reading.
func (r Reading) Acts() []delivery.Act { return r.acts }

// Decided returns the answers that were given to this reading and are not
// kept yet.
func (r Reading) Decided() []delivery.SheetAnswer { return r.decided }

// Resident is a person the book has.
type Resident struct {
	Person  delivery.Person
	Address delivery.Address
	Care    delivery.Care
}

// Known is what the book already has.
type Known struct {
	Items  []inventory.Item
	People []Resident
	// Decisions are the answers that were kept, the last one first.
	Decisions []Decision
	// Facts returns the facts about one item or one person.
	Facts func(inventory.ItemID, inventory.PersonID) ([]inventory.Fact, error)
}

// reader reads the tables of one intake.
type reader struct {
	*inquiry
	known     Known
	programme delivery.Programme
	at        time.Time

	lists   []*list
	serials twins
	lots    twins
	things  *register
	stocks  []*stock
	entries []*entry
	persons []*person
	places  places
	out     Reading
	found   map[string]bool // the findings told
	changes []change
	amends  amendments
	alike   alikes
	failed  error // the book could not be read, or the reading was stopped
	pace    pace
}

// Read reads the tables and says what was understood. It writes nothing. At
// is the time of taking in, in the zone of the place: what is written without an
// offset is read on its clocks. Tell is told how far the reading is, from 0 to 1;
// it may be nil.
func Read(ctx context.Context, tables []sheet.Table, known Known, p delivery.Programme, answers Answers, at time.Time, tell func(share float64)) (Reading, error) {
	r := &reader{
		inquiry: newInquiry(answers, known.Decisions),
		known:   known, programme: p, at: at, places: newPlaces(p), found: map[string]bool{}, amends: newAmendments(known.People), alike: newAlikes(),
		pace: newPace(ctx, tell),
	}
	steps := []struct {
		until float64 // the share of the whole that is done then, as measured on long lists
		do    func() error
	}{
		{0.06, func() error { return r.recognise(tables) }},
		{0.13, r.pairSerials},
		{0.30, func() error { return r.eachLine(ofThings, r.readStock) }},
		{0.50, func() error { return r.eachLine("", r.readEntry) }},
		{0.58, r.gatherPersons},
		{1, r.plan},
	}
	for _, step := range steps {
		r.pace.begin(step.until)
		if err := step.do(); err != nil {
			return Reading{}, err
		}
		if err := cmp.Or(r.failed, ctx.Err()); err != nil {
			return Reading{}, err
		}
	}
	r.count()
	return r.out, nil
}

// recognise sorts the tables into lists. A sheet that is no list is left out
// with a notice; when none is one, the intake is refused.
func (r *reader) recognise(tables []sheet.Table) error {
	var why error
	for _, t := range tables {
		for _, note := range t.Notes {
			r.notice("%s: %s", (&list{table: t}).name(), note)
		}
		l, err := recognise(t)
		if err != nil {
			why = cmp.Or(why, err)
			r.notice("Left out: %s", refusal.For(err))
			continue
		}
		if l.given.What != "" {
			r.notice("%s was given out by Lungwort (%s), facts as of %s: only what was edited since is taken.", l.name(), l.given.What, l.given.AsOf.Format("2 Jan 2006 15:04"))
		}
		l.settleHeadings(r.inquiry)
		r.lists = append(r.lists, l)
		r.out.Columns = append(r.out.Columns, l.columns()...)
	}
	if len(r.lists) == 0 {
		if why == nil {
			why = refusal.New(refusal.Invalid, "There is no list to take in.", "Choose a file with an item list or a person list.")
		}
		return why
	}
	r.judgeDays()
	return nil
}

// eachLine reads the lines of lists of one sort, or those that are about
// persons.
func (r *reader) eachLine(of sort, read func(*line)) error {
	r.pace.expect(r.lines())
	for _, l := range r.lists {
		if (l.sort == ofThings) != (of == ofThings) {
			continue
		}
		for _, line := range l.lines {
			if r.moved() {
				return r.failed
			}
			if !r.ownRow(line) {
				read(line)
			}
		}
	}
	return nil
}

// lines is how many lines the lists have.
func (r *reader) lines() int {
	n := 0
	for _, l := range r.lists {
		n += len(l.lines)
	}
	return n
}

// moved counts one part of the step under way as done, and reports whether the
// reading was stopped.
func (r *reader) moved() (stopped bool) {
	if err := r.pace.moved(); err != nil {
		r.failed = err
	}
	return r.failed != nil
}

// each goes through all, counting each as a part of the step under way; it ends
// where the reading was stopped.
func each[T any](r *reader, all []T) iter.Seq[T] {
	return func(yield func(T) bool) {
		for _, one := range all {
			if r.moved() || !yield(one) {
				return
			}
		}
	}
}

// leaveOut leaves out a row that is none of the programme's, and says so.
func (r *reader) leaveOut(l *line, why string) {
	l.left = why
	r.notice("%s %s and is left out.", l.where(), why)
}

func (r *reader) notice(format string, args ...any) {
	r.out.Notices = append(r.out.Notices, fmt.Sprintf(format, args...))
}

func (r *reader) finding(format string, args ...any) {
	said := fmt.Sprintf(format, args...)
	if !r.found[said] {
		r.found[said] = true
		r.out.Findings = append(r.out.Findings, said)
	}
}

// count sums up what becomes of the rows.
func (r *reader) count() {
	out := &r.out
	r.tellChanges()
	out.Questions, out.lists = r.open(), r.lists
	out.Reused, out.decided = r.kept, r.decided
	out.Refused = []Refusal{}
	for _, l := range r.lists {
		for _, line := range l.lines {
			out.Rows++
			switch line.fate() {
			case clear:
				out.Taken++
			case waiting:
				out.Waiting++
			case leftOut:
				out.LeftOut++
			case refused:
				out.Refused = append(out.Refused, Refusal{line.number(), r.reason(line)})
			}
		}
		l.lines = notTakenOf(l.lines) // all that is told of the list from here on
	}
	for _, list := range []*[]string{&out.Findings, &out.Notices} {
		if *list == nil {
			*list = []string{}
		}
	}
}

// reason joins the reasons of a refusal; with several lists it begins with
// the list, because row numbers repeat.
func (r *reader) reason(l *line) string {
	why := ""
	if len(r.lists) > 1 {
		why = l.list.name() + ": "
	}
	for i, reason := range l.refuses {
		if i > 0 {
			why += " "
		}
		why += reason
	}
	return why
}
