package runs

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/scene"
)

// Horizon is how far ahead the ribbons look.
const Horizon = 6 * time.Hour

// Task is a home with open tasks that no run serves yet.
type Task struct {
	Person       inventory.PersonID
	Verdict      string // empty for a home that needs no oxygen any more
	Name, Detail string
	Due          string
}

// Row is one run, or one of its stops for one person, its words ready.
type Row struct {
	ID     string
	Run    inventory.RunID
	Person inventory.PersonID // empty on the row of the run itself
	Done   bool               // the stop, or every stop of the run, is closed

	Verdict      string
	Name, Detail string
	Time, Beside string // departs and back, or arrives and act-by
	Late         bool
	Ribbon       *scene.RibbonData
}

// Trouble is a stop that can't be kept.
type Trouble struct {
	ID           string
	Person       inventory.PersonID
	Who, Where   string
	Says, Relief string
}

func runID(id inventory.RunID) string { return "run " + string(id) }

func (b book) task(e delivery.Errand) Task {
	t := Task{Person: e.Care.Person, Verdict: verdict(e.Watch), Name: b.who(e.Care.Person, e.Address.ID), Detail: tasksOf(e.Care)}
	switch by := e.ActBy(); {
	case !by.IsZero():
		t.Due = "act-by " + delivery.Clock(by, b.now)
	default:
		t.Due = due(e.Care, b.now)
	}
	return t
}

// verdict is of no use for a home without oxygen of ours.
func verdict(w delivery.Watch) string {
	if !w.Care.Watched() {
		return ""
	}
	return string(w.Verdict)
}

// due says when the first of the tasks has to be done.
func due(c delivery.Care, now time.Time) string {
	var first time.Time
	for _, t := range c.Tasks {
		by := t.Due
		if by.IsZero() {
			by = t.Until
		}
		if !by.IsZero() && (first.IsZero() || by.Before(first)) {
			first = by
		}
	}
	if first.IsZero() {
		return ""
	}
	return "by " + delivery.Clock(first, now)
}

func tasksOf(c delivery.Care) string {
	parts := make([]string, len(c.Tasks))
	for i, t := range c.Tasks {
		parts[i] = string(t.Tasked.Task) + ": " + bring(t)
	}
	return strings.Join(parts, " · ")
}

// bring says what a task brings, or why it is there.
func bring(t delivery.OpenTask) string {
	if len(t.Bring) == 0 {
		return t.Why
	}
	parts := make([]string, len(t.Bring))
	for i, w := range t.Bring {
		what := strings.TrimPrefix(inventory.Spec{Kind: w.Kind, Size: w.Size, Rated: w.Rated}.What(), "oxygen ")
		if parts[i] = what; w.Count > 1 {
			parts[i] = fmt.Sprintf("%d × %s", w.Count, what)
		}
	}
	return strings.Join(parts, ", ")
}

// who names a person and where the home is.
func (b book) who(id inventory.PersonID, at inventory.AddressID) string {
	if w, ok := b.watch[id]; ok {
		return strings.Trim(w.Person.Short()+", "+w.Address.Street, ", ")
	}
	return strings.Trim(b.names[id]+", "+b.streets[at], ", ")
}

// run returns the rows of a run in force.
func (b book) run(r delivery.Run) []Row {
	head := Row{
		ID: runID(r.ID), Run: r.ID, Done: len(r.Open()) == 0,
		Name:   strings.Trim(r.Vehicle+" · "+r.Driver, " ·"),
		Detail: fmt.Sprintf("%s · %d of %s open%s", kilometres(r.Metres), len(r.Open()), delivery.Count(len(r.Stops), "stop"), rests(r.Rests)),
		Time:   b.clock(r.Departs), Beside: "back " + b.clock(r.Back),
	}
	if head.Done {
		head.Detail = "every stop is closed: Enter counts the van and ends the run"
	}
	rows := []Row{head}
	for i, s := range r.Stops {
		for _, who := range s.Persons {
			row := b.stop(i+1, s.PlannedStop, who)
			row.ID, row.Run = fmt.Sprintf("%s %d %s", runID(r.ID), i, who), r.ID
			if row.Done = !s.Waits(who); row.Done {
				row = closed(row, s, b.now)
			}
			rows = append(rows, row)
		}
	}
	return rows
}

func closed(row Row, s delivery.Stop, now time.Time) Row {
	row.Verdict, row.Ribbon, row.Late, row.Beside = "", nil, false, ""
	row.Time = "done"
	if !s.Closed.IsZero() {
		row.Time = "done " + delivery.Clock(s.Closed, now)
	}
	if s.Failed != "" {
		row.Time = strings.Replace(row.Time, "done", "failed", 1)
		row.Detail = s.Failed
	}
	return row
}

// proposed returns the rows of a run that is only proposed.
func (b book) proposed(i int, p delivery.Planned) []Row {
	id := fmt.Sprint("proposed ", i)
	rows := []Row{{
		ID: id, Name: strings.Trim(p.Vehicle+" · "+p.Driver, " ·") + " · proposed",
		Detail: fmt.Sprintf("%s · %s%s", kilometres(p.Metres), delivery.Count(len(p.Stops), "stop"), rests(p.Rests)),
		Time:   b.clock(p.Departs), Beside: "back " + b.clock(p.Back),
	}}
	for n, s := range p.Stops {
		for _, who := range s.Persons {
			row := b.stop(n+1, s, who)
			row.ID = fmt.Sprintf("%s %d %s", id, n, who)
			rows = append(rows, row)
		}
	}
	return rows
}

// stop is a person's row at a stop: judged with the vehicle arriving as
// planned.
func (b book) stop(number int, s delivery.PlannedStop, who inventory.PersonID) Row {
	row := Row{
		Person: who, Name: fmt.Sprintf("%d  %s", number, b.who(who, s.Address)),
		Time: b.clock(s.Arrive), Late: s.Late > 0 || !s.ActBy.IsZero() && s.Arrive.After(s.ActBy),
	}
	w, known := b.watch[who]
	if !known {
		return row
	}
	row.Detail = b.at(s, w.Care)
	if w.Address.Rough {
		row.Detail = "place only about right · " + row.Detail
	}
	if by := w.ActBy(); !by.IsZero() {
		row.Beside, row.Late = "act-by "+b.clock(by), s.Arrive.After(by)
	}
	if w.Care.Watched() {
		w.Visit = s.Arrive
		row.Verdict = string(depletion.Judge(w.Home, w.Forecast, s.Arrive, b.programme.Margin))
		ribbon := paperwork.Ribbon(w, b.now, Horizon)
		row.Ribbon = &ribbon
	}
	return row
}

// at says what is done at a stop: its own tasks, not those opened since.
func (b book) at(s delivery.PlannedStop, c delivery.Care) string {
	c.Tasks = slices.DeleteFunc(slices.Clone(c.Tasks), func(t delivery.OpenTask) bool { return !slices.Contains(s.Tasks, t.ID) })
	if len(c.Tasks) == 0 {
		return "call in"
	}
	return tasksOf(c)
}

func (b book) clock(t time.Time) string { return delivery.Clock(t, b.now) }

func kilometres(metres int64) string { return fmt.Sprintf("%.0f km", float64(metres)/1000) }
